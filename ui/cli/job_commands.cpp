// job_commands.cpp
