// rack_model.cpp
