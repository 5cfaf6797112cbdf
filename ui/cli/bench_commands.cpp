#include <iostream>

#include "inventory/desk/bench.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/ticks.h"
#include "labels/bench_sheets.h"
#include "ui/cli/commands.h"
#include "ui/cli/paper.h"

namespace flitch::cli {

namespace {

pages::BenchFacts factsOf(const desk::BenchPlan& bench, Unit unit) {
  return {bench.job.customer, bench.keptOn, unit};
}

/// The codes as given; those of standard input, a line each, where a code is "-".
std::vector<std::string> codesOf(const std::vector<std::string>& scanned) {
  std::vector<std::string> codes;
  for (const std::string& code : scanned) {
    if (code != "-") {
      codes.push_back(code);
      continue;
    }
    for (std::string line; std::getline(std::cin, line);) {
      if (line.find_first_not_of(" \t\r") != std::string::npos) codes.push_back(line);
    }
  }
  return codes;
}

/// Ticks off what was scanned; refuses with all that was wrong, judged once the right ones are
/// here.
void tickAll(PullList& list, std::vector<std::string> codes, const store::Snapshot& snapshot) {
  std::vector<Complaint> complaints;
  for (const bool last : {false, true}) {
    std::vector<std::string> wrong;
    for (const std::string& code : codes) {
      try {
        tick(list, desk::boardNamed(snapshot, code));
      } catch (const Refusal& refusal) {
        wrong.push_back(code);
        if (last) complaints.push_back(refusal.complaints().front());
      }
    }
    codes = std::move(wrong);
  }
  if (!complaints.empty()) throw Refusal("wrong-board", complaints);
}

}  // namespace

Answer run(const Pull& command, const Session& session) {
  checkPaper(command.paper);
  const bool ticks = !command.scanned.empty() || command.afresh;
  store::Book book = ticks ? session.toWrite() : session.toRead();
  const store::Snapshot snapshot = book.read();
  const desk::BenchPlan bench = desk::benchPlan(snapshot, jobNamed(snapshot, command.job).id);
  Answer answer = answerOf(book);
  PullList list = pullList(bench.stored.plan, bench.boards, bench.sawn(), bench.job,
                           snapshot.ownSpecies(), answer.unit());
  if (command.afresh) desk::forgetTicks(book, bench.job.id);
  desk::recallTicks(book, list);
  tickAll(list, codesOf(command.scanned), snapshot);
  if (ticks) desk::keepTicks(book, list);
  const Table table = pullTable(list, answer.unit());
  if (list.lines.empty()) {
    answer.say("Nothing is left to fetch for " + bench.job.name + ": all of its plan was sawn.");
  } else {
    answer.show(table);
  }
  answer.put("pull", table);
  answer.put("left", static_cast<std::int64_t>(list.left()));
  writeRows(command.csv, table, answer);
  if (command.paper.any()) {
    writePages(pages::pullSheets(list, factsOf(bench, answer.unit())), command.paper,
               bench.job.name, answer);
  }
  return answer;
}

Answer run(const WorkList& command, const Session& session) {
  checkPaper(command.paper);
  const store::Book book = session.toRead();
  const store::Snapshot snapshot = book.read();
  const desk::BenchPlan bench = desk::benchPlan(snapshot, jobNamed(snapshot, command.job).id);
  Answer answer = answerOf(book);
  const pages::WorkLists lists = pages::workLists(bench.stored.plan, bench.boards, bench.job,
                                                  bench.shop, answer.unit(), snapshot.ownSpecies());
  answer.say("Work lists of " + bench.job.name + ", " + counted(lists.boards, "board", "boards"));
  for (const Table& table : pages::workTables(lists, answer.unit())) {
    if (!table.rows.empty()) answer.show(table);
  }
  answer.say("");
  for (const std::string& caution : lists.cautions) answer.say(caution);
  const Table rows = pages::workRows(lists);
  answer.put("job", bench.job.name);
  answer.put("work", rows);
  answer.put("cautions", lists.cautions);
  writeRows(command.csv, rows, answer);
  if (command.paper.any()) {
    writePages(pages::workSheets(lists, factsOf(bench, answer.unit())), command.paper,
               bench.job.name, answer);
  }
  return answer;
}

}  // namespace flitch::cli
