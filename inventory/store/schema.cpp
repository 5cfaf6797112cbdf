// schema.cpp
