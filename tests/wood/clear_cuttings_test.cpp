#include "inventory/wood/clear_cuttings.h"

#include <algorithm>
#include <bitset>
#include <catch2/catch.hpp>
#include <random>

using namespace flitch;

namespace {

using Mask = std::bitset<64>;
using Sizes = std::vector<LeastCutting>;

bool largeEnough(const Cells& one, const Sizes& least) {
  return std::any_of(least.begin(), least.end(), [&](const LeastCutting& size) {
    return one.width >= size.width && one.length >= size.length;
  });
}

bool clear(const ClearFace& face, const Cells& one) {
  if (one.x < 0 || one.y < 0 || one.right() > face.length() || one.top() > face.width())
    return false;
  for (int x = one.x; x < one.right(); ++x) {
    for (int y = one.y; y < one.top(); ++y) {
      if (!face.clear(x, y)) return false;
    }
  }
  return true;
}

/// Every set of rectangles there is, on faces of 64 cells at most.
class BruteForce {
 public:
  BruteForce(const ClearFace& face, const Sizes& least) {
    for (int x = 0; x < face.length(); ++x) {
      for (int y = 0; y < face.width(); ++y) {
        for (int l = 1; x + l <= face.length(); ++l) {
          for (int w = 1; y + w <= face.width(); ++w) {
            const Cells one{x, y, l, w};
            if (!largeEnough(one, least) || !clear(face, one)) continue;
            Mask mask;
            for (int i = x; i < one.right(); ++i) {
              for (int j = y; j < one.top(); ++j) {
                mask.set(static_cast<std::size_t>(i * face.width() + j));
              }
            }
            all_.emplace_back(one.area(), mask);
          }
        }
      }
    }
    std::sort(all_.begin(), all_.end(),
              [](const auto& a, const auto& b) { return a.first > b.first; });
  }

  std::int64_t best(int count) {
    best_ = 0;
    add(0, count, 0, {});
    return best_;
  }

 private:
  void add(std::size_t from, int more, std::int64_t area, const Mask& taken) {
    best_ = std::max(best_, area);
    if (more == 0) return;
    for (std::size_t i = from; i < all_.size(); ++i) {
      if (area + more * all_[i].first <= best_) return;
      if ((all_[i].second & taken).any()) continue;
      add(i + 1, more - 1, area + all_[i].first, taken | all_[i].second);
    }
  }

  std::vector<std::pair<std::int64_t, Mask>> all_;
  std::int64_t best_ = 0;
};

/// Throws nothing: says what is wrong with a set.
std::string faults(const CuttingSet& set, const ClearFace& face, const Sizes& least, int count) {
  std::string wrong;
  std::int64_t area = 0;
  for (std::size_t i = 0; i < set.cuttings.size(); ++i) {
    const Cells& one = set.cuttings[i];
    area += one.area();
    if (!clear(face, one)) wrong += "not clear; ";
    if (!largeEnough(one, least)) wrong += "too small; ";
    for (std::size_t j = 0; j < i; ++j) {
      const Cells& other = set.cuttings[j];
      if (one.x < other.right() && other.x < one.right() && one.y < other.top() &&
          other.y < one.top())
        wrong += "overlap; ";
    }
  }
  if (area != set.area) wrong += "area; ";
  if (set.area > set.bound) wrong += "above its bound; ";
  if (set.cuttings.size() > static_cast<std::size_t>(count)) wrong += "too many; ";
  return wrong;
}

ClearFace randomFace(std::mt19937& random, int length, int width) {
  const auto upTo = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
  ClearFace face(length, width);
  for (int marks = 1 + upTo(5); marks > 0; --marks) {
    face.bar({upTo(length), upTo(width), 1 + upTo(3), 1 + upTo(2)});
  }
  return face;
}

/// The search is made to decide and to prove its best set; both are compared with every set.
void compare(const ClearFace& face, const Sizes& least, int count) {
  const std::int64_t best = BruteForce(face, least).best(count);
  const CuttingEffort endless{10'000'000, 10'000'000};
  const CuttingSet found = bestCuttings(face, least, count, 0, endless);
  CHECK(faults(found, face, least, count) == "");
  CHECK(found.area == best);
  CHECK(found.bound == best);
  CHECK(bestCuttings(face, least, count, best, endless).area == best);
  const CuttingSet past = bestCuttings(face, least, count, best + 1, endless);
  CHECK(past.bound == best);
}

}  // namespace

TEST_CASE("brute force agrees with the search for cuttings on small boards") {
  std::mt19937 random(1998);
  const std::vector<Sizes> kinds{{{2, 3}}, {{2, 4}, {3, 2}}, {{1, 4}, {2, 2}}, {{3, 3}, {2, 5}}};
  for (int round = 0; round < 300; ++round) {
    const int width = 4 + round % 3;
    const int length = std::min(12, 60 / width);
    const ClearFace face = randomFace(random, length, width);
    CAPTURE(round, length, width);
    compare(face, kinds[static_cast<std::size_t>(round) % kinds.size()], 1 + round % 4);
  }
}

TEST_CASE("cuttings need not be reached by cuts from edge to edge") {
  // Four round a knot in the middle, like the sails of a mill; any straight cut crosses one.
  ClearFace face(7, 7);
  face.bar({3, 3, 1, 1});
  const Sizes least{{3, 4}, {4, 3}};
  const CuttingSet found = bestCuttings(face, least, 4, 0);
  CHECK(found.area == 48);
  CHECK(found.bound == 48);
  CHECK(found.cuttings.size() == 4);
  CHECK(BruteForce(face, least).best(4) == 48);
}

TEST_CASE("a cutting is shortened where another then reaches its least length") {
  // A mark ends the wide cutting after 10 cells; the narrow one beside the mark needs 6 of 4.
  ClearFace face(14, 4);
  face.bar({10, 0, 4, 1});
  const Sizes least{{3, 6}};
  const CuttingSet found = bestCuttings(face, least, 2, 0);
  CHECK(found.area == 8 * 4 + 6 * 3);
  CHECK(found.bound == found.area);
  compare(face, least, 2);
}

TEST_CASE("what cannot be is empty, what is clear is one cutting") {
  const Sizes least{{16, 240}, {12, 336}};
  ClearFace board(384, 24);
  CHECK(bestCuttings(board, least, 0, 100).area == 0);
  CHECK(bestCuttings(board, least, 1, 0).cuttings == std::vector<Cells>{{0, 0, 384, 24}});
  CHECK(bestCuttings(board, least, 3, 0).bound == 384 * 24);
  board.bar({150, 0, 90, 24});
  // 150 and 144 cells are left: too short.
  CHECK(bestCuttings(board, least, 3, 0).area == 0);
  CHECK(bestCuttings(board, least, 3, 0).bound == 0);
  CHECK_THROWS_AS(ClearFace(0, 3), std::invalid_argument);
}

TEST_CASE("out of effort the question stays open and the bound stays true") {
  std::mt19937 random(7);
  const Sizes least{{2, 3}};
  for (int round = 0; round < 40; ++round) {
    const ClearFace face = randomFace(random, 12, 5);
    const std::int64_t best = BruteForce(face, least).best(3);
    for (const int effort : {0, 1, 5, 20}) {
      const CuttingSet found = bestCuttings(face, least, 3, best, {effort, effort});
      CHECK(faults(found, face, least, 3) == "");
      CHECK(found.area <= best);
      CHECK(found.bound >= best);
    }
  }
}
