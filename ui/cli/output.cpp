// output.cpp
