// parts_model.cpp
