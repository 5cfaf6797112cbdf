#include "tests/desk/random_work.h"

#include <algorithm>
#include <map>
#include <set>

#include "inventory/desk/bins.h"
#include "inventory/desk/count.h"
#include "inventory/desk/names.h"
#include "inventory/desk/rack_work.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/returns.h"
#include "inventory/desk/saw.h"
#include "inventory/desk/saw_otherwise.h"
#include "inventory/desk/saw_paper.h"
#include "inventory/records/blank.h"
#include "inventory/records/refusal.h"
#include "tests/desk/hand_plans.h"

namespace flitch::desk::sample {

const std::vector<RandomWork::Verb>& RandomWork::verbs() {
  using Work = RandomWork;
  static const std::vector<Verb> all{{"receive", 9, &Work::receive},
                                     {"job", 4, &Work::addJob},
                                     {"change", 2, &Work::changeJob},
                                     {"mark", 5, &Work::mark},
                                     {"move", 5, &Work::move},
                                     {"plan", 10, &Work::plan},
                                     {"search", 3, &Work::search},
                                     {"saw", 10, &Work::saw},
                                     {"otherwise", 9, &Work::sawOtherwise},
                                     {"bin", 4, &Work::bin},
                                     {"spoil", 5, &Work::spoil},
                                     {"use by hand", 4, &Work::useByHand},
                                     {"count", 5, &Work::count},
                                     {"retire", 3, &Work::retire},
                                     {"return", 4, &Work::sendBack},
                                     {"credit", 3, &Work::credit},
                                     {"new tag", 3, &Work::retag},
                                     {"keep back", 2, &Work::keepBack},
                                     {"set", 2, &Work::set},
                                     {"undo", 10, &Work::undo}};
  return all;
}

std::string RandomWork::step() {
  while (true) {
    int dice = below(100);
    for (const Verb& verb : verbs()) {
      dice -= verb.weight;
      if (dice >= 0) continue;
      try {
        if ((this->*verb.work)()) return verb.word;
      } catch (const Refusal& refusal) {
        return std::string(verb.word) + " refused " + refusal.code();
      }
      break;
    }
  }
}

std::optional<Board> RandomWork::anyBoard() {
  const std::vector<Board> rack = book_.read().rack();
  if (rack.empty()) return std::nullopt;
  if (!oneIn(12)) return anyOf(rack);
  return book_.read().board(BoardId{1 + below(static_cast<int>(rack.back().id.value))});
}

std::optional<Job> RandomWork::anyJob() {
  const std::vector<Job> jobs = book_.read().jobs();
  if (jobs.empty()) return std::nullopt;
  return anyOf(jobs);
}

bool RandomWork::receive() {
  DeliveryDraft draft;
  draft.supplier = oneIn(2) ? "Yard" : "Mill";
  draft.receivedOn = "2025-0" + std::to_string(1 + below(9)) + "-01";
  for (int line = 1 + below(3); line > 0; --line) {
    TallyLine board;
    board.line = line + 1;
    board.species = oneIn(3) ? "ash" : "cherry";
    board.nominal = Nominal::quarters(4);
    board.thickness = Length::inches(1);
    const Length length = Length::inches(40 + below(70)), width = Length::inches(5 + below(6));
    board.outline.fill(
        Outline::tapered(length, width, oneIn(4) ? width - Length::inches(1) : width));
    board.price = Money::tenThousandths(20'000 + below(80'000));
    board.looked = {Looked::planed, oneIn(4) ? Looked::no : Looked::planed};
    board.bay = "B" + std::to_string(1 + below(3));
    draft.lines.push_back(board);
  }
  if (oneIn(3)) {
    InvoiceLine freight;
    freight.kind = InvoiceKind::freight;
    freight.amount = Money::tenThousandths(1 + below(900'000));
    draft.extras.push_back(freight);
  }
  desk::receive(book_, draft, hand_);
  return true;
}

bool RandomWork::addJob() {
  const std::size_t jobs = book_.read().jobs().size();
  if (jobs > 4) return false;
  Job job;
  job.name = "Job " + std::to_string(1 + below(6));
  for (int line = 1; line <= 2; ++line) {
    Part part;
    part.line = line;
    part.name = "part " + std::to_string(line);
    part.copies = 1 + below(9);
    part.length = Length::inches(12 + below(30));
    part.width = Length::inches(2 + below(4));
    part.thickness = Length::sixtyFourths(48);
    part.species =
        oneIn(4) ? std::vector<std::string>{"ash", "cherry"} : std::vector<std::string>{"cherry"};
    part.faceA = oneIn(2) ? "clear" : "hidden";
    job.parts.push_back(part);
  }
  desk::addJob(book_, job, hand_);
  return true;
}

bool RandomWork::changeJob() {
  const std::optional<Job> known = anyJob();
  if (!known) return false;
  Job job = *known;
  Part& part = job.parts[static_cast<std::size_t>(below(static_cast<int>(job.parts.size())))];
  switch (below(4)) {
    case 0: part.copies = 1 + below(9); break;
    case 1: part.length = Length::inches(12 + below(30)); break;
    case 2:
      if (job.parts.size() > 1) job.parts.pop_back();
      break;
    default: {
      Part more = part;
      more.line = 0;
      more.name = "more " + std::to_string(below(100));
      job.parts.push_back(more);
    }
  }
  desk::changeJob(book_, job, hand_);
  return true;
}

bool RandomWork::mark() {
  const std::optional<Board> board = anyBoard();
  if (!board || !board->tag) return false;
  const std::vector<std::string> kinds{"sound knot", "unsound knot", "split", "sapwood",
                                       "good",       "stain",        "gum"};
  const std::vector<DefectFace> faces{DefectFace::a, DefectFace::b, DefectFace::through,
                                      DefectFace::far};
  exchange::MarkLine line;
  line.tag = text(*board->tag);
  line.kind = anyOf(kinds);
  line.face = anyOf(faces);
  line.xFrom = Length::inches(below(60)) + Length::sixtyFourths(below(64));
  if (!oneIn(4)) line.xTo = line.xFrom + Length::inches(1 + below(12));
  if (oneIn(2) && line.face != DefectFace::far) {
    line.yFrom = Length::inches(below(4));
    line.yTo = *line.yFrom + Length::sixtyFourths(1 + below(128));
  }
  if (line.face == DefectFace::a && oneIn(2)) line.depth = Length::sixtyFourths(1 + below(16));
  if (line.face == DefectFace::through && oneIn(3)) {
    line.onB = exchange::PlaceOnB{line.xFrom + Length::inches(below(3)), {}, {}, {}};
  }
  desk::mark(book_, {line}, "marks.csv", hand_);
  return true;
}

bool RandomWork::move() {
  const std::optional<Board> board = anyBoard();
  if (!board) return false;
  moveTo(book_, {*board}, "B" + std::to_string(1 + below(3)), hand_);
  return true;
}

/// Blanks of the job's parts, as many as the board's length takes, one behind the other.
bool RandomWork::plan() {
  const std::optional<Job> job = anyJob();
  if (!job) return false;
  const PlanRequest request = desk::request(book_, job->id, {});
  if (request.boards.empty()) return false;
  constexpr int tries = 6;
  for (int attempt = 0; attempt < tries; ++attempt) {
    const Board& board = anyOf(request.boards);
    std::map<int, std::set<int>> made = request.made;
    std::vector<Wanted> blanks;
    Length left = board.length() - Length::inches(2);
    for (int n = 1 + below(3); n > 0; --n) {
      const Part& part = anyOf(job->parts);
      const Blank blank = blankFor(part, request.shop);
      int copy = 1;
      while (made[part.line].contains(copy)) ++copy;
      left -= blank.length + Length::inches(1);
      if (copy > part.wanted() || left < Length()) continue;
      made[part.line].insert(copy);
      blanks.push_back({blank.length, blank.width, part.line, copy});
    }
    if (blanks.empty()) continue;
    const planning::PlanResult result = planOf(book_, job->id, {cutInOrder(board, blanks)});
    if (!check(result.plan, result.request).empty()) continue;
    keep(book_, result, oneIn(2), hand_);
    return true;
  }
  return false;
}

/// A plan as the solver finds it in a moment.
bool RandomWork::search() {
  const std::optional<Job> job = anyJob();
  if (!job) return false;
  PlanRequest request = desk::request(book_, job->id, {});
  constexpr std::size_t most = 3;
  if (request.boards.size() > most) request.boards.resize(most);
  optimizer::Limits limits;
  limits.effort = 1;
  const planning::PlanResult result = planning::makePlan(request, limits);
  if (result.plan.cuttings.empty()) return false;
  keep(book_, result, oneIn(2), hand_);
  return true;
}

std::vector<std::string> RandomWork::someMarks(const std::vector<std::string>& marks) {
  std::vector<std::string> some;
  for (const std::string& mark : marks) {
    if (oneIn(2)) some.push_back(mark);
  }
  return some;
}

/// One board or all of a plan; at times some of its blanks are lost on the way.
bool RandomWork::saw() {
  const std::optional<Job> job = anyJob();
  const auto stored = job ? book_.read().newestPlan(job->id) : std::nullopt;
  if (!stored || stored->plan.cuttings.empty()) return false;
  const Cutting& cutting = anyOf(stored->plan.cuttings);
  Lost lost;
  if (oneIn(3)) lost = {someMarks(marksOf(cutting)), "split"};
  const bool all = oneIn(4);
  sawAsPlanned(book_, job->id, all ? std::vector<BoardId>{} : std::vector{cutting.board}, hand_,
               lost);
  return true;
}

/// What a maker may pencil beside a board: things that can have been, and some that cannot.
std::string RandomWork::anyLine(const std::vector<std::string>& marks) {
  const auto inches = [&](int from, int to) { return std::to_string(from + below(to - from)); };
  std::string line;
  const auto say = [&](const std::string& item) { line += (line.empty() ? "" : ", ") + item; };
  if (oneIn(3)) say(anyOf(marks) + " lost");
  if (oneIn(3)) say(anyOf(marks) + " short " + inches(4, 30));
  if (oneIn(4)) say("keep " + inches(6, 40) + " x " + inches(2, 6));
  if (oneIn(6)) say("keep none");
  if (oneIn(3)) say("bin");
  if (oneIn(5)) say("bin " + inches(6, 20) + " x " + inches(1, 3));
  if (oneIn(3)) {
    const int from = below(80);
    say((oneIn(2) ? "knot " : "sound knot ") + std::to_string(from) + "-" +
        std::to_string(from + 1 + below(6)) + (oneIn(2) ? " x 1-2" : ""));
  }
  if (oneIn(5)) say("stop " + inches(1, 6));
  if (oneIn(12)) say("tag stays");
  const std::optional<Board> other = oneIn(4) ? anyBoard() : std::nullopt;
  if (other && other->tag) say("used " + text(*other->tag));
  return line;
}

/// A sitting: some boards of a plan in one entry, each with a line of its own.
bool RandomWork::sawOtherwise() {
  const std::optional<Job> job = anyJob();
  const auto stored = job ? book_.read().newestPlan(job->id) : std::nullopt;
  if (!stored || stored->plan.cuttings.empty()) return false;
  std::vector<Turn> turns;
  Lost lost;
  for (const Cutting& cutting : stored->plan.cuttings) {
    if (!turns.empty() && !oneIn(3)) continue;
    const std::vector<std::string> marks = marksOf(cutting);
    if (marks.empty()) continue;
    const PaperLine line = readPaper(anyLine(marks), cutting, readingRules(book_));
    turns.push_back(turnOf(book_.read(), cutting.board, line, false, Unit::inches));
    lost.marks.insert(lost.marks.end(), line.lost.begin(), line.lost.end());
  }
  if (turns.empty()) return false;
  desk::saw(book_, job->id, turns, hand_, lost);
  return true;
}

/// A bin is made, filled, used, thrown out, estimated anew.
bool RandomWork::bin() {
  const std::string species = oneIn(3) ? "ash" : "cherry";
  const std::vector<Bin> bins = book_.read().bins();
  if (bins.empty() || oneIn(6)) {
    addBin(book_, {{}, species + " shorts", species, "", {}}, hand_);
    return true;
  }
  const std::vector<BinWork> works{BinWork::put, BinWork::used, BinWork::thrown, BinWork::holds};
  const std::optional<Job> job = oneIn(2) ? anyJob() : std::nullopt;
  changeBin(book_, anyOf(bins).id, anyOf(works), Feet{below(3000)},
            job ? std::optional(job->id) : std::nullopt, "", hand_);
  return true;
}

bool RandomWork::spoil() {
  const std::optional<Job> job = anyJob();
  if (!job) return false;
  std::vector<std::string> marks;
  for (const auto& [line, copies] : book_.read().made(job->id)) {
    for (const int copy : copies) marks.push_back(handMark(line, copy));
  }
  if (marks.empty()) return false;
  desk::spoil(book_, job->id, {anyOf(marks)}, "tear-out", hand_);
  return true;
}

bool RandomWork::useByHand() {
  const std::optional<Board> board = anyBoard();
  if (!board) return false;
  const std::optional<Job> job = oneIn(2) ? anyJob() : std::nullopt;
  std::optional<Length> left;
  if (!oneIn(3)) left = Length::inches(6 + below(40));
  desk::useByHand(book_, board->id, job ? std::optional(job->id) : std::nullopt, left, "", hand_);
  return true;
}

/// Most boards of a bay are seen, and now and then one that should be elsewhere or nowhere.
bool RandomWork::count() {
  const std::string bay = "B" + std::to_string(1 + below(3));
  std::vector<std::string> codes;
  for (const Board& board : book_.read().rack()) {
    const bool seen = board.bay == bay ? !oneIn(8) : oneIn(12);
    if (seen && board.tag) codes.push_back(text(*board.tag));
  }
  const std::optional<Board> stray = oneIn(3) ? anyBoard() : std::nullopt;
  if (stray && stray->tag && !stray->withdrawn) codes.push_back(text(*stray->tag));
  desk::count(book_, bay, codes, below(3), true, hand_);
  return true;
}

bool RandomWork::retire() {
  const std::optional<Board> board = anyBoard();
  if (!board) return false;
  desk::retire(book_, {*board}, "worm", hand_);
  return true;
}

bool RandomWork::sendBack() {
  const std::optional<Board> board = anyBoard();
  if (!board) return false;
  desk::sendBack(book_, *board, "honeycomb", std::nullopt, hand_);
  return true;
}

bool RandomWork::credit() {
  const std::vector<BoardReturn> returns = book_.read().returns();
  if (returns.empty()) return false;
  const Board board = book_.read().board(anyOf(returns).board).value();
  desk::credit(book_, board, Money::tenThousandths(below(400'000)), "2025-10-01", hand_);
  return true;
}

bool RandomWork::retag() {
  const std::optional<Board> board = anyBoard();
  if (!board) return false;
  replaceTag(book_, *board, std::nullopt, hand_);
  return true;
}

bool RandomWork::keepBack() {
  const std::optional<Board> board = anyBoard();
  if (!board) return false;
  desk::keepBack(book_, {*board}, !board->keptBack, hand_);
  return true;
}

bool RandomWork::set() {
  setShop(book_, "hourly-rate", std::to_string(40 + below(40)), hand_);
  return true;
}

bool RandomWork::undo() {
  desk::undo(book_, hand_);
  return true;
}

}  // namespace flitch::desk::sample
