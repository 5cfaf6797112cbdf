#include "inventory/records/pull_list.h"

#include <algorithm>
#include <cctype>
#include <stdexcept>
#include <tuple>

#include "inventory/records/board_weight.h"

namespace flitch {

namespace {

bool isFigure(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

/// Cuts the figures off the front, leading zeros left out.
std::string_view figuresOf(std::string_view& text) {
  std::size_t n = 0;
  while (n < text.size() && isFigure(text[n])) ++n;
  std::string_view figures = text.substr(0, n);
  text.remove_prefix(n);
  figures.remove_prefix(std::min(figures.find_first_not_of('0'), figures.size()));
  return figures;
}

std::string nameOf(const Board& board) { return board.tag ? text(*board.tag) : "the board"; }

std::string placeOf(const Board& board) {
  return board.bay.empty() ? "no bay given" : "bay " + board.bay;
}

std::string troubleOf(const Board& board, const Job& job) {
  if (!board.onRack()) return "no longer on the rack: plan again";
  if (board.reservedFor && board.reservedFor != job.id) return "held for " + board.reservedName;
  return "";
}

bool alike(const Board& a, const Board& b) {
  return a.species == b.species && a.nominal == b.nominal;
}

/// The board most likely meant where `wrong` was scanned; none when all are here.
const Board* rightOne(const PullList& list, const Board& wrong) {
  const Board* best = nullptr;
  int most = -1;
  for (const PullLine& line : list.lines) {
    if (line.here || !line.trouble.empty()) continue;
    const bool near = line.board.bay == wrong.bay;
    const int fit = (alike(line.board, wrong) ? 2 : 0) + (near ? 1 : 0);
    if (fit > most) {
      most = fit;
      best = &line.board;
    }
  }
  return best;
}

}  // namespace

bool naturallyBefore(std::string_view a, std::string_view b) {
  while (!a.empty() && !b.empty()) {
    if (isFigure(a.front()) && isFigure(b.front())) {
      const std::string_view left = figuresOf(a);
      const std::string_view right = figuresOf(b);
      if (left.size() != right.size()) return left.size() < right.size();
      if (left != right) return left < right;
    } else {
      if (a.front() != b.front()) return a.front() < b.front();
      a.remove_prefix(1);
      b.remove_prefix(1);
    }
  }
  return a.size() < b.size();
}

std::size_t PullList::left() const {
  return static_cast<std::size_t>(
      std::count_if(lines.begin(), lines.end(), [](const PullLine& line) { return !line.here; }));
}

PullList pullList(const CutPlan& plan, const std::vector<Board>& boards,
                  const std::set<BoardId>& sawn, const Job& job,
                  std::span<const Species> ownSpecies, Unit unit) {
  PullList list;
  list.job = job.name;
  list.jobId = job.id;
  for (const Cutting& cutting : plan.cuttings) {
    const auto found = std::find_if(boards.begin(), boards.end(),
                                    [&](const Board& board) { return board.id == cutting.board; });
    if (found == boards.end()) throw std::invalid_argument("a cutting's board is not at hand");
    if (sawn.contains(found->id)) {
      list.sawn.push_back(*found);
      continue;
    }
    PullLine& line = list.lines.emplace_back();
    line.board = *found;
    line.kilograms = kilogramsOf(*found, ownSpecies);
    line.weight = weightText(*found, ownSpecies, unit);
    line.lifting = lifting(line.kilograms);
    line.trouble = troubleOf(*found, job);
    list.feet += found->measuredFeet;
    list.kilograms += line.kilograms;
  }
  std::sort(list.lines.begin(), list.lines.end(), [](const PullLine& a, const PullLine& b) {
    if (naturallyBefore(a.board.bay, b.board.bay)) return true;
    if (naturallyBefore(b.board.bay, a.board.bay)) return false;
    return std::tie(a.board.bay, a.board.species, a.board.nominal, a.board.tag) <
           std::tie(b.board.bay, b.board.species, b.board.nominal, b.board.tag);
  });
  return list;
}

void tick(PullList& list, const Board& scanned) {
  const auto found = std::find_if(list.lines.begin(), list.lines.end(), [&](const PullLine& line) {
    return line.board.id == scanned.id;
  });
  if (found != list.lines.end() && found->trouble.empty()) {
    found->here = true;
    return;
  }
  std::string why;
  const bool done = std::any_of(list.sawn.begin(), list.sawn.end(),
                                [&](const Board& board) { return board.id == scanned.id; });
  if (done) {
    why = " was sawn already for " + list.job;
  } else if (found != list.lines.end()) {
    why = " is " + found->trouble;
  } else {
    why = ", " + scanned.species + " " + text(scanned.nominal) + ", " + placeOf(scanned) +
          ", is not wanted for " + list.job;
  }
  const Board* right = rightOne(list, scanned);
  throw Refusal("wrong-board",
                Complaint{"", nameOf(scanned) + why, nameOf(scanned),
                          right == nullptr ? "no more boards: all that can be fetched are here"
                                           : nameOf(*right) + ", " + right->species + " " +
                                                 text(right->nominal) + ", " + placeOf(*right)});
}

Table pullTable(const PullList& list, Unit unit) {
  Table table;
  table.title = "Pull list of " + list.job;
  table.columns = {{"bay", "bay", false},
                   {"here", "here", false},
                   {"tag", "tag", false},
                   {"species", "species", false},
                   {"nominal", "quarters", false},
                   {"size", "size", false},
                   {"board_feet", "board feet", true},
                   {"weight", "weight", true},
                   {"lifting", "lifting", false},
                   {"trouble", "", false}};
  for (const PullLine& line : list.lines) {
    const Board& board = line.board;
    table.rows.push_back({board.bay, line.here ? "yes" : "no", board.tag ? text(*board.tag) : "",
                          board.species, text(board.nominal), sizeText(board, unit),
                          board.measuredFeet, line.weight, std::string(advice(line.lifting)),
                          line.trouble});
  }
  const std::size_t count = list.lines.size();
  table.totals = {std::to_string(count) + (count == 1 ? " board" : " boards"),
                  std::to_string(count - list.left()) + " here",
                  {},
                  {},
                  {},
                  {},
                  list.feet,
                  count == 0 ? "" : "about " + weightText(list.kilograms, unit),
                  {},
                  {}};
  if (!list.sawn.empty()) {
    const std::size_t done = list.sawn.size();
    table.note =
        std::to_string(done) + (done == 1 ? " board was" : " boards were") + " sawn already. ";
  }
  table.note += liftingRules;
  return table;
}

}  // namespace flitch
