#include "inventory/planning/layup.h"

#include <algorithm>
#include <numeric>
#include <stdexcept>
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
      next_ = want.copies.begin();
      for (const Making& making : want.makings) {
        const std::vector<Lying> blanks = blanksFor(making.need);
        if (making.need == want.need) {
          for (const Lying& at : blanks) layWhole(want, at);
        } else if (making.divided) {
          fillPanels(want, making, blanks);
        } else {
          fillCopies(want, making, blanks);
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

  /// A blank that is a copy, or several.
  void layWhole(const Want& want, const Lying& at) {
    const BlankForm& form = formOf(at);
    number(pieceAt(at));
    if (form.bare) return;
    for (int place = 1; place <= form.pieces && next_ != want.copies.end(); ++place) {
      Layup layup = layupFor(at, *next_++);
      layup.slot = place;
      lay(at, layup);
    }
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
    for (const std::vector<Lying>& panel : panels) fillPanel(want, take(want), panel);
  }

  /// Blanks that fill any copy: laminae by layers, so that blanks cut apart go together as they
  /// are; strips and loose boards a copy after the other.
  void fillCopies(const Want& want, const Making& making, std::vector<Lying> blanks) {
    if (blanks.empty()) return;
    if (formOf(blanks.front()).kind == LayupKind::lamina) {
      fillLayers(want, making, std::move(blanks));
      return;
    }
    std::vector<Lying> here;
    std::int64_t units = 0;
    for (const Lying& at : blanks) {
      here.push_back(at);
      units += suppliesOf(at);
      if (units < making.units) continue;
      if (formOf(at).loose) {
        fillWidth(want, take(want), here);
      } else {
        fillPanel(want, take(want), here);
      }
      here.clear();
      units = 0;
    }
  }

  void fillLayers(const Want& want, const Making& making, std::vector<Lying> blanks) {
    std::int64_t laminae = 0;
    for (const Lying& at : blanks) laminae += suppliesOf(at);
    const auto left = static_cast<std::int64_t>(want.copies.end() - next_);
    const std::int64_t copies = std::min(left, laminae / making.units);
    std::stable_sort(blanks.begin(), blanks.end(), [&](const Lying& a, const Lying& b) {
      return formOf(a).pieces > formOf(b).pieces;
    });
    std::int64_t done = 0;
    for (const Lying& at : blanks) {
      number(pieceAt(at));
      for (int place = 0; place < formOf(at).pieces && done < copies * making.units; ++place) {
        const int copy = *(next_ + static_cast<std::ptrdiff_t>(done % copies));
        const auto layer = static_cast<int>(done / copies);
        Layup layup = layupFor(at, copy);
        layup.slot = before(want, copy).slots + layer + 1;
        if (layer + 1 == making.units) layup.gives = want.thick - layer * layup.gives;
        lay(at, layup);
        ++done;
      }
    }
    next_ += static_cast<std::ptrdiff_t>(copies);
  }
  void fillWidth(const Want& want, int copy, const std::vector<Lying>& boards) {
    std::vector<Layup> layups;
    for (const Lying& at : boards) {
      layups.push_back(layupFor(at, copy));
      layups.back().slot = before(want, copy).slots + static_cast<int>(layups.size());
    }
    rippedDown(layups, want.left);
    for (std::size_t l = 0; l < layups.size(); ++l) {
      number(pieceAt(boards[l]));
      lay(boards[l], layups[l]);
    }
  }

  /// What is too much together comes off the last ones.
  void rippedDown(std::vector<Layup>& layups, Length width) const {
    Length surplus = -width;
    for (const Layup& l : layups) surplus += l.gives;
    for (auto at = layups.rbegin(); at != layups.rend() && surplus > Length(); ++at) {
      const Length off = std::min(surplus, at->gives - framing_.tick);
      at->gives -= off;
      surplus -= off;
    }
  }

  void fillPanel(const Want& want, int copy, const std::vector<Lying>& staves) {
    const ShopProfile& shop = request_.shop;
    const PanelBefore had = before(want, copy);
    std::vector<Length> useful;
    for (const Lying& at : staves) useful.push_back(formOf(at).gives);
    const std::vector<std::vector<std::size_t>> sections =
        parted(useful, shop.planerWidth - shop.jointStave);
    std::vector<Layup> layups;
    std::vector<std::size_t> order;
    for (std::size_t s = 0; s < sections.size(); ++s) {
      for (const std::size_t stave : sections[s]) {
        Layup layup = layupFor(staves[stave], copy);
        layup.slot = had.slots + static_cast<int>(layups.size()) + 1;
        layup.section = had.sections + static_cast<int>(s) + 1;
        layups.push_back(layup);
        order.push_back(stave);
      }
    }
    rippedDown(layups, want.left);
    for (std::size_t l = 0; l < layups.size(); ++l) {
      number(pieceAt(staves[order[l]]));
      lay(staves[order[l]], layups[l]);
    }
  }

  [[nodiscard]] std::size_t itemOf(const Lying& at) const {
    return static_cast<std::size_t>(boards_[at.board].item[at.piece]);
  }
  [[nodiscard]] const BlankForm& formOf(const Lying& at) const {
    return framing_.forms[itemOf(at)];
  }
  [[nodiscard]] Layup layupFor(const Lying& at, int copy) const {
    const BlankForm& form = formOf(at);
    Layup layup;
    layup.piece = static_cast<int>(at.piece);
    layup.kind = form.kind;
    layup.copy = copy;
    layup.turned = form.turned;
    layup.gives = form.gives;
    return layup;
  }
  void lay(const Lying& at, const Layup& layup) {
    boards_[at.board].cutting.layups.push_back(layup);
  }
  /// The next copy wanted.
  int take(const Want& want) {
    if (next_ == want.copies.end()) throw std::logic_error("more panels than are wanted");
    return *next_++;
  }
  [[nodiscard]] std::int64_t suppliesOf(const Lying& at) const {
    return framing_.problem.items[itemOf(at)].supplies;
  }

  /// Places and sections of a copy that blanks sawn before take.
  struct PanelBefore {
    int slots = 0, sections = 0;
  };
  [[nodiscard]] PanelBefore before(const Want& want, int copy) const {
    const int line = request_.job.parts[want.part].line;
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
  std::vector<int>::const_iterator next_;  ///< of the want's copies, the first not yet made
};

}  // namespace

void layUp(std::vector<Written>& boards, const Framing& framing, const PlanRequest& request) {
  LayingUp(boards, framing, request).run();
}

}  // namespace flitch::planning
