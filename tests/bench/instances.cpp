#include "tests/bench/instances.h"

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

std::int64_t count(const std::string& text) { return text == "inf" ? -1 : std::stoll(text); }

/// Cutting bill CB1 (README of red_oak_boards_1998): value = area.
void addBillCb1(Instance& instance) {
  for (const Tick l : {60, 84, 108, 132, 180, 240})
    for (const Tick w : {6, 8, 10, 14}) instance.pieces.push_back({l, w, l * w, 0, -1});
}

}  // namespace

std::vector<Instance> readSet(const std::string& folder) {
  std::ifstream in(folder + "/instances.txt");
  const bool oak = !in;
  if (oak) in = std::ifstream(folder + "/boards.txt");
  if (!in) throw std::runtime_error(folder + ": neither instances.txt nor boards.txt");
  std::vector<Instance> all;
  Instance now;
  int boards = 0;
  std::string line;
  for (int number = 1; std::getline(in, line); ++number) {
    std::istringstream words(line);
    std::string key;
    if (!(words >> key)) continue;
    if (key == "instance") {
      now = {};
      boards = 0;
      words >> now.name;
    } else if (key == "board") {
      std::string copies;
      words >> now.length >> now.width >> copies;
      now.oneBoard = ++boards == 1 && copies == "1";
    } else if (key == "item") {
      Instance::Piece piece;
      std::string least, most;
      words >> piece.l >> piece.w >> piece.value >> least >> most;
      piece.least = count(least);
      piece.most = count(most);
      now.pieces.push_back(piece);
    } else if (key == "defect") {
      int board = 0;
      optimizer::Rect r;
      words >> board >> r.x >> r.y >> r.dx >> r.dy;
      now.defects.push_back(r);
    } else if (key == "stock" || key == "piece") {
      now.oneDimensional = true;
    } else if (key == "end") {
      if (oak) addBillCb1(now);
      all.push_back(std::move(now));
    } else if (key != "grade") {
      throw std::runtime_error(folder + ", line " + std::to_string(number) + ": unknown keyword " +
                               key);
    }
    if (words.fail())
      throw std::runtime_error(folder + ", line " + std::to_string(number) + ": a word is missing");
  }
  return all;
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
    if ((f[2] != "2" && f[2] != "3") || f[6] != "unlimited" || f[1].rfind("max_", 0) != 0) continue;
    Known known{f[0], {}, std::stoll(f[8]), f[9], f[10]};
    known.variant.stages = std::stoi(f[2]);
    known.variant.first = f[3] == "x" ? FirstCut::x : f[3] == "y" ? FirstCut::y : FirstCut::any;
    known.variant.trim = f[4] == "nonexact";
    known.variant.rotation = f[5] == "yes";
    known.variant.kerf = std::stoi(f[7]);
    all.push_back(std::move(known));
  }
  return all;
}

Case makeCase(const Instance& instance, const Variant& variant) {
  Case made;
  optimizer::Problem& problem = made.problem;
  problem.saw.stages = variant.stages;
  problem.saw.first = variant.first;
  problem.saw.trim = variant.trim;
  problem.saw.kerfX = problem.saw.kerfY = variant.kerf;
  const auto add = [&](Tick l, Tick w, optimizer::Worth value) {
    made.priced.push_back({static_cast<int>(problem.items.size()), value});
    problem.items.push_back({l, w, 0});
  };
  for (const Instance::Piece& piece : instance.pieces) add(piece.l, piece.w, piece.value);
  if (variant.rotation)
    for (const Instance::Piece& piece : instance.pieces)
      if (piece.l != piece.w) add(piece.w, piece.l, piece.value);
  problem.needs.push_back({0, 0});
  optimizer::Stock stock;
  stock.profile = optimizer::Profile::rectangle(instance.length, instance.width);
  stock.itemClass.assign(problem.items.size(), 0);
  for (auto& zones : stock.zones)
    for (const optimizer::Rect& defect : instance.defects) zones.push_back({defect, 1});
  problem.stock.push_back(std::move(stock));
  return made;
}

std::string unsupported(const Instance& instance) {
  if (instance.oneDimensional) return "one-dimensional sets are not supported yet";
  if (!instance.oneBoard) return "sets of several boards are not supported yet";
  for (const Instance::Piece& piece : instance.pieces)
    if (piece.most >= 0 || piece.least > 0) return "limited copies are not supported yet";
  return {};
}

}  // namespace flitch::bench
