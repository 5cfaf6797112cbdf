// actions.cpp
