// Rounded rows: no plan in whole numbers breaks one, and the fractions they were made for do.
#include "optimizer/rounding.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/optimizer/draw.h"

using namespace flitch::optimizer;

namespace {

std::int64_t left(const Rounding& row, const std::vector<std::int64_t>& x,
                  const std::vector<std::int64_t>& missing, std::int64_t made) {
  std::int64_t sum = -row.least;
  for (std::size_t c = 0; c < x.size(); ++c) sum += row.columns[c] * x[c];
  for (std::size_t n = 0; n < missing.size(); ++n) sum += row.needs[n] * missing[n];
  if (!row.recipes.empty()) sum += row.recipes[0] * made;
  return sum;
}

}  // namespace

// Three pieces are wanted, a board gives two: one board and a half in fractions, two in truth. In
// halves 3 / 2 leaves r = 1: boards + missing >= 2.
TEST_CASE("three pieces, two a board: two boards") {
  Problem problem;
  problem.needs = {{3, 100}};
  const Column board{0, 10, {2}, {}};
  std::uint64_t work = 0;
  const std::vector<double> x{1.5}, missing{0};
  const std::vector<Rounding> rows =
      brokenRoundings(problem, {&board}, {x, missing, {}}, 100, work);
  const std::vector<std::int64_t> one{1};
  CHECK(std::any_of(rows.begin(), rows.end(), [&](const Rounding& row) {
    return row.columns == one && row.needs == one && row.least == 2;
  }));
  const std::vector<double> whole{2};
  CHECK(brokenRoundings(problem, {&board}, {whole, missing, {}}, 10, work).empty());
}

// Shown able to fail: with min(a mod k, r) left out plans broke rows.
TEST_CASE("no plan in whole numbers breaks a rounded row") {
  int rowsSeen = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    Draw draw(seed + 9000000);
    Problem problem;
    const int needs = draw(1, 3);
    for (int n = 0; n < needs; ++n) problem.needs.push_back({draw(1, 5), 100});
    if (needs > 1 && draw.oneIn(2)) problem.recipes.push_back({0, {{needs - 1, draw(1, 3)}}, 0});
    std::vector<Column> boards;
    for (int c = draw(1, 3); c > 0; --c) {
      Column column{0, 10, {}, {}};
      for (int n = 0; n < needs; ++n) column.units.push_back(draw(0, 3));
      boards.push_back(std::move(column));
    }
    std::vector<const Column*> columns;
    std::vector<double> x, missing, made(problem.recipes.size(), draw(0, 4) / 4.0);
    for (const Column& board : boards) {
      columns.push_back(&board);
      x.push_back(draw(0, 8) / 4.0);
    }
    for (int n = 0; n < needs; ++n) missing.push_back(draw(0, 2) / 4.0);
    std::uint64_t work = 0;
    const std::vector<Rounding> rows =
        brokenRoundings(problem, columns, {x, missing, made}, 100, work);
    rowsSeen += static_cast<int>(rows.size());
    // Every plan of up to four boards of each kind, with just as much missing as must be.
    std::vector<std::int64_t> opened(columns.size(), 0);
    INFO("seed " << seed);
    for (bool more = true; more;) {
      for (std::int64_t times = 0; times <= (problem.recipes.empty() ? 0 : 3); ++times) {
        std::vector<std::int64_t> lacks;
        for (std::size_t n = 0; n < problem.needs.size(); ++n) {
          std::int64_t have = 0;
          for (std::size_t c = 0; c < columns.size(); ++c) have += opened[c] * columns[c]->units[n];
          if (!problem.recipes.empty()) {
            if (n == 0) have += times;
            if (static_cast<int>(n) == problem.recipes[0].uses[0].need)
              have -= times * problem.recipes[0].uses[0].amount;
          }
          lacks.push_back(std::max<std::int64_t>(0, problem.needs[n].amount - have));
        }
        bool kept = true;
        for (const Rounding& row : rows) kept = kept && left(row, opened, lacks, times) >= 0;
        CHECK(kept);
      }
      more = false;
      for (std::int64_t& copies : opened) {
        if (++copies <= 4) {
          more = true;
          break;
        }
        copies = 0;
      }
    }
  }
  CHECK(rowsSeen > 1000);
}
