// plan_view.cpp
