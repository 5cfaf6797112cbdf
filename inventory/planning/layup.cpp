#include "inventory/planning/layup.h"

#include <algorithm>
#include <numeric>
#include <tuple>

namespace flitch::planning {

namespace {

/// A blank and where it lies.
struct Lying {
  std::size_t board = 0;
  std::size_t piece = 0;
};

/// Staves parted into sections of at most `room`, wider ones first, each into the first section
/// that still takes it; two widths at most, so that few sections are wasted.
std::vector<std::vector<std::size_t>> parted(const std::vector<Length>& useful, Length room) {
  std::vector<std::size_t> order(useful.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return useful[a] > useful[b]; });
  std::vector<std::vector<std::size_t>> sections;
  std::vector<Length> filled;
  for (const std::size_t stave : order) {
    std::size_t s = 0;
    while (s < sections.size() && filled[s] + useful[stave] > room) ++s;
    if (s == sections.size()) {
      sections.emplace_back();
      filled.emplace_back();
    }
    sections[s].push_back(stave);
    filled[s] += useful[stave];
  }
  return sections;
}

class LayingUp {
 public:
  LayingUp(std::vector<Written>& boards, const Framing& framing, const PlanRequest& request)
      : boards_(boards), framing_(framing), request_(request), taken_(request.made) {}

  void run() {
    for (const Want& want : framing_.wants) {
      for (const Making& making : want.makings) {
        const std::vector<Lying> blanks = blanksFor(making.need);
        if (making.recipe == RecipeKind::glued) {
          fillPanels(want, making, blanks);
        } else {
          for (const Lying& at : blanks) number(pieceAt(at));
        }
      }
    }
  }

 private:
  [[nodiscard]] Piece& pieceAt(const Lying& at) {
    return boards_[at.board].cutting.pieces[at.piece];
  }

  /// Blanks that supply a need in order of board, from the tag end and the near edge on.
  [[nodiscard]] std::vector<Lying> blanksFor(int need) {
    std::vector<Lying> blanks;
    for (std::size_t b = 0; b < boards_.size(); ++b) {
      for (std::size_t p = 0; p < boards_[b].item.size(); ++p) {
        if (boards_[b].item[p] < 0) continue;
        const auto item = static_cast<std::size_t>(boards_[b].item[p]);
        if (framing_.problem.items[item].need == need) blanks.push_back({b, p});
      }
    }
    std::stable_sort(blanks.begin(), blanks.end(), [&](const Lying& a, const Lying& b) {
      const Rect& at = pieceAt(a).at;
      const Rect& other = pieceAt(b).at;
      return std::tie(a.board, at.x, at.y) < std::tie(b.board, other.x, other.y);
    });
    return blanks;
  }

  /// The next number of its line that no blank carries.
  void number(Piece& blank) {
    int& last = last_[blank.line];
    std::set<int>& taken = taken_[blank.line];
    do ++last;
    while (taken.count(last) > 0);
    blank.copy = last;
  }

  /// Whole sets of equal staves first; what remains fills the last panel (see usefulPieces()).
  void fillPanels(const Want& want, const Making& making, const std::vector<Lying>& staves) {
    std::map<std::int64_t, std::vector<Lying>> kinds;  // by the units a stave supplies
    for (const Lying& at : staves) kinds[suppliesOf(at)].push_back(at);
    std::vector<std::vector<Lying>> panels;
    std::vector<Lying> rest;
    for (auto& [supplies, list] : kinds) {
      const auto set = static_cast<std::ptrdiff_t>(making.units / supplies);
      auto at = list.begin();
      for (; list.end() - at >= set; at += set) panels.emplace_back(at, at + set);
      rest.insert(rest.end(), at, list.end());
    }
    if (!rest.empty()) panels.push_back(rest);
    for (std::size_t p = 0; p < panels.size(); ++p) {
      fillPanel(want, want.copies.at(p), panels[p]);
    }
  }

  void fillPanel(const Want& want, int copy, const std::vector<Lying>& staves) {
    const ShopProfile& shop = request_.shop;
    const int line = request_.job.parts[want.part].line;
    const PanelBefore before = panelBefore(line, copy);
    std::vector<Length> useful;
    for (const Lying& at : staves) useful.push_back(pieceAt(at).at.dy - shop.jointStave);
    const std::vector<std::vector<std::size_t>> sections =
        parted(useful, shop.planerWidth - shop.jointStave);
    std::vector<Layup> layups;
    std::vector<std::size_t> order;
    Length surplus = -want.width;
    for (std::size_t s = 0; s < sections.size(); ++s) {
      for (const std::size_t stave : sections[s]) {
        Layup layup;
        layup.piece = static_cast<int>(staves[stave].piece);
        layup.copy = copy;
        layup.slot = before.slots + static_cast<int>(layups.size()) + 1;
        layup.section = before.sections + static_cast<int>(s) + 1;
        layup.gives = useful[stave];
        surplus += layup.gives;
        layups.push_back(layup);
        order.push_back(stave);
      }
    }
    for (auto at = layups.rbegin(); at != layups.rend() && surplus > Length(); ++at) {
      const Length off = std::min(surplus, at->gives - framing_.tick);
      at->gives -= off;
      surplus -= off;
    }
    for (std::size_t l = 0; l < layups.size(); ++l) {
      const Lying& at = staves[order[l]];
      number(pieceAt(at));
      boards_[at.board].cutting.layups.push_back(layups[l]);
    }
  }

  [[nodiscard]] std::int64_t suppliesOf(const Lying& at) const {
    const auto item = static_cast<std::size_t>(boards_[at.board].item[at.piece]);
    return framing_.problem.items[item].supplies;
  }

  /// Places and sections of a panel that staves sawn before take.
  struct PanelBefore {
    int slots = 0, sections = 0;
  };
  [[nodiscard]] PanelBefore panelBefore(int line, int copy) const {
    PanelBefore before;
    for (const LaidBefore& l : request_.laid) {
      if (l.line != line || l.layup.copy != copy) continue;
      before.slots = std::max(before.slots, l.layup.slot);
      before.sections = std::max(before.sections, l.layup.section);
    }
    return before;
  }

  std::vector<Written>& boards_;
  const Framing& framing_;
  const PlanRequest& request_;
  std::map<int, std::set<int>> taken_;
  std::map<int, int> last_;
};

}  // namespace

void layUp(std::vector<Written>& boards, const Framing& framing, const PlanRequest& request) {
  LayingUp(boards, framing, request).run();
}

}  // namespace flitch::planning
