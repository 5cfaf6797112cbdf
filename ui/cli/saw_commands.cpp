// saw_commands.cpp
