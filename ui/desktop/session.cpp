// session.cpp
