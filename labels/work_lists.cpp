#include "labels/work_lists.h"

#include <algorithm>
#include <functional>
#include <map>
#include <stdexcept>

#include "labels/board_drawing.h"
#include "labels/cut_sheet.h"

namespace flitch::pages {
namespace {

using Kind = SawStep::Kind;
using Blanks = std::vector<std::pair<int, int>>;  // line and copy

LengthStyle styleOf(Unit unit) {
  return unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
}

std::string tagOf(const Board& board) { return board.tag ? text(*board.tag) : "no tag"; }

/// What the cuts at one setting free, before it is put into words.
struct Cuts {
  Blanks blanks;
  std::vector<std::pair<std::string, int>> others;  ///< and how many alike
  int count = 0;
};

class Gathering {
 public:
  Gathering(const Job& job, const ShopProfile& shop, Unit unit) : job_(job), shop_(shop) {
    lists_.job = job.name;
    unit_ = unit;
  }

  void add(const Cutting& cutting, const Board& board, const std::vector<Species>& ownSpecies) {
    ++lists_.boards;
    const std::vector<SawStep> steps = sawSteps(cutting, board, job_, shop_);
    addRough(cutting, board, steps);
    for (const SawStep& step : steps) {
      if (step.kind == Kind::rip) addCut(fences_[step.measure], cutting, board, step);
      if (step.kind == Kind::trimStrip) addCut(strips_[step.measure], cutting, board, step);
    }
    for (const Piece& piece : cutting.pieces) {
      if (piece.kind == PieceKind::blank) addBlank(piece);
    }
    for (const std::string& caution :
         pages::cautions(cutting, board, job_, shop_, unit_, ownSpecies)) {
      const auto at = std::find_if(cautions_.begin(), cautions_.end(),
                                   [&](const auto& known) { return known.first == caution; });
      (at == cautions_.end() ? cautions_.emplace_back(caution, std::vector<std::string>{}) : *at)
          .second.push_back(tagOf(board));
    }
  }

  WorkLists finish() {
    lists_.thicknesses = settingsOf(thicknesses_);
    lists_.stops = settingsOf(stops_);
    lists_.fences = settingsOf(fences_);
    lists_.strips = settingsOf(strips_);
    addCautions();
    return std::move(lists_);
  }

 private:
  void addRough(const Cutting& cutting, const Board& board, const std::vector<SawStep>& steps) {
    RoughCuts rough{tagOf(board), board.bay, board.species + " " + text(board.nominal), {}, {},
                    false,        {}};
    const SawStep* last = nullptr;
    for (const SawStep& step : steps) {
      if (step.kind == Kind::squareEnd) rough.off = step.measure;
      if (step.kind == Kind::crosscut) {
        rough.chalk.push_back({step.chalk, fallsOf(step, cutting)});
        last = &step;
      }
      if (step.kind == Kind::remainder) rough.rest = inUnit(step.measure) + " throw";
    }
    rough.ripped = last == nullptr && std::any_of(steps.begin(), steps.end(), [](const auto& s) {
                     return s.kind == Kind::rip;
                   });
    if (rough.rest.empty() && last != nullptr) rough.rest = restOf(cutting, last->at.x);
    lists_.rough.push_back(std::move(rough));
  }

  [[nodiscard]] static std::string fallsOf(const SawStep& step, const Cutting& cutting) {
    const bool keep =
        step.piece >= 0 &&
        cutting.pieces[static_cast<std::size_t>(step.piece)].kind == PieceKind::offcut;
    return keep ? "keep" : step.falls == "waste" ? "waste" : "";
  }

  /// What lies at the tag end once the last crosscut, at `x`, is made.
  [[nodiscard]] std::string restOf(const Cutting& cutting, Length x) const {
    for (const Piece& piece : cutting.pieces) {
      const bool leaf = piece.kind == PieceKind::offcut || piece.kind == PieceKind::blank;
      if (!leaf || piece.at.right() != x) continue;
      return piece.kind == PieceKind::offcut
                 ? inUnit(piece.at.dx) + " keep"
                 : inUnit(piece.at.dx) + " " + handMark(piece.line, piece.copy);
    }
    return inUnit(x - cutting.pieces.front().at.x) + " to rip";
  }

  static void addCut(Cuts& cuts, const Cutting& cutting, const Board& board, const SawStep& step) {
    ++cuts.count;
    const Piece* piece =
        step.piece >= 0 ? &cutting.pieces[static_cast<std::size_t>(step.piece)] : nullptr;
    if (piece != nullptr && piece->kind == PieceKind::blank) {
      cuts.blanks.emplace_back(piece->line, piece->copy);
    } else {
      std::string other = step.falls + " of " + tagOf(board);
      // A sliver is never held between a blade and a stop.
      if (step.falls == "waste" && step.kind == SawStep::Kind::trimStrip) {
        other += " (to a line, never to a stop)";
      }
      if (cuts.others.empty() || cuts.others.back().first != other) {
        cuts.others.emplace_back(other, 0);
      }
      ++cuts.others.back().second;
    }
  }

  void addBlank(const Piece& piece) {
    for (const Part& part : job_.parts) {
      if (part.line != piece.line) continue;
      for (Cuts* cuts : {&thicknesses_[part.thickness], &stops_[part.length]}) {
        cuts->blanks.emplace_back(piece.line, piece.copy);
        ++cuts->count;
      }
    }
  }

  using BySize = std::map<Length, Cuts, std::greater<>>;

  static std::vector<MachineSetting> settingsOf(BySize& sizes) {
    std::vector<MachineSetting> settings;
    for (auto& [measure, cuts] : sizes) {
      std::sort(cuts.blanks.begin(), cuts.blanks.end());
      std::string pieces = joined(cuts.blanks);
      for (const auto& [other, count] : cuts.others) {
        pieces += (pieces.empty() ? "" : ", ") +
                  (count > 1 ? std::to_string(count) + " × " : std::string()) + other;
      }
      settings.push_back({measure, std::move(pieces), cuts.count});
    }
    return settings;
  }

  void addCautions() {
    std::vector<std::string> common;
    for (const auto& [sentence, tags] : cautions_) {
      if (tags.size() == lists_.boards) {
        common.push_back(sentence);
        continue;
      }
      std::string names;
      for (const std::string& tag : tags) names += (names.empty() ? "" : ", ") + tag;
      lists_.cautions.push_back(names + ": " + sentence);
    }
    lists_.cautions.insert(lists_.cautions.end(), common.begin(), common.end());
  }

  [[nodiscard]] std::string inUnit(Length length) const { return text(length, styleOf(unit_)); }

  const Job& job_;
  const ShopProfile& shop_;
  Unit unit_ = Unit::inches;
  WorkLists lists_;
  BySize thicknesses_, fences_, strips_, stops_;
  std::vector<std::pair<std::string, std::vector<std::string>>> cautions_;
};

Table settingTable(const std::string& title, const Column& measure, const Column& cuts,
                   const std::vector<MachineSetting>& settings) {
  Table table;
  table.title = title;
  table.columns = {measure, {"pieces", "pieces", false}, cuts};
  for (const MachineSetting& setting : settings) {
    table.rows.push_back(
        {setting.measure, setting.pieces, static_cast<std::int64_t>(setting.cuts)});
  }
  return table;
}

std::string chalkText(const RoughCuts& rough, Unit unit) {
  if (rough.ripped) return "rip first";
  std::string marks;
  for (const ChalkMark& mark : rough.chalk) {
    marks += (marks.empty() ? "" : "   ") + text(mark.at, styleOf(unit)) +
             (mark.falls.empty() ? "" : " " + mark.falls);
  }
  return marks;
}

}  // namespace

std::string joined(const Blanks& blanks) {
  std::string all;
  for (std::size_t n = 0; n < blanks.size();) {
    std::size_t end = n + 1;
    while (end < blanks.size() && blanks[end].first == blanks[n].first &&
           blanks[end].second == blanks[end - 1].second + 1) {
      ++end;
    }
    const auto mark = [&](std::size_t at) { return handMark(blanks[at].first, blanks[at].second); };
    if (end - n < 3) end = n + 1;
    all += (all.empty() ? "" : ", ") + mark(n) + (end - n > 1 ? " to " + mark(end - 1) : "");
    n = end;
  }
  return all;
}

WorkLists workLists(const CutPlan& plan, const std::vector<Board>& boards, const Job& job,
                    const ShopProfile& shop, Unit unit, const std::vector<Species>& ownSpecies) {
  Gathering gathering(job, shop, unit);
  for (const Cutting& cutting : plan.cuttings) {
    const auto board = std::find_if(boards.begin(), boards.end(),
                                    [&](const Board& each) { return each.id == cutting.board; });
    if (board == boards.end()) throw std::invalid_argument("a cutting's board is not at hand");
    gathering.add(cutting, *board, ownSpecies);
  }
  return gathering.finish();
}

std::vector<Table> workTables(const WorkLists& lists, Unit unit) {
  Table rough;
  rough.title = "1 Rough crosscuts, board by board: the end away from the tag first";
  rough.columns = {{"bay", "bay", false},
                   {"tag", "tag", false},
                   {"wood", "wood", false},
                   {"off", "off", true},
                   {"chalk", "chalk from the fresh end", false},
                   {"rest", "rest", false}};
  for (const RoughCuts& board : lists.rough) {
    rough.rows.push_back({board.bay, board.tag, board.wood,
                          board.off > Length() ? CellValue{board.off} : CellValue{},
                          chalkText(board, unit), board.rest});
  }
  return {rough,
          settingTable("2 Face and plane, by finished thickness", {"thickness", "thickness", true},
                       {"count", "how many", true}, lists.thicknesses),
          settingTable("3 Rips, by fence setting: a straight edge runs against the fence",
                       {"fence", "fence", true}, {"cuts", "cuts", true}, lists.fences),
          settingTable("4 Rough lengths from strips, by stop", {"stop", "stop", true},
                       {"cuts", "cuts", true}, lists.strips),
          settingTable("5 Final lengths, by stop: chalk the hand mark again after planing",
                       {"stop", "stop", true}, {"count", "how many", true}, lists.stops)};
}

Table workRows(const WorkLists& lists) {
  Table table;
  table.title = "Work lists of " + lists.job;
  table.columns = {{"station", "station", false},
                   {"setting", "setting", true},
                   {"tag", "tag", false},
                   {"pieces", "pieces", false},
                   {"cuts", "cuts", true}};
  const auto row = [&](const char* station, Length setting, const std::string& tag,
                       const std::string& pieces, int cuts) {
    table.rows.push_back(
        {std::string(station), setting, tag, pieces, static_cast<std::int64_t>(cuts)});
  };
  for (const RoughCuts& board : lists.rough) {
    if (board.off > Length()) row("square the end", board.off, board.tag, "", 1);
    for (const ChalkMark& mark : board.chalk) {
      row("rough crosscut", mark.at, board.tag, mark.falls, 1);
    }
  }
  for (const MachineSetting& at : lists.thicknesses)
    row("plane", at.measure, "", at.pieces, at.cuts);
  for (const MachineSetting& at : lists.fences) row("rip", at.measure, "", at.pieces, at.cuts);
  for (const MachineSetting& at : lists.strips)
    row("strip crosscut", at.measure, "", at.pieces, at.cuts);
  for (const MachineSetting& at : lists.stops)
    row("final length", at.measure, "", at.pieces, at.cuts);
  return table;
}

}  // namespace flitch::pages
