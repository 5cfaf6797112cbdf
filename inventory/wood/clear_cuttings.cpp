#include "inventory/wood/clear_cuttings.h"

#include <algorithm>
#include <limits>

#include "inventory/wood/cutting_sweep.h"

namespace flitch {
namespace {

/// A quick set: takes the largest clear rectangle, then the largest of what is left, and tries the
/// next largest ones, too, at the first few steps.
class Carving {
 public:
  Carving(const ClearFace& face, std::span<const LeastCutting> least)
      : face_(face), least_(least, face.width()) {}

  std::vector<Cells> best(int count) {
    constexpr int tries = 4;
    carve(count, 0, tries);
    return best_;
  }

 private:
  void carve(int more, std::int64_t area, int tries) {
    if (area > bestArea_) {
      bestArea_ = area;
      best_ = now_;
    }
    if (more == 0) return;
    std::vector<Cells> largest = largestClear(face_, least_);
    std::stable_sort(largest.begin(), largest.end(),
                     [](const Cells& a, const Cells& b) { return a.area() > b.area(); });
    if (largest.empty() || area + more * largest.front().area() <= bestArea_) return;
    largest.resize(std::min(largest.size(), static_cast<std::size_t>(tries)));
    for (const Cells& one : largest) {
      face_.bar(one);
      now_.push_back(one);
      carve(more - 1, area + one.area(), std::max(1, tries - 1));
      now_.pop_back();
      face_.free(one);
    }
  }

  ClearFace face_;
  LeastLengths least_;
  std::vector<Cells> now_, best_;
  std::int64_t bestArea_ = 0;
};

/// States a column that the quick walks over coarse lines keep: to reach a grade, to better a set.
constexpr int decideBeam = 600;
constexpr int improveBeam = 150;

class Search {
 public:
  Search(const ClearFace& face, std::span<const LeastCutting> least, int count)
      : coarse_(face, least, count, 1), full_(face, least, count, count) {
    best_.bound = full_.bound();
    take(Carving(face, least).best(count));
  }

  CuttingSet find(std::int64_t enough, CuttingEffort effort) {
    if (best_.area < enough && best_.bound >= enough) {
      walkCoarse(decideBeam);
      if (best_.area < enough) prove(enough - 1, effort.decide);
    }
    if (best_.area >= enough && best_.area < best_.bound && effort.improve > 0) {
      walkCoarse(improveBeam);
      prove(best_.area, effort.improve);
    }
    std::sort(best_.cuttings.begin(), best_.cuttings.end(),
              [](const Cells& a, const Cells& b) { return a.x != b.x ? a.x < b.x : a.y < b.y; });
    return best_;
  }

 private:
  void take(std::vector<Cells> cuttings) {
    std::int64_t area = 0;
    for (const Cells& one : cuttings) area += one.area();
    if (area <= best_.area) return;
    best_.area = area;
    best_.cuttings = std::move(cuttings);
  }

  void walkCoarse(int beam) {
    if (beam <= walked_) return;
    walked_ = beam;
    take(coarse_.run(best_.area, std::numeric_limits<int>::max(), beam).cuttings);
  }

  void prove(std::int64_t floor, int effort) {
    CuttingSweep::Found found = full_.run(floor, effort);
    take(std::move(found.cuttings));
    if (found.complete) best_.bound = std::min(best_.bound, std::max(best_.area, floor));
  }

  CuttingSweep coarse_, full_;
  CuttingSet best_;
  int walked_ = 0;  ///< the widest beam so far
};

}  // namespace

CuttingSet bestCuttings(const ClearFace& face, std::span<const LeastCutting> least, int count,
                        std::int64_t enough, CuttingEffort effort) {
  if (count <= 0 || least.empty()) return {};
  return Search(face, least, count).find(enough, effort);
}

}  // namespace flitch
