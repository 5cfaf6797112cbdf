// arguments.cpp
