// fields.cpp
