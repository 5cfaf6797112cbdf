#include "tests/bench/instances.h"

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace flitch::bench {
namespace {

using optimizer::FirstCut;
using optimizer::Tick;

std::vector<std::string> fields(const std::string& line) {
  std::vector<std::string> parts;
  std::stringstream in(line);
  for (std::string part; std::getline(in, part, ',');) parts.push_back(part);
  return parts;
}

std::int64_t count(const std::string& text) {
  return text == "inf" ? Instance::any : std::stoll(text);
}

/// Cutting bill CB1 (README of red_oak_boards_1998): value = area.
void addBillCb1(Instance& instance) {
  for (const Tick l : {60, 84, 108, 132, 180, 240})
    for (const Tick w : {6, 8, 10, 14}) instance.pieces.push_back({l, w, l * w});
}

/// Reads a line other than the first and the last of an instance. False: unknown keyword.
bool readLine(const std::string& key, std::istringstream& words, Instance& now) {
  std::string copies;
  if (key == "board") {
    words >> now.length >> now.width >> copies;
    now.copies = count(copies);
  } else if (key == "item") {
    Instance::Piece piece;
    std::string least, most;
    words >> piece.l >> piece.w >> piece.value >> least >> most;
    piece.least = count(least);
    piece.most = count(most);
    now.pieces.push_back(piece);
  } else if (key == "defect") {
    int board = 0;
    Instance::Defect defect;
    optimizer::Rect& r = defect.where;
    words >> board >> r.x >> r.y >> r.dx >> r.dy >> defect.type;
    std::string face;
    if (words && !(words >> face)) words.clear();  // most sets name none
    defect.onBack = face == "back";
    now.defects.push_back(defect);
  } else if (key == "grade") {
    words >> now.grade;
  } else if (key == "stock") {
    words >> now.length >> copies;
    now.width = 1;
    now.copies = count(copies);
    now.oneDimensional = true;
  } else if (key == "piece") {
    Instance::Piece piece{.w = 1};
    words >> piece.l >> piece.least;
    piece.most = piece.least;
    now.pieces.push_back(piece);
  } else {
    return false;
  }
  return true;
}

}  // namespace

Goal Instance::goal() const {
  const bool all =
      std::any_of(pieces.begin(), pieces.end(), [](const Piece& piece) { return piece.least > 0; });
  if (!all) return Goal::mostValue;
  return copies == 1 ? Goal::fits : Goal::fewestBoards;
}

std::vector<Instance> readSet(const std::string& folder) {
  std::ifstream in(folder + "/instances.txt");
  const bool oak = !in;
  if (oak) in = std::ifstream(folder + "/boards.txt");
  if (!in) throw std::runtime_error(folder + ": neither instances.txt nor boards.txt");
  std::vector<Instance> all;
  Instance now;
  std::string line;
  for (int number = 1; std::getline(in, line); ++number) {
    std::istringstream words(line);
    std::string key;
    if (!(words >> key)) continue;
    const std::string place = folder + ", line " + std::to_string(number);
    if (key == "instance") {
      now = {};
      words >> now.name;
    } else if (key == "end") {
      if (oak) addBillCb1(now);
      all.push_back(std::move(now));
    } else if (!readLine(key, words, now)) {
      throw std::runtime_error(place + ": unknown keyword " + key);
    }
    if (words.fail()) throw std::runtime_error(place + ": a word is missing");
  }
  return all;
}

bool holds(const Variant& outer, const Variant& inner) {
  if (outer.kerf != inner.kerf || (inner.rotation && !outer.rotation)) return false;
  if (outer.stages == Variant::unlimited) return true;
  if (outer.stages < inner.stages) return false;
  const bool sameFirst = outer.first == FirstCut::any || outer.first == inner.first;
  if (outer.stages == inner.stages) return sameFirst && (outer.trim || !inner.trim);
  // A stage to spare: it does the trimming, or comes first and does nothing.
  return sameFirst || outer.trim || !inner.trim;
}

std::vector<Known> readKnown(const std::string& file) {
  std::ifstream in(file);
  if (!in) throw std::runtime_error(file + ": cannot be read");
  std::string line;
  std::getline(in, line);
  if (line !=
      "instance,objective,stages,first_cut,trim,rotation,demand,kerf,value,kind,source,check")
    throw std::runtime_error(file + ": unexpected columns");
  std::vector<Known> all;
  while (std::getline(in, line)) {
    const std::vector<std::string> f = fields(line);
    if (f.size() < 11) throw std::runtime_error(file + ": a short row: " + line);
    Known known;
    known.instance = f[0];
    known.anyVariant = f[2] == "na";
    known.variant.stages =
        known.anyVariant || f[2] == "unlimited" ? Variant::unlimited : std::stoi(f[2]);
    known.variant.first = f[3] == "x" ? FirstCut::x : f[3] == "y" ? FirstCut::y : FirstCut::any;
    known.variant.trim = f[4] == "nonexact";
    known.variant.rotation = f[5] == "yes";
    known.variant.kerf = std::stoi(f[7]);
    known.value = std::stoll(f[8]);
    known.kind = f[9];
    known.source = f[10];
    all.push_back(std::move(known));
  }
  return all;
}

}  // namespace flitch::bench
