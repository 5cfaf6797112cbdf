#include "inventory/desk/learned.h"

#include <algorithm>
#include <array>
#include <set>

#include "inventory/planning/lessons.h"
#include "inventory/records/account.h"

namespace flitch::desk {

namespace {

constexpr auto parts = static_cast<std::size_t>(Cause::parts);
constexpr auto offcuts = static_cast<std::size_t>(Cause::offcuts);

/// Reads of the book what a blank was for, each job and profile once.
class Shops {
 public:
  explicit Shops(const store::Snapshot& snapshot) : snapshot_(snapshot) {
    for (const store::SpoiledPiece& piece : snapshot.spoiled(std::nullopt)) {
      lost_.emplace(piece.cutting, piece.piece);
    }
  }
  [[nodiscard]] bool lost(const SawnBoard& board, std::size_t piece) const {
    return lost_.contains({board.done.id, static_cast<int>(piece)});
  }
  const Part& partOf(const SawnBoard& board, const Piece& blank) {
    const auto [job, fresh] = jobs_.try_emplace(board.done.job);
    if (fresh) job->second = snapshot_.job(board.done.job).value();
    return *std::find_if(job->second.parts.begin(), job->second.parts.end(),
                         [&](const Part& part) { return part.line == blank.line; });
  }
  const ShopProfile& shopOf(const SawnBoard& board) {
    const auto [shop, fresh] = shops_.try_emplace(board.done.profile);
    if (fresh) shop->second = snapshot_.profile(board.done.profile).value();
    return shop->second;
  }

 private:
  const store::Snapshot& snapshot_;
  std::set<std::pair<CuttingId, int>> lost_;
  std::map<JobId, Job> jobs_;
  std::map<ProfileId, ShopProfile> shops_;
};

/// A face that asks to be looked at lay where nobody had.
bool restedOnUnseen(const Piece& blank, const Part& part, const Board& board,
                    const ShopProfile& shop) {
  for (const Face face : {Face::a, Face::b}) {
    const Demand* demand = findDemand(shop, face == blank.faceUp ? part.faceA : part.faceB);
    const bool asks = demand != nullptr && !demand->unseen;
    if (asks && board.looked[static_cast<std::size_t>(face)] == Looked::no) return true;
  }
  return false;
}

template <class Work>
void eachBlank(const SawnBoard& board, const Work& work) {
  const std::vector<Piece>& pieces = board.done.cutting.pieces;
  for (std::size_t p = 0; p < pieces.size(); ++p) {
    if (pieces[p].kind == PieceKind::blank) work(p, pieces[p]);
  }
}

struct Band {
  const char* name;
  Length to;  ///< shorter than this
};
const std::array bands{
    Band{"under 12 in", Length::inches(12)}, Band{"12 to 24 in", Length::inches(24)},
    Band{"24 to 48 in", Length::inches(48)}, Band{"48 to 72 in", Length::inches(72)},
    Band{"72 in and over", maxBoardLength + Length::inches(1)}};

/// What one row of either table adds up.
struct Sum {
  std::vector<BoardId> boards;
  FeetUsed feet;
  Feet promised;
  BlankCount blanks;
};

CellValue lostShare(const BlankCount& blanks) { return permille(blanks.lost, blanks.sawn); }

}  // namespace

Learned learnedFrom(const std::vector<SawnBoard>& boards, const store::Snapshot& snapshot) {
  Learned learned;
  Shops shops(snapshot);
  for (const SawnBoard& board : boards) {
    const Board& wood = board.done.board;
    learned.yields[{wood.species, wood.nominal}] +=
        {wood.measuredFeet - board.feet[offcuts], board.feet[parts]};
    eachBlank(board, [&](std::size_t p, const Piece& blank) {
      if (!restedOnUnseen(blank, shops.partOf(board, blank), wood, shops.shopOf(board))) return;
      BlankCount& count = learned.unseen[board.name(By::supplier)];
      ++count.sawn;
      count.lost += shops.lost(board, p) ? 1 : 0;
    });
  }
  return learned;
}

void addLessons(planning::PlanResult& result, const store::Snapshot& snapshot) {
  const Learned learned = learnedFrom(sawnBoards(snapshot), snapshot);
  for (std::string& lesson : planning::lessons(result, learned)) {
    result.notes.push_back(std::move(lesson));
  }
}

LearnedTables learnedReport(const std::vector<SawnBoard>& boards, const store::Snapshot& snapshot) {
  Shops shops(snapshot);
  Promises promises(snapshot);
  std::map<std::pair<std::string, std::string>, Sum> suppliers;
  std::array<Sum, bands.size()> lengths{};
  Sum all;
  for (const SawnBoard& board : boards) {
    Sum& supplier = suppliers[{board.name(By::supplier), board.name(By::grade)}];
    const Feet used = board.done.board.measuredFeet - board.feet[offcuts];
    const Promised said = promises.of(board);
    for (Sum* sum : {&supplier, &all}) {
      sum->boards.push_back(board.done.board.id);
      sum->feet += {used, board.feet[parts]};
      sum->promised += said.parts;
    }
    eachBlank(board, [&](std::size_t p, const Piece& blank) {
      const Length length = shops.partOf(board, blank).length;
      const auto band =
          std::find_if(bands.begin(), bands.end(), [&](const Band& b) { return length < b.to; });
      Sum& ofLength = lengths[static_cast<std::size_t>(band - bands.begin())];
      if (ofLength.boards.empty() || ofLength.boards.back() != board.done.board.id) {
        ofLength.boards.push_back(board.done.board.id);
      }
      for (Sum* sum : {&supplier, &ofLength, &all}) {
        ++sum->blanks.sawn;
        sum->blanks.lost += shops.lost(board, p) ? 1 : 0;
      }
    });
  }

  LearnedTables tables;
  tables.yield.title = "What sawing taught, by supplier and grade";
  tables.yield.columns = {{"supplier", "supplier", false},      {"grade", "grade", false},
                          {"boards", "boards", true},           {"used", "bf used up", true},
                          {"promised_yield", "promised", true}, {"yield", "in parts", true},
                          {"blanks", "blanks", true},           {"lost", "lost", true},
                          {"lost_share", "of blanks", true}};
  const auto yieldRow = [](const std::string& supplier, const std::string& grade, const Sum& sum) {
    const std::int64_t used = sum.feet.used.thousandths;
    return std::vector<CellValue>{supplier,
                                  grade,
                                  static_cast<std::int64_t>(sum.boards.size()),
                                  sum.feet.used,
                                  permille(sum.promised.thousandths, used),
                                  permille(sum.feet.parts.thousandths, used),
                                  static_cast<std::int64_t>(sum.blanks.sawn),
                                  static_cast<std::int64_t>(sum.blanks.lost),
                                  lostShare(sum.blanks)};
  };
  tables.lengths.title = "Blanks lost, by length of the part";
  tables.lengths.columns = {{"length", "part", false},
                            {"boards", "boards", true},
                            {"blanks", "blanks", true},
                            {"lost", "lost", true},
                            {"lost_share", "of blanks", true}};
  const auto lengthRow = [](const std::string& name, const Sum& sum) {
    return std::vector<CellValue>{name, static_cast<std::int64_t>(sum.boards.size()),
                                  static_cast<std::int64_t>(sum.blanks.sawn),
                                  static_cast<std::int64_t>(sum.blanks.lost),
                                  lostShare(sum.blanks)};
  };
  tables.rows.title = "What sawing taught";
  tables.rows.columns = tables.yield.columns;
  tables.rows.columns.insert(tables.rows.columns.begin() + 2, {"length", "part", false});
  const auto file = [&](std::vector<CellValue> row, const std::string& length) {
    row.insert(row.begin() + 2, length);
    tables.rows.rows.push_back(std::move(row));
  };
  for (const auto& [name, sum] : suppliers) {
    tables.yield.rows.push_back(yieldRow(name.first, name.second, sum));
    tables.yield.boards.push_back(sum.boards);
    file(tables.yield.rows.back(), "");
  }
  tables.yield.totals = yieldRow("all", "", all);
  for (std::size_t n = 0; n < bands.size(); ++n) {
    if (lengths[n].blanks.sawn == 0) continue;
    tables.lengths.rows.push_back(lengthRow(bands[n].name, lengths[n]));
    tables.lengths.boards.push_back(lengths[n].boards);
    const std::int64_t sawn = lengths[n].blanks.sawn, lost = lengths[n].blanks.lost;
    file({std::string(),
          std::string(),
          static_cast<std::int64_t>(lengths[n].boards.size()),
          {},
          {},
          {},
          sawn,
          lost,
          lostShare(lengths[n].blanks)},
         bands[n].name);
  }
  tables.lengths.totals = lengthRow("all", all);
  tables.yield.note =
      "Used up: boards less the offcuts kept. Promised: what the plans said would be in parts; in "
      "parts: what is, with blanks lost at the saw or spoiled since taken out. Plans take from "
      "here "
      "how much to buy and what faces nobody looked at may cost.";
  return tables;
}

}  // namespace flitch::desk
