#include "tests/bench/oak_boards.h"

#include <algorithm>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>

namespace flitch::bench {
namespace {

constexpr Length cell = Length::sixtyFourths(16);

Blemish kindOf(const std::string& code) {
  static const std::map<std::string, Blemish> kinds{{"BARK_POCKET", Blemish::barkPocket},
                                                    {"HOLE", Blemish::hole},
                                                    {"PITH", Blemish::pith},
                                                    {"SOUND_KNOT", Blemish::soundKnot},
                                                    {"SPLIT_OR_SHAKE", Blemish::split},
                                                    {"STAIN", Blemish::stain},
                                                    {"UNSOUND_KNOT", Blemish::unsoundKnot},
                                                    {"WANE", Blemish::wane}};
  const auto known = kinds.find(code);
  return known == kinds.end() ? Blemish::other : known->second;
}

void cutAway(GradeBoard& board, const Cells& gone) {
  for (int x = std::max(0, gone.x); x < std::min(board.length, gone.right()); ++x) {
    const auto column = static_cast<std::size_t>(x);
    if (gone.y <= 0) {
      board.near[column] = std::max(board.near[column], gone.top());
    } else {
      board.far[column] = std::min(board.far[column], gone.y);
    }
  }
}

/// The narrower of the widths a third of the length from each end: of a tapering board the one from
/// its narrow end.
int widthOf(const GradeBoard& board) {
  const auto at = [&](int x) {
    const auto column = static_cast<std::size_t>(x);
    return board.far[column] - board.near[column];
  };
  return std::min(at(board.length / 3), at(board.length - 1 - board.length / 3));
}

}  // namespace

std::vector<OakBoard> readOakBoards(const std::string& folder) {
  std::ifstream in(folder + "/boards.txt");
  if (!in) throw std::runtime_error(folder + ": no boards.txt");
  std::vector<OakBoard> all;
  OakBoard now;
  std::string line;
  for (int number = 1; std::getline(in, line); ++number) {
    std::istringstream words(line);
    std::string key;
    if (!(words >> key)) continue;
    GradeBoard& board = now.board;
    if (key == "instance") {
      now = {};
      words >> now.name;
    } else if (key == "grade") {
      words >> now.recorded;
    } else if (key == "board") {
      words >> board.length >> board.width;
      board.near.assign(static_cast<std::size_t>(board.length), 0);
      board.far.assign(static_cast<std::size_t>(board.length), board.width);
    } else if (key == "defect") {
      int copy = 0;
      std::string type, face;
      Cells where;
      words >> copy >> where.x >> where.y >> where.length >> where.width >> type >> face;
      if (type == "VOID") {
        cutAway(board, where);
      } else {
        board.marks.push_back({kindOf(type), {face == "front", face == "back"}, where});
      }
    } else if (key == "end") {
      board.measuredLength = cell * board.length;
      board.measuredWidth = cell * widthOf(board);
      all.push_back(std::move(now));
      continue;
    } else {
      throw std::runtime_error(folder + ", line " + std::to_string(number) + ": unknown keyword " +
                               key);
    }
    if (words.fail())
      throw std::runtime_error(folder + ", line " + std::to_string(number) + ": a word is missing");
  }
  return all;
}

std::string bankWord(Grade grade) {
  switch (grade) {
    case Grade::fas: return "FAS";
    case Grade::fasOneFace: return "F1F";
    case Grade::selects: return "SEL";
    case Grade::no1Common: return "1C";
    case Grade::no2aCommon: return "2AC";
    case Grade::no3aCommon: return "3AC";
    case Grade::below: return "below";
  }
  return "";
}

}  // namespace flitch::bench
