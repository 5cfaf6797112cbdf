// board_view.cpp
