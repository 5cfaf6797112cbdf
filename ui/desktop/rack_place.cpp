// rack_place.cpp
