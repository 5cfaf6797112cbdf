// jobs_place.cpp
