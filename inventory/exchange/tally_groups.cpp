#include "inventory/exchange/tally_groups.h"

#include <map>

namespace flitch::exchange {
namespace {

using Groups = std::map<std::string, std::vector<std::size_t>>;

Groups groupsBy(const std::vector<TallyLine>& lines, std::string TallyLine::*name) {
  Groups groups;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (!(lines[i].*name).empty()) groups[lines[i].*name].push_back(i);
  }
  return groups;
}

class Sharing {
 public:
  Sharing(std::vector<TallyLine>& lines, std::vector<bool> priced, Complaints& complaints)
      : lines_(lines), priced_(std::move(priced)), complaints_(complaints) {}

  int run() {
    for (const auto& [name, members] : groupsBy(lines_, &TallyLine::cutFrom)) cut(name, members);
    for (const auto& [name, members] : groupsBy(lines_, &TallyLine::lot)) lot(name, members);
    int unpriced = 0;
    for (std::size_t i = 0; i < lines_.size(); ++i) {
      if (!priced_[i]) unpriced += lines_[i].count;
    }
    return unpriced;
  }

 private:
  void complain(const TallyLine& line, std::string_view column, const std::string& sentence,
                const std::string& accepted) {
    complaints_.add(line.line, column, sentence, "", accepted);
  }

  void cut(const std::string& name, const std::vector<std::size_t>& members) {
    const TallyLine first = lines_[members.front()];
    if (members.size() == 1) {
      complain(first, "cut_from", "no other line was cut from " + name,
               "the same word on the line of each piece");
    }
    for (const std::size_t at : members) {
      TallyLine& line = lines_[at];
      if (line.count != 1) {
        complain(line, "count", "the line is a piece of " + name + " and counts several boards",
                 "a line for each piece");
      } else if (line.species != first.species || line.nominal != first.nominal ||
                 line.kind != first.kind) {
        complain(line, "cut_from", name + " would be of two kinds of wood",
                 first.species + " " + text(first.nominal) + ", as on line " +
                     std::to_string(first.line));
      } else if (line.lot != first.lot) {
        complain(line, "lot", name + " would be in two lots", "the same lot for all its pieces");
      } else if (at != members.front() &&
                 ((priced_[at] && (line.price != first.price || line.basis != first.basis)) ||
                  (line.billed && line.billed != first.billed))) {
        complain(line, "cut_from", name + " is billed once, on line " + std::to_string(first.line),
                 "price and billed feet on that line alone");
      }
      line.price = first.price;
      line.basis = first.basis;
      line.billed = first.billed;
      priced_[at] = priced_[members.front()];
    }
  }

  void lot(const std::string& name, const std::vector<std::size_t>& members) {
    const TallyLine* price = nullptr;
    for (const std::size_t at : members) {
      const TallyLine& line = lines_[at];
      if (!priced_[at]) continue;
      if (line.basis != PriceBasis::lot) {
        complain(line, "lot", "the line is in lot " + name + " and has a price of its own",
                 "price_lot, or no lot");
      } else if (price != nullptr && line.price != price->price) {
        complain(line, "price_lot",
                 "lot " + name + " has another price on line " + std::to_string(price->line),
                 "one price for the lot");
      } else {
        price = &line;
      }
    }
    if (price == nullptr) return;
    const Money amount = price->price;
    for (const std::size_t at : members) {
      lines_[at].basis = PriceBasis::lot;
      lines_[at].price = amount;
      priced_[at] = true;
    }
  }

  std::vector<TallyLine>& lines_;
  std::vector<bool> priced_;
  Complaints& complaints_;
};

}  // namespace

int shareGroups(std::vector<TallyLine>& lines, const std::vector<bool>& priced,
                Complaints& complaints) {
  return Sharing(lines, priced, complaints).run();
}

}  // namespace flitch::exchange
