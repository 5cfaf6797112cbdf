#include <algorithm>
#include <catch2/catch.hpp>
#include <functional>
#include <map>
#include <random>
#include <set>

#include "inventory/records/account.h"
#include "tests/store/sample.h"

// A state machine: random verbs against the book and against a small shop held in memory. After
// each the two agree, wood and money add up, and check() is clean.

using namespace flitch;
using namespace flitch::store;

namespace {

struct Sums {
  std::int64_t volume = 0, cost = 0;
  friend bool operator==(const Sums&, const Sums&) = default;
};

/// All that is worth telling of a shop at one time.
struct Shop {
  std::map<BoardId, Board> rack;  ///< without versions: an undo gives new ones
  std::map<AccountKind, Sums> sawn;
  std::map<JobId, int> made;
  std::set<CuttingId> spoiled;
  std::map<PlanId, BoardId> toSaw;
  Money bought;
};

/// The shop is told over again from the events that stand, so undoing one is leaving it out.
struct Happened {
  EntryId entry;
  std::function<void(Shop&)> tell;
};

Board plain(Board board) {
  board.version = {};
  return board;
}

class Game {
 public:
  explicit Game(unsigned seed) : random_(seed) {}

  void step() {
    const int dice = below(100);
    if (dice < 22) {
      receive();
    } else if (dice < 36) {
      mark();
    } else if (dice < 42) {
      addJob();
    } else if (dice < 58) {
      keep();
    } else if (dice < 74) {
      saw();
    } else if (dice < 80) {
      spoil();
    } else {
      undo(dice < 90 ? 0 : below(8));
    }
    compare();
  }
  /// How often each verb was taken or refused.
  [[nodiscard]] const std::map<std::string, int>& counts() const { return counts_; }

 private:
  int below(int n) { return std::uniform_int_distribution<int>(0, n - 1)(random_); }
  template <class Map>
  auto& anyOf(Map& map) {
    auto at = map.begin();
    std::advance(at, below(static_cast<int>(map.size())));
    return *at;
  }
  void happened(const std::string& verb, EntryId entry, std::function<void(Shop&)> tell) {
    tell(shop_);
    history_.push_back({entry, std::move(tell)});
    ++counts_[verb];
  }
  [[nodiscard]] Board now(BoardId id) const { return book_.read().board(id).value(); }

  void receive() {
    std::vector<Board> boards;
    for (int i = 1 + below(3); i > 0; --i) {
      boards.push_back(sample::plank(Length::inches(60 + below(60)), Length::inches(5 + below(6))));
    }
    const Money cost = Money::tenThousandths(100'000 + below(900'000));
    const auto received = sample::receive(book_, boards, cost);
    for (std::size_t i = 0; i < boards.size(); ++i) {
      Board& board = boards[i];
      board.id = received.boards[i];
      board.delivery = received.delivery;
      board.supplier = "Norling";
      board.cost = cost;
      board.tag = now(board.id).tag;
      CHECK(board.tag);
    }
    happened("receive", received.entry, [boards, cost](Shop& shop) {
      for (const Board& board : boards) {
        shop.rack[board.id] = board;
        shop.bought += cost;
      }
    });
  }

  void mark() {
    if (shop_.rack.empty()) return;
    const BoardId id = anyOf(shop_.rack).first;
    Board board = now(id);
    board.defects.push_back({below(2) ? "sound knot" : "split",
                             below(2) ? DefectFace::a : DefectFace::through,
                             {Length::inches(below(40)), Length::inches(below(4)),
                              Length::inches(1 + below(4)), Length::inches(1)}});
    Defect& mark = board.defects.back();
    if (below(2)) mark.depth = Length::sixtyFourths(1 + below(9));
    if (below(2)) mark.onB = Rect{mark.where.x, mark.where.y, Length::inches(2), Length::inches(1)};
    settle(mark);
    if (below(4) == 0) {
      board.thickness -= Length::sixtyFourths(1);
      board.wood = volumeOf(board);
    }
    const EntryId entry = book_.change({"marked", {}, "", {}}, sample::hand(),
                                       [&](Writer& writer) { writer.updateBoard(board); });
    happened("mark", entry, [board](Shop& shop) {
      Board& marked = shop.rack.at(board.id);
      marked.defects = board.defects;
      marked.thickness = board.thickness;
      marked.wood = board.wood;
    });
  }

  void addJob() {
    const JobId id = sample::addJob(book_, "job " + std::to_string(++names_));
    happened("job", book_.read().lastEntry(), [id](Shop& shop) { shop.made[id] = 0; });
  }

  void keep() {
    if (shop_.made.empty() || shop_.rack.empty()) return;
    const JobId job = anyOf(shop_.made).first;
    const Board board = anyOf(shop_.rack).second;
    if (board.length() < Length::inches(40) || board.widthAtTag() < Length::inches(4)) return;
    const EntryId last = book_.read().lastEntry();
    if (board.reservedFor && board.reservedFor != job) {
      CHECK_THROWS_AS(sample::keep(book_, job, {board.id}), Refusal);
      CHECK(book_.read().lastEntry() == last);
      ++counts_["keep refused"];
      return;
    }
    const PlanId plan = sample::keep(book_, job, {board.id});
    const std::string name = book_.read().job(job)->name;
    jobOf_[plan] = job;
    happened("keep", EntryId{last.value + 1}, [=](Shop& shop) {
      shop.rack.at(board.id).reservedFor = job;
      shop.rack.at(board.id).reservedName = name;
      shop.toSaw[plan] = board.id;
    });
  }

  void saw() {
    if (shop_.toSaw.empty()) return;
    const auto [plan, id] = anyOf(shop_.toSaw);
    const JobId job = jobOf_.at(plan);
    if (!shop_.rack.contains(id)) {
      // Sawn for this plan or another of the same job.
      const PlanId again = plan;
      const BoardId gone = id;
      CHECK_THROWS_AS(sample::saw(book_, again, gone), Refusal);
      ++counts_["saw twice refused"];
      return;
    }
    const Board board = shop_.rack.at(id);
    const auto sawn = sample::saw(book_, plan, id);
    const Breakdown expected =
        account(sample::cuttingOf(board), board, book_.read().job(job).value(), book_.read().shop(),
                Length::sixtyFourths(8));
    const Board offcut = plain(now(sawn.offcuts.at(0)));
    CHECK(offcut.cost == expected.offcutWorth);
    happened("saw", sawn.entry, [=](Shop& shop) {
      for (const Share& share : expected.shares) {
        if (share.volume.value == 0 && share.cost == Money()) continue;
        const AccountKind kind =
            share.cause == Cause::offcuts ? AccountKind::board : accountOf(share.cause);
        shop.sawn[kind].volume += share.volume.value;
        shop.sawn[kind].cost += share.cost.raw();
      }
      shop.rack.erase(board.id);
      shop.rack[offcut.id] = offcut;
      ++shop.made[job];
    });
  }

  void spoil() {
    const std::vector<DoneCutting> done = book_.read().doneCuttings(std::nullopt);
    if (done.empty()) return;
    const DoneCutting& cutting =
        done[static_cast<std::size_t>(below(static_cast<int>(done.size())))];
    const Breakdown breakdown =
        account(cutting.cutting, cutting.board, book_.read().job(cutting.job).value(),
                book_.read().profile(cutting.profile).value(), cutting.tick);
    const Share part =
        *std::find_if(breakdown.shares.begin(), breakdown.shares.end(),
                      [](const Share& share) { return share.cause == Cause::parts; });
    const EntryId last = book_.read().lastEntry();
    const auto write = [&](Writer& writer) { writer.spoil(cutting.id, part, "tear-out"); };
    if (shop_.spoiled.contains(cutting.id)) {
      CHECK_THROWS_AS(book_.change({"spoiled", cutting.job, "", {}}, sample::hand(), write),
                      Refusal);
      CHECK(book_.read().lastEntry() == last);
      ++counts_["spoil twice refused"];
      return;
    }
    const EntryId entry = book_.change({"spoiled", cutting.job, "", {}}, sample::hand(), write);
    happened("spoil", entry, [part, job = cutting.job, id = cutting.id](Shop& shop) {
      shop.sawn[AccountKind::parts].volume -= part.volume.value;
      shop.sawn[AccountKind::parts].cost -= part.cost.raw();
      shop.sawn[AccountKind::lost].volume += part.volume.value;
      shop.sawn[AccountKind::lost].cost += part.cost.raw();
      --shop.made[job];
      shop.spoiled.insert(id);
    });
  }

  /// Undoes the newest event, or one further back, which others may stand on.
  void undo(int back) {
    if (static_cast<int>(history_.size()) <= back) return;
    const auto at = history_.end() - 1 - back;
    const EntryId last = book_.read().lastEntry();
    try {
      sample::undo(book_, at->entry);
    } catch (const Refusal& refusal) {
      CHECK(back > 0);
      CHECK(refusal.code() == "stands-on-it");
      CHECK(book_.read().lastEntry() == last);
      ++counts_["undo refused"];
      return;
    }
    history_.erase(at);
    shop_ = {};
    for (const Happened& event : history_) event.tell(shop_);
    ++counts_[back > 0 ? "undo further back" : "undo"];
  }

  void compare() {
    const Snapshot snapshot = book_.read();
    std::map<BoardId, Board> rack;
    Money accounted;
    for (const Board& board : snapshot.rack()) {
      rack[board.id] = plain(board);
      accounted += board.cost;
    }
    CHECK(rack == shop_.rack);
    std::map<AccountKind, Sums> sawn;
    for (const LedgerSum& sum : snapshot.sawnSums(std::nullopt)) {
      sawn[sum.target] = {sum.volume.value, sum.cost.raw()};
      // An offcut that was sawn is counted where it went.
      if (sum.target != AccountKind::board) accounted += sum.cost;
    }
    CHECK(sawn == shop_.sawn);
    CHECK(accounted == shop_.bought);
    std::size_t jobs = 0;
    for (const Job& job : snapshot.jobs()) {
      // The samples saw copy 1 of line 1 again and again.
      const bool some = shop_.made.at(job.id) > 0;
      CHECK(snapshot.made(job.id) ==
            (some ? std::map<int, std::set<int>>{{1, {1}}} : std::map<int, std::set<int>>{}));
      ++jobs;
    }
    CHECK(jobs == shop_.made.size());
    CHECK(sample::checked(book_) == "");
  }

  std::mt19937 random_;
  sample::Folder folder_;
  Book book_ = Book::create(folder_.file("shop.flitch"), sample::facts());
  Shop shop_;
  std::vector<Happened> history_;
  std::map<PlanId, JobId> jobOf_;
  std::map<std::string, int> counts_;
  int names_ = 0;
};

}  // namespace

TEST_CASE("after any run of verbs book and shop agree and everything adds up") {
  std::map<std::string, int> counts;
  for (const unsigned seed : {1U, 2U, 3U, 4U}) {
    INFO("seed " << seed);
    Game game(seed);
    for (int step = 0; step < 80; ++step) game.step();
    for (const auto& [verb, count] : game.counts()) counts[verb] += count;
  }
  for (const char* verb :
       {"receive", "mark", "job", "keep", "saw", "spoil", "undo", "undo further back",
        "undo refused", "keep refused", "saw twice refused", "spoil twice refused"}) {
    INFO(verb);
    CHECK(counts[verb] >= 3);
  }
}
