#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <fstream>
#include <sstream>

#include "inventory/planning/planner.h"
#include "tests/records/bench.h"

using namespace flitch;
using bench::in;

// Boards of the 1998 data bank for kiln-dried red oak lumber (Gatchell, Thomas and Walker, USDA
// Forest Service, General Technical Report NE-245; public domain), in quarter inches: x along the
// board, y across. VOID marks what lies outside the outline. See README.md beside the data.
namespace {

constexpr const char* bank = FLITCHBOOK_SOURCE "/tests/data/red_oak_boards_1998/boards.txt";

Length quarters(std::int64_t n) { return Length::sixtyFourths(16 * n); }

struct BankRect {
  std::int64_t x, y, dx, dy;
  std::string type;
  bool back;
};
struct BankBoard {
  std::string name;
  std::int64_t length = 0, width = 0;
  std::vector<BankRect> marks;
};

std::vector<BankBoard> readBank() {
  std::ifstream file(bank);
  REQUIRE(file);
  std::vector<BankBoard> boards;
  std::string line;
  while (std::getline(file, line)) {
    std::istringstream words(line);
    std::string word;
    words >> word;
    if (word == "instance") {
      boards.emplace_back();
      words >> boards.back().name;
    } else if (word == "board") {
      words >> boards.back().length >> boards.back().width;
    } else if (word == "defect") {
      BankRect r{};
      std::string copy, face;
      words >> copy >> r.x >> r.y >> r.dx >> r.dy >> r.type >> face;
      r.back = face == "back";
      boards.back().marks.push_back(r);
    }
  }
  return boards;
}

/// Edges of one face, column by column, less the voids that touch them; a step becomes a slope of a
/// nanometre on the side that loses wood.
Outline outlineOf(const BankBoard& board, bool back) {
  std::vector<std::int64_t> near(static_cast<std::size_t>(board.length), 0);
  std::vector<std::int64_t> far(near.size(), board.width);
  for (const BankRect& m : board.marks) {
    if (m.type != "VOID" || m.back != back) continue;
    for (std::int64_t x = m.x; x < std::min(m.x + m.dx, board.length); ++x) {
      const auto i = static_cast<std::size_t>(x);
      if (m.y == 0) {
        near[i] = std::max(near[i], m.dy);
      } else {
        far[i] = std::min(far[i], m.y);
      }
    }
  }
  std::vector<OutlinePoint> points{{Length(), quarters(near[0]), quarters(far[0])}};
  for (std::size_t x = 1; x < near.size(); ++x) {
    if (near[x] == near[x - 1] && far[x] == far[x - 1]) continue;
    const Length at = quarters(static_cast<std::int64_t>(x));
    const Length hair = Length::nanometres(1);
    const Length worseNear = quarters(std::max(near[x], near[x - 1]));
    const Length worseFar = quarters(std::min(far[x], far[x - 1]));
    points.push_back({at - hair, quarters(near[x - 1]), quarters(far[x - 1])});
    points.push_back({at, worseNear, worseFar});
    points.push_back({at + hair, quarters(near[x]), quarters(far[x])});
  }
  points.push_back({quarters(board.length), quarters(near.back()), quarters(far.back())});
  return Outline(std::move(points));
}

std::string kindOf(const std::string& type) {
  if (type == "SPLIT_OR_SHAKE") return "split";
  if (type == "WANE") return "wane";
  if (type == "BARK_POCKET") return "bark pocket";
  if (type == "HOLE") return "hole";
  if (type == "PITH") return "pith";
  if (type == "SOUND_KNOT") return "sound knot";
  if (type == "STAIN") return "stain";
  return "unsound knot";  // unsound knots, decay, and those whose type the copy does not give
}

Board converted(const BankBoard& from, std::int64_t id) {
  Board board =
      bench::plank(id, quarters(from.length), quarters(from.width), quarters(from.width), Money());
  board.species = "red oak";
  board.thickness = in(1);
  board.outline = {outlineOf(from, false), outlineOf(from, true)};
  for (const BankRect& m : from.marks) {
    if (m.type == "VOID") continue;
    board.defects.push_back({kindOf(m.type), m.back ? DefectFace::b : DefectFace::a,
                             Rect{quarters(m.x), quarters(m.y), quarters(m.dx), quarters(m.dy)}});
  }
  board.wood = volumeOf(board);
  board.measuredFeet = feetOf(board.wood);
  board.cost = cost(Rate{Money::units(6)}, board.measuredFeet);
  return board;
}

/// Twenty part types of a small commission: frames, panels' staves, drawer parts.
Job twentyParts() {
  struct Row {
    std::int64_t length, width, sixteenths;
    int copies;
    const char *a, *b;
  };
  const Row rows[] = {
      {59, 2, 12, 2, "clear", "sound"},   {44, 3, 12, 4, "clear", "sound"},
      {36, 4, 12, 2, "clear", "clear"},   {32, 2, 12, 6, "clear", "sound"},
      {30, 3, 13, 4, "sound", "sound"},   {28, 1, 12, 8, "sound", "hidden"},
      {26, 2, 12, 6, "clear", "sound"},   {24, 5, 12, 3, "clear", "sound"},
      {22, 3, 12, 4, "sound", "sound"},   {21, 2, 13, 5, "clear", "clear"},
      {20, 1, 12, 10, "sound", "sound"},  {18, 4, 12, 4, "clear", "sound"},
      {17, 2, 12, 6, "sound", "hidden"},  {16, 3, 12, 4, "clear", "clear"},
      {15, 2, 12, 8, "sound", "sound"},   {14, 5, 12, 2, "clear", "sound"},
      {13, 1, 12, 12, "clear", "sound"},  {12, 3, 13, 6, "sound", "sound"},
      {11, 2, 12, 8, "hidden", "hidden"}, {11, 4, 12, 3, "heart only", "sound"},
  };
  Job job;
  job.name = "red oak";
  for (const Row& r : rows) {
    Part p =
        bench::part(static_cast<int>(job.parts.size()) + 1, r.copies, in(r.length), in(r.width));
    p.thickness = Length::sixtyFourths(4 * r.sixteenths);
    p.species = {"red oak"};
    p.faceA = r.a;
    p.faceB = r.b;
    job.parts.push_back(p);
  }
  return job;
}

}  // namespace

TEST_CASE("real red oak boards: twenty part types planned and every piece judged sound") {
  const std::vector<BankBoard> all = readBank();
  REQUIRE(all.size() == 362);
  PlanRequest request;
  request.shop = startingProfile();
  request.job = twentyParts();
  for (std::size_t i = 0; i < all.size() && request.boards.size() < 120; i += 3) {
    request.boards.push_back(converted(all[i], static_cast<std::int64_t>(i) + 1));
  }
  REQUIRE(request.boards.size() >= 100);
  const auto bothFaces =
      std::count_if(request.boards.begin(), request.boards.end(), [](const Board& b) {
        const auto on = [&](DefectFace f) {
          return std::any_of(b.defects.begin(), b.defects.end(),
                             [&](const Defect& d) { return d.face == f; });
        };
        return on(DefectFace::a) && on(DefectFace::b);
      });
  CHECK(bothFaces > 50);

  optimizer::Limits limits;
  limits.seconds = 6;
  const planning::PlanResult result = planning::makePlan(request, limits);
  INFO(result.sentence << " Hand rule " << text(result.plan.handRule) << ", careful hand "
                       << text(result.plan.carefulHand) << ", " << result.plan.cuttings.size()
                       << " of " << request.boards.size() << " boards.");
  CHECK(check(result.plan, request).empty());
  CHECK(result.plan.shorts.empty());
  CHECK(result.plan.cuttings.size() > 3);
  CHECK(result.plan.total() <= result.plan.handRule);
  CHECK(result.plan.bound <= result.plan.total());
}
