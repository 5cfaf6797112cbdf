#include "inventory/planning/staves.h"

#include <algorithm>

#include "inventory/records/blank.h"

namespace flitch::planning {

namespace {

class Dividing {
 public:
  Dividing(const Part& part, Length finished, const PlanRequest& request)
      : part_(part),
        request_(request),
        shop_(request.shop),
        filled_(finished + request.shop.glueTrim),
        step_(request.unit == Unit::inches ? Length::sixtyFourths(8) : Length::millimetres(1)) {}

  std::vector<Division> best() const {
    const std::vector<Division> all = fewestSections();
    std::vector<Division> best{all.front()};
    std::int64_t most = 0;
    for (std::size_t a = 0; a < all.size(); ++a) {
      for (std::size_t b = a; b < all.size(); ++b) {
        const std::int64_t used = widthsUsed(all[a].width, all[b].width);
        // Every stave more is a joint more to glue.
        if (most > 0 && used * 100 <= most * 103) continue;
        most = used;
        best = a == b ? std::vector{all[a]} : std::vector{all[a], all[b]};
      }
    }
    return best;
  }

 private:
  [[nodiscard]] std::vector<Division> within(const StaveRange& range) const {
    constexpr std::size_t enough = 12;
    std::vector<Division> all;
    const Length widest = stepsDown(range.most, step_) * step_;
    if (widest <= shop_.jointStave) return all;
    for (std::int64_t n = stepsUp(filled_, widest - shop_.jointStave); all.size() < enough; ++n) {
      const Length width = stepsUp(filled_ + n * shop_.jointStave, n * step_) * step_;
      if (width < range.least) break;
      all.push_back({static_cast<int>(n), width});
    }
    return all;
  }

  [[nodiscard]] std::int64_t sectionsOf(const Division& d) const {
    const std::int64_t together =
        stepsDown(shop_.planerWidth - shop_.jointStave, d.width - shop_.jointStave);
    return together == 0 ? d.staves : (d.staves + together - 1) / together;
  }

  [[nodiscard]] std::vector<Division> fewestSections() const {
    const StaveRange range = staveRange(part_, shop_);
    std::vector<Division> all = within(range);
    if (all.empty()) {
      const Length width = stepsUp(range.least, step_) <= stepsDown(range.most, step_)
                               ? stepsUp(range.least, step_) * step_
                               : range.most;
      return {{static_cast<int>(stepsUp(filled_, width - shop_.jointStave)), width}};
    }
    std::int64_t fewest = sectionsOf(all.front());
    for (const Division& d : all) fewest = std::min(fewest, sectionsOf(d));
    std::erase_if(all, [&](const Division& d) { return sectionsOf(d) > fewest; });
    return all;
  }

  /// Over the boards the part may come from: length times the width that staves of two widths side
  /// by side can use, in steps.
  [[nodiscard]] std::int64_t widthsUsed(Length wide, Length narrow) const {
    const Length thickness = staveFor(part_, wide, shop_).thickness;
    std::int64_t used = 0;
    for (const Board& board : request_.boards) {
      const auto& allowed = part_.species;
      const bool fits = std::find(allowed.begin(), allowed.end(), board.species) != allowed.end() &&
                        board.thickness >= thickness && board.length() >= part_.length;
      if (!fits) continue;
      const Length room = greatestWidth(board) - edgeTaken(board, shop_) + shop_.ripKerf;
      std::int64_t best = 0;
      for (Length left = room; left >= Length(); left -= wide + shop_.ripKerf) {
        const std::int64_t narrowOnes = stepsDown(left, narrow + shop_.ripKerf);
        const std::int64_t wideOnes = stepsDown(room - left, wide + shop_.ripKerf);
        const Length taken =
            wideOnes * (wide - shop_.jointStave) + narrowOnes * (narrow - shop_.jointStave);
        best = std::max(best, stepsDown(taken, step_));
      }
      used += best * stepsDown(board.length(), Length::inches(1));
    }
    return used;
  }

  const Part& part_;
  const PlanRequest& request_;
  const ShopProfile& shop_;
  Length filled_;
  Length step_;
};

}  // namespace

std::vector<Division> divisionsOf(const Part& part, Length finished, const PlanRequest& request) {
  return Dividing(part, finished, request).best();
}

}  // namespace flitch::planning
