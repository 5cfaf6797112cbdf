#include "tests/acceptance/red_oak.h"

#include <algorithm>
#include <array>
#include <fstream>
#include <map>
#include <sstream>

namespace flitch::acceptance {

namespace {

struct Flaw {
  int x = 0, y = 0, dx = 0, dy = 0;
  std::string kind;
  bool back = false;
};

struct OakBoard {
  std::string grade;
  int length = 0, width = 0;
  std::vector<Flaw> flaws;
};

/// Quarter inches as decimals, with their unit: 97 is "24.25 in".
std::string inches(int quarters) {
  static constexpr const char* fractions[] = {"", ".25", ".5", ".75"};
  return std::to_string(quarters / 4) + fractions[quarters % 4];
}

/// Edges of a face at each quarter inch of its length, inside the wood on both sides of it.
std::string outlineOf(const OakBoard& board, bool back) {
  const auto columns = static_cast<std::size_t>(board.length);
  std::vector<int> low(columns, 0);
  std::vector<int> high(columns, board.width);
  for (const Flaw& flaw : board.flaws) {
    if (flaw.kind != "VOID" || flaw.back != back) continue;
    for (int x = std::max(0, flaw.x); x < std::min(board.length, flaw.x + flaw.dx); ++x) {
      const auto column = static_cast<std::size_t>(x);
      if (flaw.y <= 0) {
        low[column] = std::max(low[column], flaw.y + flaw.dy);
      } else {
        high[column] = std::min(high[column], flaw.y);
      }
    }
  }
  struct Point {
    int x, near, far;
  };
  std::vector<Point> points;
  for (std::size_t x = 0; x <= columns; ++x) {
    const std::size_t left = x == 0 ? 0 : x - 1;
    const std::size_t right = std::min(x, columns - 1);
    const Point point{static_cast<int>(x), std::max(low[left], low[right]),
                      std::min(high[left], high[right])};
    // A point between two equal ones says nothing.
    const std::size_t n = points.size();
    if (n >= 2 && points[n - 1].near == point.near && points[n - 2].near == point.near &&
        points[n - 1].far == point.far && points[n - 2].far == point.far) {
      points.back().x = point.x;
    } else {
      points.push_back(point);
    }
  }
  std::string text;
  for (const Point& p : points) {
    text += (text.empty() ? "" : "; ") + inches(p.x) + ":" + inches(p.near) + "-" + inches(p.far);
  }
  return text;
}

std::string kindOf(const std::string& code) {
  static const std::map<std::string, std::string> kinds{{"BARK_POCKET", "bark pocket"},
                                                        {"DECAY", "unsound knot"},
                                                        {"HOLE", "hole"},
                                                        {"PITH", "pith"},
                                                        {"SOUND_KNOT", "sound knot"},
                                                        {"SPLIT_OR_SHAKE", "split"},
                                                        {"STAIN", "stain"},
                                                        {"UNSOUND_KNOT", "unsound knot"},
                                                        {"WANE", "wane"}};
  return kinds.at(code);
}

void write(const OakBoard& board, Typed& typed) {
  ++typed.boards;
  typed.tally += "red oak,4/4," + inches(board.length) + " in,\"" + outlineOf(board, false) +
                 "\",\"" + outlineOf(board, true) + "\"," + board.grade + ",4.80,rough\n";
  for (const Flaw& flaw : board.flaws) {
    if (flaw.kind == "VOID") continue;
    ++typed.markCount;
    typed.marks += std::to_string(typed.boards) + "," + kindOf(flaw.kind) + "," +
                   (flaw.back ? "B" : "A") + "," + inches(flaw.x) + "," + inches(flaw.x + flaw.dx) +
                   "," + inches(flaw.y) + "," + inches(flaw.y + flaw.dy) + "\n";
  }
}

}  // namespace

Typed readRedOak(const std::string& path, int most) {
  Typed typed;
  typed.tally = "species,quarters,length,outline_a,outline_b,grade,price_per_bf,looked\n";
  typed.marks = "line,kind,face,x_from,x_to,y_from,y_to\n";
  std::ifstream file(path);
  OakBoard board;
  for (std::string line; std::getline(file, line) && typed.boards < most;) {
    std::istringstream words(line);
    std::string head;
    words >> head;
    if (head == "instance") {
      board = {};
    } else if (head == "grade") {
      words >> board.grade;
    } else if (head == "board") {
      words >> board.length >> board.width;
    } else if (head == "defect") {
      int copies = 0;
      std::string face;
      Flaw flaw;
      words >> copies >> flaw.x >> flaw.y >> flaw.dx >> flaw.dy >> flaw.kind >> face;
      flaw.back = face == "back";
      board.flaws.push_back(flaw);
    } else if (head == "end" && board.grade != "-") {
      write(board, typed);
    }
  }
  return typed;
}

}  // namespace flitch::acceptance
