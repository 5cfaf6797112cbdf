// window.cpp
