#include <algorithm>
#include <cstdio>
#include <stdexcept>

#include "inventory/desk/as_sawn.h"
#include "inventory/desk/jobs.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/replan.h"
#include "inventory/desk/saw_paper.h"
#include "inventory/desk/where_it_fits.h"
#include "inventory/wood/unreadable.h"
#include "ui/cli/surprise.h"

namespace flitch::cli {

namespace {

Length lengthFrom(const std::string& text, const std::string& option, Unit unit) {
  try {
    return parseLength(text, unit == Unit::inches ? Bare::inches : Bare::millimetres);
  } catch (const Unreadable& error) {
    throw Refusal("bad-size", Complaint{option, error.what(), error.value, error.accepted});
  }
}

/// "C2 31 1/2".
desk::CutShort readCutShort(const std::string& text, Unit unit) {
  const auto space = text.find(' ');
  if (space == std::string::npos) {
    throw Refusal("bad-size", Complaint{"--cut-short", "\"" + text + "\" gives no length", text,
                                        "a hand mark and its length: C2 31 1/2"});
  }
  std::string mark = text.substr(0, space);
  std::transform(mark.begin(), mark.end(), mark.begin(),
                 [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return {mark, lengthFrom(text.substr(space + 1), "--cut-short", unit)};
}

/// "30 x 4"; the word none alone means that nothing was kept.
std::optional<std::vector<desk::OffcutSize>> readOffcuts(const std::vector<std::string>& texts,
                                                         Unit unit) {
  if (texts.empty()) return std::nullopt;
  std::vector<desk::OffcutSize> sizes;
  if (texts.size() == 1 && texts.front() == "none") return sizes;
  for (const std::string& text : texts) {
    const auto by = text.find_first_of("xX");
    if (by == std::string::npos) {
      throw Refusal("bad-size", Complaint{"--offcut", "\"" + text + "\" is no size", text,
                                          "length x width: 30 x 4; or none"});
    }
    sizes.push_back({lengthFrom(text.substr(0, by), "--offcut", unit),
                     lengthFrom(text.substr(by + 1), "--offcut", unit)});
  }
  return sizes;
}

/// The plan's cutting of a board not sawn yet, with what it is judged by.
struct Planned {
  Board board;
  Cutting cutting;
  PlanRequest request;
  Length tick;
};
Planned plannedOn(const Board& board, JobId job, const store::Snapshot& snapshot, Unit unit) {
  const std::optional<store::StoredPlan> stored = snapshot.newestPlan(job);
  if (stored) {
    for (const Cutting& cutting : stored->plan.cuttings) {
      if (cutting.board != board.id) continue;
      PlanRequest request;
      request.job = snapshot.job(job).value();
      request.shop = snapshot.profile(stored->plan.profile).value();
      request.unit = unit;
      request.choices = stored->plan.choices;
      return {board, cutting, request, stored->plan.tick};
    }
  }
  throw Refusal("not-in-plan",
                Complaint{"", board.tagText() + " is not in the newest plan of the job",
                          board.tagText(), "a board that the plan opens"});
}

/// What the options say went otherwise, or the line a maker pencilled.
desk::PaperLine lineOf(const Saw& command, const Planned& planned, const store::Book& book) {
  const Unit unit = planned.request.unit;
  if (!command.otherwise.empty()) {
    desk::PaperLine line =
        desk::readPaper(command.otherwise, planned.cutting, desk::readingRules(book));
    if (line.sawn) return line;
    throw Refusal("bad-line",
                  Complaint{"--otherwise", "A board that is not sawn yet is not entered",
                            command.otherwise, desk::paperWords});
  }
  desk::PaperLine line;
  for (const std::string& text : command.cutShort) {
    line.otherwise.cutShort.push_back(readCutShort(text, unit));
  }
  line.otherwise.offcuts = readOffcuts(command.offcuts, unit);
  line.otherwise.allShorts = command.bin;
  line.lost = command.lost;
  line.used = command.instead;
  return line;
}

/// Plans what is left of the job, keeps the plan and says what changed.
void planAround(store::Book& book, JobId job, const Saw& command, const Session& session,
                Answer& answer) {
  desk::Replanned again;
  try {
    again = desk::replanned(book, job, command.seconds);
  } catch (const std::logic_error& fault) {
    // What was sawn is in the book; a plan that the checker rejects is a fault of ours to be told.
    answer.say("\nNo plan around it was found; plan the job anew. " + std::string(fault.what()));
    answer.exitCode = 3;
    return;
  }
  const desk::Kept kept = desk::keep(book, again.result, again.reserved, session.hand);
  char seconds[32];
  std::snprintf(seconds, sizeof seconds, "%.1f s", again.seconds);
  answer.say("\nPlanned again in " + std::string(seconds) + ". " + desk::changesText(again) +
             desk::sistersText(again));
  if (again.freed > 0) {
    answer.say("To leave less short, " +
               counted(static_cast<std::size_t>(again.freed), "board was", "boards were") +
               " planned anew.");
  }
  const Table changes = desk::changesTable(again);
  if (!changes.rows.empty()) answer.show(changes);
  answer.put("changes", changes);
  answer.say(again.result.sentence);
  for (const ShortPart& missing : again.result.plan.shorts) {
    const auto part =
        std::find_if(again.result.request.job.parts.begin(), again.result.request.job.parts.end(),
                     [&](const Part& p) { return p.line == missing.line; });
    answer.say("Short " + std::to_string(missing.copies) + " " + part->name + ": " +
               missing.reason + ".");
  }
  if (!again.result.plan.shorts.empty()) answer.exitCode = 3;
  answer.put("boards_that_stay", std::int64_t{again.count(desk::Fate::stays)});
  answer.put("replanned", again.result.plan);
  answer.put("plan_id", kept.plan.value);
}

/// The job whose plan a board is sawn for.
JobId jobFor(const Saw& command, const store::Snapshot& snapshot, BoardId board) {
  return command.job.empty() ? desk::jobOf(snapshot, board) : jobNamed(snapshot, command.job).id;
}

}  // namespace

Answer sawnOtherwise(const Saw& command, const LabelPrint& labels, const Session& session) {
  store::Book book = session.toWrite();
  const store::Snapshot before = book.read();
  const Unit unit = book.facts().unit;
  const Board board = desk::boardToChange(before, command.tags[0], session.sure, unit);
  const JobId jobId = jobFor(command, before, board.id);
  const Planned planned = plannedOn(board, jobId, before, unit);
  const desk::PaperLine line = lineOf(command, planned, book);
  const desk::Turn turn = desk::turnOf(before, board.id, line, session.sure, unit);
  const Board taken = turn.taken ? before.board(turn.taken).value() : board;
  const desk::Sawn sawn = desk::saw(book, jobId, {turn}, session.hand, {line.lost, command.why});
  Answer answer = answerOf(book);
  const store::Snapshot now = book.read();
  const Job job = now.job(jobId).value();
  answer.say(taken.tagText() + " was sawn for " + job.name +
             (turn.taken ? " in place of " + board.tagText() : ", not as planned") + ": wood " +
             answer.money(sawn.woodCost) + ".");
  for (const desk::CutShort& cut : line.otherwise.cutShort) {
    answer.say(desk::whereItFits(cut, {planned.cutting, taken, planned.request, planned.tick}) +
               ".");
  }
  Saw told = command;
  told.lost = line.lost;
  saySawn(sawn, job, told, labels, now, answer);
  planAround(book, jobId, command, session, answer);
  return answer;
}

Answer knotFound(const Saw& command, const Session& session) {
  store::Book book = session.toWrite();
  const store::Snapshot before = book.read();
  const Unit unit = book.facts().unit;
  Board board = desk::boardToChange(before, command.tags[0], session.sure, unit);
  const JobId jobId = jobFor(command, before, board.id);
  std::size_t marks = 0;
  try {
    const auto lines = exchange::readQuickMarks(command.knot, desk::readingRules(book));
    for (Defect& defect : desk::placed(board, lines, unit)) {
      board.defects.push_back(std::move(defect));
      ++marks;
    }
  } catch (const Unreadable& error) {
    throw Refusal("bad-mark", Complaint{"--knot", error.what(), error.value, error.accepted});
  }
  const EntryId entry = desk::survey(book, board, session.hand);
  Answer answer = answerOf(book);
  answer.say(board.tagText() + ": " + counted(marks, "mark", "marks") + " added.");
  answer.put("entry", entry.value);
  planAround(book, jobId, command, session, answer);
  return answer;
}

Answer planAgain(const Saw& command, const Session& session) {
  store::Book book = session.toWrite();
  const Job job = jobNamed(book.read(), command.job);
  Answer answer = answerOf(book);
  answer.say("What is left of " + job.name + ":");
  planAround(book, job.id, command, session, answer);
  return answer;
}

}  // namespace flitch::cli
