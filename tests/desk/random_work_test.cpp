// Random runs of every verb: after each, what must hold of any shop does.
#include "tests/desk/random_work.h"

#include <QTemporaryDir>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <map>
#include <set>

#include "inventory/desk/proof.h"
#include "inventory/desk/reports.h"
#include "inventory/desk/saw.h"
#include "inventory/wood/split.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;
using store::Balance;

namespace {

using Rack = std::map<BoardId, Board>;

/// Boards without their versions: an undo gives new ones.
Rack rackOf(const store::Snapshot& snapshot) {
  Rack rack;
  for (const Board& board : snapshot.rack()) {
    rack[board.id] = board;
    rack[board.id].version = {};
  }
  return rack;
}

std::map<BoardId, Balance> balancesOf(const Rack& rack) {
  std::map<BoardId, Balance> balances;
  for (const auto& [id, board] : rack) balances[id] = {board.wood, board.cost};
  return balances;
}

/// Kinds of mark that cover a point of a face, or of an edge.
std::multiset<std::string> kindsAt(const Board& board, DefectFace face, Length x, Length y) {
  std::multiset<std::string> kinds;
  for (const Defect& d : board.defects) {
    const bool here = d.where.x <= x && x < d.where.right() && d.where.y <= y && y < d.where.top();
    if (here && d.face == face) kinds.insert(d.kind);
  }
  return kinds;
}

/// Watches a book while somebody works in it.
class Witness {
 public:
  explicit Witness(const Book& book) : book_(book) { stood_.push_back({EntryId{}, {}}); }

  /// Looks at all that happened in the newest entry, if there is one.
  void look() {
    const store::Snapshot now = book_.read();
    const EntryId last = now.lastEntry();
    if (last == lastSeen_) return;
    REQUIRE(last.value == lastSeen_.value + 1);
    lastSeen_ = last;
    const Rack rack = rackOf(now);
    replay(now.moves(last));
    CHECK(replayed_ == balancesOf(rack));
    past_[last] = balancesOf(rack);
    moneyBalances();
    newBoards(now);
    nothingTwice(now, rack);
    undone(now, rack);
  }
  /// What stood on any past entry is what the book replays, and what the reports of today say.
  void lookBack() const {
    const store::Snapshot now = book_.read();
    for (const auto& [entry, balances] : past_) CHECK(now.balancesAt(entry) == balances);
    CubicMillimetres volume;
    Money cost;
    for (const store::LedgerSum& sum : now.sawnSums(std::nullopt)) {
      volume += sum.volume;
      cost += sum.cost;
    }
    for (const store::DoneCutting& done : now.doneCuttings(std::nullopt)) {
      volume.value -= done.board.wood.value;
      cost -= done.board.cost;
    }
    CHECK(volume == CubicMillimetres{});
    CHECK(cost == Money());
    for (const store::Unsound& unsound : prove(book_)) FAIL_CHECK(unsound.sentence);
  }

 private:
  void replay(const std::vector<Move>& moves) {
    for (const Move& move : moves) {
      const auto add = [&](AccountKind kind, BoardId board, int sign) {
        Balance& balance = kind == AccountKind::board ? replayed_[board] : accounts_[kind];
        balance.volume += CubicMillimetres{sign * move.volume.value};
        balance.cost += move.cost * sign;
      };
      add(move.source, move.sourceBoard, -1);
      add(move.target, move.targetBoard, 1);
    }
    std::erase_if(replayed_, [](const auto& one) { return one.second == Balance{}; });
  }
  /// All that came in lies on the rack or went somewhere.
  void moneyBalances() const {
    Balance all;
    for (const auto& [board, balance] : replayed_) {
      CHECK(balance.volume.value > 0);
      CHECK(balance.cost >= Money());
      all.volume += balance.volume;
      all.cost += balance.cost;
    }
    for (const auto& [kind, balance] : accounts_) {
      all.volume += balance.volume;
      all.cost += balance.cost;
    }
    CHECK(all == Balance{});
  }

  void newBoards(const store::Snapshot& now) {
    const std::int64_t first = newest_ + 1;
    while (now.board(BoardId{newest_ + 1})) ++newest_;
    for (std::int64_t id = first; id <= newest_; ++id) {
      const Board board = now.board(BoardId{id}).value();
      if (board.parent) offcut(now, board);
    }
  }
  /// No larger than its parent, in it, beside its sisters, at no more than its share, and under
  /// the parent's marks.
  void offcut(const store::Snapshot& now, const Board& board) {
    const Board parent = now.board(board.parent).value();
    const Balance was = past_.at(EntryId{lastSeen_.value - 1}).at(parent.id);
    CHECK(contains(boundsOf(parent), board.inParent));
    CHECK(boundsOf(board).dx <= boundsOf(parent).dx);
    CHECK(boundsOf(board).dy <= boundsOf(parent).dy);
    CHECK(board.thickness <= parent.thickness);
    CHECK(board.wood.value <= was.volume.value);
    CHECK(static_cast<Wide>(board.cost.raw()) * was.volume.value <=
          static_cast<Wide>(was.cost.raw() + 1) * board.wood.value);
    for (const BoardId sister : now.childrenOf(parent.id)) {
      const Board other = now.board(sister).value();
      if (other.id == board.id || other.withdrawn) continue;
      CHECK_FALSE(overlaps(other.inParent, board.inParent));
    }
    constexpr int points = 40;
    const bool wholeFace = board.note == "lay outside what was marked good";
    for (int n = 0; n < points && !wholeFace; ++n) {
      const Length x = Length::nanometres(below(boundsOf(board).dx.nm()));
      const Length y = Length::nanometres(below(boundsOf(board).dy.nm()));
      for (const DefectFace face :
           {DefectFace::a, DefectFace::b, DefectFace::through, DefectFace::near, DefectFace::far}) {
        CHECK(kindsAt(board, face, x, y) ==
              kindsAt(parent, face, x + board.inParent.x, y + board.inParent.y));
      }
    }
    ++offcuts;
  }

  static void nothingTwice(const store::Snapshot& now, const Rack& rack) {
    std::set<BoardId> sawn;
    std::set<std::tuple<JobId, int, int>> blanks;
    std::set<std::pair<CuttingId, int>> spoiled;
    for (const store::SpoiledPiece& piece : now.spoiled(std::nullopt)) {
      CHECK(spoiled.emplace(piece.cutting, piece.piece).second);
    }
    for (const store::DoneCutting& done : now.doneCuttings(std::nullopt)) {
      CHECK(sawn.insert(done.board.id).second);
      CHECK_FALSE(rack.contains(done.board.id));
      for (std::size_t p = 0; p < done.cutting.pieces.size(); ++p) {
        const Piece& piece = done.cutting.pieces[p];
        if (piece.kind != PieceKind::blank) continue;
        if (spoiled.contains({done.id, static_cast<int>(p)})) continue;
        CHECK(blanks.emplace(done.job, piece.line, piece.copy).second);
      }
    }
  }

  /// An undo leaves the shop as it was before what it took back.
  void undone(const store::Snapshot& now, const Rack& rack) {
    const store::EntryLine line = now.entry(lastSeen_).value();
    if (!line.reverses) {
      stood_.push_back({lastSeen_, rack});
      return;
    }
    CHECK(stood_.back().first == line.reverses);
    stood_.pop_back();
    CHECK(stood_.back().second == rack);
    ++undos;
  }

  std::int64_t below(std::int64_t n) {
    return std::uniform_int_distribution<std::int64_t>(0, n - 1)(random_);
  }

  const Book& book_;
  std::mt19937 random_{7};
  EntryId lastSeen_;
  std::int64_t newest_ = 0;
  std::map<BoardId, Balance> replayed_;
  std::map<AccountKind, Balance> accounts_;
  std::map<EntryId, std::map<BoardId, Balance>> past_;
  std::vector<std::pair<EntryId, Rack>> stood_;  ///< the rack after each entry that stands

 public:
  int offcuts = 0, undos = 0;
};

/// Sequences to run; FLITCHBOOK_SEQUENCES asks for more.
unsigned sequences() {
  const char* asked = std::getenv("FLITCHBOOK_SEQUENCES");
  constexpr unsigned usual = 60;
  return asked == nullptr ? usual : static_cast<unsigned>(std::strtoul(asked, nullptr, 10));
}

}  // namespace

TEST_CASE("whatever is done in whatever order, wood and money and marks hold") {
  std::map<std::string, int> done;
  int offcuts = 0, undos = 0;
  for (unsigned seed = 1; seed <= sequences(); ++seed) {
    INFO("sequence " << seed);
    sample::Shop shop;
    sample::RandomWork work(shop.book, seed);
    Witness witness(shop.book);
    constexpr int steps = 40;
    for (int step = 0; step < steps; ++step) {
      const std::string what = work.step();
      INFO("step " << step << ": " << what);
      ++done[what];
      witness.look();
    }
    witness.lookBack();
    offcuts += witness.offcuts;
    undos += witness.undos;
  }
  std::string counts;
  for (const auto& [what, times] : done) counts += what + " " + std::to_string(times) + "\n";
  CAPTURE(counts);
  if (std::getenv("FLITCHBOOK_SEQUENCES") != nullptr) WARN(counts);
  for (const char* verb :
       {"receive", "job",       "change",  "mark",      "move",        "plan",  "search",
        "saw",     "otherwise", "bin",     "spoil",     "use by hand", "count", "retire",
        "return",  "credit",    "new tag", "keep back", "set",         "undo"}) {
    INFO(verb);
    CHECK(done[verb] >= 10);
  }
  CHECK(offcuts >= 30);
  CHECK(undos >= 30);
}
