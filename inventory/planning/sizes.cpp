#include "inventory/planning/sizes.h"

#include <algorithm>
#include <set>

#include "inventory/records/board.h"
#include "inventory/records/size_expression.h"
#include "inventory/wood/unreadable.h"
#include "optimizer/order.h"

namespace flitch::planning {

namespace {

class Resolving {
 public:
  Resolving(Job& job, Unit unit)
      : job_(job), bare_(unit == Unit::inches ? Bare::inches : Bare::millimetres) {}

  void run() {
    checkNames();
    refuse();
    named();
    refuse();
    for (Part& part : job_.parts) sizesOf(part);
    refuse();
  }

 private:
  void complain(const std::string& place, const std::string& what, const std::string& value,
                const std::string& accepted) {
    complaints_.push_back({place, what, value, accepted});
  }
  void complain(const std::string& place, const Unreadable& what) {
    complain(place, what.what(), what.value, what.accepted);
  }
  void refuse() const {
    if (!complaints_.empty()) throw Refusal("bad-size", complaints_);
  }

  [[nodiscard]] std::string knownNames() const {
    std::string names;
    for (const NamedSize& size : job_.sizes) names += (names.empty() ? "" : ", ") + size.name;
    return names.empty() ? "a size named with --size or --sizes" : names;
  }

  void checkNames() {
    std::set<std::string> seen;
    for (const NamedSize& size : job_.sizes) {
      if (!isSizeName(size.name)) {
        complain("size " + size.name, "`" + size.name + "` is no name of a size", size.name,
                 "a word of letters, digits and _ that is no unit: width, rail_2");
      } else if (!seen.insert(size.name).second) {
        complain("size " + size.name, size.name + " stands twice", size.name, "each name once");
      }
    }
  }

  /// Every name of an expression must be a size of the job.
  bool namesKnown(const std::string& place, const std::string& expression) {
    bool all = true;
    for (const std::string& name : namesIn(expression)) {
      if (indexOf(name) >= 0) continue;
      complain(place, "`" + expression + "` names " + name + ", which is no size of this job", name,
               knownNames());
      all = false;
    }
    return all;
  }

  [[nodiscard]] int indexOf(const std::string& name) const {
    const auto at = std::find_if(job_.sizes.begin(), job_.sizes.end(),
                                 [&](const NamedSize& size) { return size.name == name; });
    return at == job_.sizes.end() ? -1 : static_cast<int>(at - job_.sizes.begin());
  }

  void named() {
    std::vector<std::pair<int, int>> needs;
    for (std::size_t i = 0; i < job_.sizes.size(); ++i) {
      const NamedSize& size = job_.sizes[i];
      const std::string place = "size " + size.name;
      try {
        if (!namesKnown(place, size.expression)) continue;
        for (const std::string& name : namesIn(size.expression)) {
          needs.emplace_back(static_cast<int>(i), indexOf(name));
        }
      } catch (const Unreadable& what) {
        complain(place, what);
      }
    }
    if (!complaints_.empty()) return;
    const optimizer::Order order = optimizer::orderOf(static_cast<int>(job_.sizes.size()), needs);
    if (!order.circle.empty()) {
      std::string circle;
      for (const int i : order.circle) {
        const NamedSize& size = job_.sizes[static_cast<std::size_t>(i)];
        circle += (circle.empty() ? "" : ", ") + size.name + " = " + size.expression;
      }
      complain("", "these sizes need each other, in a circle: " + circle, "",
               "one of them as a plain size");
    }
    for (const int i : order.nodes) workOut(job_.sizes[static_cast<std::size_t>(i)]);
  }

  void workOut(NamedSize& size) {
    try {
      const Quantity q = namedQuantity(size.expression, bare_, known_);
      // A count has no length to show, but parts may divide by it.
      size.value = q.length ? lengthOf(q, size.expression, bare_) : Length();
      known_[size.name] = q;
    } catch (const Unreadable& what) {
      complain("size " + size.name, what);
    }
  }

  void sizesOf(Part& part) {
    static constexpr const char* columns[] = {"length", "width", "thickness"};
    static constexpr Length most[] = {maxBoardLength, Length::feet(20), maxBoardThickness};
    Length* const sizes[] = {&part.length, &part.width, &part.thickness};
    for (std::size_t i = 0; i < 3; ++i) {
      const std::string& typed = part.typed[i];
      if (typed.empty()) continue;
      const std::string place = part.name + ", " + columns[i];
      try {
        if (!namesKnown(place, typed)) continue;
        *sizes[i] = lengthOf(evaluate(typed, bare_, known_), typed, bare_);
        if (*sizes[i] > most[i]) {
          const Unit unit = bare_ == Bare::millimetres ? Unit::millimetres : Unit::inches;
          complain(place, "`" + typed + "` comes to " + lengthText(*sizes[i], unit), typed,
                   lengthText(most[i], unit) + " at most");
        }
      } catch (const Unreadable& what) {
        complain(place, what);
      }
    }
  }

  Job& job_;
  Bare bare_;
  Quantities known_;
  std::vector<Complaint> complaints_;
};

}  // namespace

void resolveSizes(Job& job, Unit unit) { Resolving(job, unit).run(); }

}  // namespace flitch::planning
