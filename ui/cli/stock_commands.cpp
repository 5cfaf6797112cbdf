// stock_commands.cpp
