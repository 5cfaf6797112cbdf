#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdio>
#include <iostream>
#include <iterator>
#include <thread>

#include "inventory/desk/beside.h"
#include "inventory/desk/choices.h"
#include "inventory/desk/jobs.h"
#include "inventory/desk/learned.h"
#include "inventory/exchange/csv.h"
#include "inventory/planning/planner.h"
#include "inventory/records/choices.h"
#include "labels/cut_sheet.h"
#include "labels/glue_up_sheet.h"
#include "ui/cli/commands.h"
#include "ui/cli/paper.h"

namespace flitch::cli {

namespace {

volatile std::sig_atomic_t interrupted = 0;

/// While it lives, Ctrl+C asks the plan to stop and keep the best so far; a second one ends the
/// program as usual.
class StopOnInterrupt {
 public:
  StopOnInterrupt() {
    interrupted = 0;
    before_ = std::signal(SIGINT, [](int) {
      interrupted = 1;
      std::signal(SIGINT, SIG_DFL);
    });
    watcher_ = std::jthread([this](const std::stop_token& done) {
      while (!done.stop_requested()) {
        if (interrupted != 0) source_.request_stop();
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
      }
    });
  }
  ~StopOnInterrupt() {
    watcher_.request_stop();
    std::signal(SIGINT, before_);
  }
  StopOnInterrupt(const StopOnInterrupt&) = delete;
  StopOnInterrupt& operator=(const StopOnInterrupt&) = delete;

  [[nodiscard]] std::stop_token token() const { return source_.get_token(); }

 private:
  std::stop_source source_;
  void (*before_)(int) = SIG_DFL;
  std::jthread watcher_;
};

/// A line on the terminal that is written over; nothing at all when stderr goes elsewhere.
class ProgressLine {
 public:
  ~ProgressLine() {
    if (shown_) std::cerr << "\r\033[K" << std::flush;
  }
  void show(const planning::PlanProgress& progress) {
    if (isatty(STDERR_FILENO) == 0) return;
    char seconds[32];
    std::snprintf(seconds, sizeof seconds, "%.1f s", progress.seconds);
    std::cerr << "\r\033[K" << seconds << " · plan " << progress.plan << " · " << progress.sentence
              << std::flush;
    shown_ = true;
  }

 private:
  bool shown_ = false;
};

/// Cost and bound over time, a row at each better plan or bound; no bound, no figure.
Table curveTable(const std::vector<planning::PlanProgress>& steps) {
  Table table;
  table.columns = {{"seconds", "seconds", true},
                   {"plan", "plan", true},
                   {"cost", "best so far", true},
                   {"bound", "bound", true},
                   {"bound_kind", "kind of bound", false}};
  for (const planning::PlanProgress& step : steps) {
    char seconds[32];
    std::snprintf(seconds, sizeof seconds, "%.3f", step.seconds);
    const bool none = step.boundKind == PlanBound::none;
    table.rows.push_back({std::string(seconds), static_cast<std::int64_t>(step.plan), step.cost,
                          none ? CellValue{} : CellValue{step.bound},
                          std::string(word(step.boundKind))});
  }
  return table;
}

const Part& partOf(const Job& job, int line) {
  return *std::find_if(job.parts.begin(), job.parts.end(),
                       [line](const Part& part) { return part.line == line; });
}

Table shortTable(const CutPlan& plan, const Job& job) {
  Table table;
  table.title = "Short";
  table.columns = {{"letter", "", false},
                   {"part", "part", false},
                   {"copies", "missing", true},
                   {"cause", "for want of", false},
                   {"reason", "why", false}};
  for (const ShortPart& missing : plan.shorts) {
    table.rows.push_back({partLetter(missing.line), partOf(job, missing.line).name,
                          static_cast<std::int64_t>(missing.copies),
                          missing.unseenOnly ? "looking" : "wood", missing.reason});
  }
  return table;
}

Table waitingTable(const CutPlan& plan, const Job& job) {
  Table table;
  table.title = "Waiting: their recipes are not known";
  table.columns = {{"letter", "", false},
                   {"part", "part", false},
                   {"count", "count", true},
                   {"recipe", "recipe", false}};
  for (const int line : plan.waiting) {
    const Part& part = partOf(job, line);
    table.rows.push_back(
        {partLetter(line), part.name, static_cast<std::int64_t>(part.wanted()), part.recipe});
  }
  return table;
}

/// What the plan saves against both ways of cutting without it, where they supply the same parts.
std::string savedText(const CutPlan& plan, const Answer& answer) {
  std::string saved, other;
  for (const auto& [name, cost] :
       {std::pair("the hand rule", plan.handRule), std::pair("a careful hand", plan.carefulHand)}) {
    if (const std::optional<Money> less = plan.savedOn(cost)) {
      saved += (saved.empty() ? "Saved: " : ", ") + answer.money(*less) + " against " + name;
    } else {
      other += (other.empty() ? "" : " and ") + std::string(name);
    }
  }
  if (other.empty()) return saved + ".";
  return (saved.empty() ? "" : saved + ". ") +
         "Not compared, since other parts would be short: " + other + ".";
}

/// A field of what is saved; null where the plans do not compare.
void putSaved(const std::string& key, std::optional<Money> saved, Answer& answer) {
  if (saved) {
    answer.put(key, *saved);
  } else {
    answer.put(key + "_tenthousandths", CellValue{});
  }
}

void writePaper(const planning::PlanResult& result, const PaperTo& paper, Answer& answer) {
  const PlanRequest& request = result.request;
  pages::CutSheetFacts facts;
  facts.sentence = result.sentence;
  facts.planned = today();
  facts.unit = request.unit;
  facts.sign = request.sign;
  facts.ownSpecies = request.ownSpecies;
  // The summary lists waiting parts from the plan itself.
  std::vector<std::string> notes;
  std::copy_if(result.notes.begin(), result.notes.end(), std::back_inserter(notes),
               [](const std::string& note) { return note.rfind("Waiting: ", 0) != 0; });
  std::vector<pages::Page> pages{
      pages::planSummary(result.plan, request.boards, request.job, request.shop, facts, notes)};
  for (pages::Page& page :
       pages::cutSheets(result.plan, request.boards, request.job, request.shop, facts)) {
    pages.push_back(std::move(page));
  }
  for (pages::Page& page :
       pages::glueUpSheets(result.plan, request.boards, request.job, request.shop, facts)) {
    pages.push_back(std::move(page));
  }
  writePages(pages, paper, request.job.name, answer);
}

/// The boards opened and what the plan costs.
void tellCost(const CutPlan& plan, const Table& cuttings, Answer& answer) {
  answer.show(cuttings);
  const bool glued = std::any_of(plan.cuttings.begin(), plan.cuttings.end(),
                                 [](const Cutting& cutting) { return gluedOf(cutting) > 0; });
  answer.say(
      "\nWood " + answer.money(plan.woodCost) + (glued ? ", cutting and gluing " : ", cutting ") +
      answer.money(plan.cutCost) +
      (plan.shortageCost > Money{} ? ", what is missing " + answer.money(plan.shortageCost) : "") +
      ": " + answer.money(plan.total()) + ". Offcuts kept are worth " +
      answer.money(plan.offcutWorth) + ".");
  answer.say(savedText(plan, answer));
  if (plan.choices.wishes.empty()) return;
  std::string wishes;
  for (const Wish& wish : plan.choices.wishes) {
    wishes += (wishes.empty() ? "" : "; ") + wish.words + ", " + answer.money(wish.each) +
              " for each other board";
  }
  answer.say("Wishes: " + wishes + ". They count " + answer.money(wishCost(plan)) +
             " in this plan's choice and nothing in its price.");
}

void tell(const planning::PlanResult& result, Answer& answer) {
  const CutPlan& plan = result.plan;
  const Job& job = result.request.job;
  answer.say(result.sentence);
  if (!plan.cuttings.empty()) {
    const bool more = plan.boundKind != PlanBound::none && result.claim != result.sentence;
    answer.say((more ? result.claim + " " : "") + result.why);
  }
  const Table cuttings =
      cuttingTable(plan, result.request.boards, job, result.request.shop, answer.unit());
  answer.put("boards", cuttings);
  if (!plan.cuttings.empty()) tellCost(plan, cuttings, answer);
  showLayups(answer, plan, job, result.request.shop);
  const Table missing = shortTable(plan, job);
  answer.put("short", missing);
  answer.put("waiting", waitingTable(plan, job));
  // What waits, and the ways out of what was not looked at, stand in the notes.
  if (!plan.shorts.empty()) answer.show(missing);
  if (!result.notes.empty()) answer.say("");
  for (const std::string& note : result.notes) answer.say(note);
  const bool unseen = std::any_of(plan.shorts.begin(), plan.shorts.end(),
                                  [](const ShortPart& s) { return s.unseenOnly; });
  if (unseen) answer.say("Once looked at: flitch mark --board TAG --looked-a rough");
  if (!plan.shorts.empty() || !plan.waiting.empty()) answer.exitCode = 3;
}

void fill(const planning::PlanResult& result, Answer& answer) {
  const CutPlan& plan = result.plan;
  answer.put("job", result.request.job.name);
  answer.put("sentence", result.sentence);
  answer.put("claim", result.claim);
  answer.put("why", result.why);
  answer.put("total", plan.total());
  putSaved("saved_on_hand_rule", plan.savedOn(plan.handRule), answer);
  putSaved("saved_on_careful_hand", plan.savedOn(plan.carefulHand), answer);
  answer.put("unseen", Permille{result.unseenPermille});
  answer.put("unseen_blanks", result.unseen);
  answer.put("notes", result.notes);
  answer.put("plan", plan);
}

Answer twoPlans(const Plan& command, const Session& session) {
  const store::Book book = session.toRead();
  const store::Snapshot snapshot = book.read();
  const Job job = jobNamed(snapshot, command.job);
  Answer answer = answerOf(book);
  answer.put("job", job.name);
  const Table plans = desk::plansBeside(snapshot, job, answer.unit());
  answer.put("plans", plans);
  answer.show(desk::sideBySide(plans, answer.unit(), book.facts().sign));
  return answer;
}

}  // namespace

Answer run(const Plan& command, const Session& session) {
  if (command.beside) return twoPlans(command, session);
  checkPaper(command.paper);
  // A file that cannot be written is refused before the book is changed.
  if (!command.curves.empty()) writeFile(command.curves, "");
  store::Book book = session.toWrite();
  const Job job = jobNamed(book.read(), command.job);
  desk::Settled settled;
  settled.trustUnseen = command.trustUnseen;
  settled.pins = command.pins;
  settled.keepOut = command.keepOut;
  settled.locks = command.locks;
  settled.lay = command.lay;
  settled.prefer = command.prefer;
  const PlanRequest request = desk::request(book, job.id, desk::choicesOf(book, job.id, settled));
  optimizer::Limits limits;
  limits.seconds = command.seconds;
  limits.seed = command.seed;
  limits.effort = command.effort;
  std::vector<planning::PlanProgress> steps;
  const planning::PlanResult made = [&] {
    const StopOnInterrupt stop;
    ProgressLine line;
    return planning::makePlan(request, limits, stop.token(),
                              [&](const planning::PlanProgress& progress) {
                                line.show(progress);
                                if (!command.curves.empty()) steps.push_back(progress);
                              });
  }();
  planning::PlanResult result = desk::better(book, made);
  desk::addLessons(result, book.read());
  const desk::Kept kept = desk::keep(book, result, command.reserve, session.hand);

  Answer answer = answerOf(book);
  tell(result, answer);
  fill(result, answer);
  answer.put("plan_id", kept.plan.value);
  answer.put("reserved", command.reserve);
  if (command.reserve && !result.plan.cuttings.empty()) {
    answer.say("Held for " + job.name + ": " +
               counted(result.plan.cuttings.size(), "board", "boards") + ".");
  }
  if (!command.curves.empty()) {
    const Table curves = curveTable(steps);
    writeFile(command.curves, exchange::writeCsv(curves));
    answer.put("curves", curves);
    answer.say(command.curves + ": " + counted(steps.size(), "step", "steps") +
               " of cost and bound");
  }
  if (command.paper.any()) writePaper(result, command.paper, answer);
  return answer;
}

}  // namespace flitch::cli
