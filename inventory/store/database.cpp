// database.cpp
