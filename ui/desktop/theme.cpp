// theme.cpp
