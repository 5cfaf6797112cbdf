// saw_steps.cpp
