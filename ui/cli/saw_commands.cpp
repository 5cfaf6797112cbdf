#include <algorithm>
#include <set>

#include "inventory/desk/bins.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/reports.h"
#include "inventory/desk/saw.h"
#include "inventory/desk/saw_otherwise.h"
#include "inventory/desk/saw_paper.h"
#include "inventory/wood/unreadable.h"
#include "ui/cli/commands.h"
#include "ui/cli/paper.h"
#include "ui/cli/surprise.h"

namespace flitch::cli {

namespace {

/// The job the boards were planned for: one for all, since they become one entry.
JobId jobOfAll(const store::Snapshot& snapshot, const std::vector<BoardId>& boards) {
  std::set<JobId> jobs;
  for (const BoardId board : boards) jobs.insert(desk::jobOf(snapshot, board));
  if (jobs.size() > 1) {
    throw Refusal("several-jobs", Complaint{"", "These boards are of several jobs' plans", "",
                                            "the boards of one job at a time"});
  }
  return *jobs.begin();
}

/// Tags for the offcuts that need one.
void writeTagsOf(const std::vector<Board>& toTag, const LabelPrint& labels, Answer& answer) {
  if (toTag.empty()) {
    answer.say("No offcut is left to tag: no page was written.");
  } else {
    writeTags(toTag, labels, answer);
  }
}

Answer asPlanned(const Saw& command, const LabelPrint& labels, const Session& session) {
  store::Book book = session.toWrite();
  const store::Snapshot before = book.read();
  std::vector<BoardId> boards;
  for (const std::string& tag : command.tags) {
    boards.push_back(desk::boardToChange(before, tag, session.sure, book.facts().unit).id);
  }
  const JobId jobId =
      command.job.empty() ? jobOfAll(before, boards) : jobNamed(before, command.job).id;
  const desk::Sawn sawn = desk::sawAsPlanned(book, jobId, boards, session.hand,
                                             {command.lost, command.why}, command.bin);

  Answer answer = answerOf(book);
  const store::Snapshot now = book.read();
  const Job job = now.job(jobId).value();
  answer.say("Sawn as planned for " + job.name + ": " +
             counted(sawn.boards.size(), "board", "boards") + ", wood " +
             answer.money(sawn.woodCost) + ".");
  saySawn(sawn, job, command, labels, now, answer);
  return answer;
}

Answer spoiled(const Saw& command, const Session& session) {
  store::Book book = session.toWrite();
  const Job job = jobNamed(book.read(), command.job);
  const desk::Spoiled done = desk::spoil(book, job.id, command.lost, command.why, session.hand);
  Answer answer = answerOf(book);
  answer.say(lostText(command.lost) + " wanted again for " + job.name + "; wood for " +
             answer.money(done.cost) + " is lost.");
  answer.put("job", job.name);
  answer.put("entry", done.entry.value);
  answer.put("spoiled", command.lost);
  answer.put("cost", done.cost);
  return answer;
}

Answer usedUp(const Saw& command, const LabelPrint& labels, const Session& session) {
  store::Book book = session.toWrite();
  const store::Snapshot before = book.read();
  const Board board = desk::boardToChange(before, command.tags[0], session.sure, book.facts().unit);
  std::optional<JobId> job;
  if (!command.job.empty()) job = jobNamed(before, command.job).id;
  std::optional<Length> left;
  const Bare bare = book.facts().unit == Unit::inches ? Bare::inches : Bare::millimetres;
  if (!command.left.empty()) {
    try {
      left = parseLength(command.left, bare);
    } catch (const Unreadable& error) {
      throw Refusal("bad-left", Complaint{"--left", error.what(), error.value, error.accepted});
    }
  }
  const desk::UsedByHand used =
      desk::useByHand(book, board.id, job, left, command.why, session.hand);
  Answer answer = answerOf(book);
  answer.say(board.tagText() + " was used by hand" +
             (command.job.empty() ? "" : " for " + command.job) + ": wood for " +
             answer.money(used.cost) + ".");
  if (used.left) {
    Table table = desk::rackTable({*used.left});
    const bool stays = used.left->tag == board.tag;
    table.title = stays ? "What is left; its tag stays" : "What is left, to be tagged";
    answer.show(table);
    if (command.labels.paper.any()) {
      writeTagsOf(stays ? std::vector<Board>{} : std::vector<Board>{*used.left}, labels, answer);
    }
  }
  answer.put("entry", used.entry.value);
  answer.put("board", board.tagText());
  answer.put("cost", used.cost);
  if (used.left) answer.put("left", std::vector<Board>{*used.left});
  return answer;
}

}  // namespace

static Table sawnTable(const desk::Sawn& sawn, const store::Snapshot& snapshot, const Job& job) {
  Table table;
  table.columns = {{"tag", "tag", false},          {"species", "species", false},
                   {"nominal", "quarters", false}, {"blanks", "blanks", false},
                   {"landed", "landed", true},     {"offcut_worth", "offcuts", true},
                   {"cost", "wood cost", true}};
  Money landed, worth;
  for (const store::DoneCutting& done : snapshot.doneCuttings(job.id)) {
    const auto at = std::find(sawn.boards.begin(), sawn.boards.end(), done.board.id);
    if (at == sawn.boards.end() || done.entry != sawn.entry) continue;
    const Breakdown& account = sawn.accounts[static_cast<std::size_t>(at - sawn.boards.begin())];
    table.rows.push_back({done.board.tagText(), done.board.species, text(done.board.nominal),
                          blankMarks(done.cutting), done.board.cost, account.offcutWorth,
                          account.woodCost});
    landed += done.board.cost;
    worth += account.offcutWorth;
  }
  table.totals = {
      counted(sawn.boards.size(), "board", "boards"), {}, {}, {}, landed, worth, sawn.woodCost};
  return table;
}

std::string lostText(std::vector<std::string> marks) {
  std::sort(marks.begin(), marks.end());
  marks.erase(std::unique(marks.begin(), marks.end()), marks.end());
  return desk::areText(marks);
}

void saySawn(const desk::Sawn& sawn, const Job& job, const Saw& command, const LabelPrint& labels,
             const store::Snapshot& snapshot, Answer& answer) {
  if (!command.lost.empty()) answer.say(lostText(command.lost) + " wanted again.");
  if (!sawn.spoilt.empty()) answer.say(lostText(sawn.spoilt) + " wanted again.");
  if (sawn.binned.value > 0) {
    answer.say("Shorts for the bin: about " + text(desk::estimatedFeet(sawn.binned)) + " bf.");
    answer.put("binned", sawn.binned);
  }
  answer.show("sawn", sawnTable(sawn, snapshot, job));
  if (!sawn.toTag.empty()) {
    Table offcuts = desk::rackTable(sawn.toTag);
    offcuts.title = "Offcuts, to be tagged";
    answer.show(offcuts);
  }
  for (const Board& offcut : sawn.offcuts) {
    const bool hangs = std::none_of(sawn.toTag.begin(), sawn.toTag.end(),
                                    [&](const Board& other) { return other.id == offcut.id; });
    if (!hangs) continue;
    answer.say(offcut.tagText() + " stays on what is left of it, " +
               sizeText(offcut, answer.unit()) + ".");
  }
  if (command.labels.paper.any()) writeTagsOf(sawn.toTag, labels, answer);
  answer.put("job", job.name);
  answer.put("entry", sawn.entry.value);
  answer.put("wood_cost", sawn.woodCost);
  answer.put("offcuts", sawn.offcuts);
  std::vector<std::string> toTag;
  for (const Board& offcut : sawn.toTag) toTag.push_back(offcut.tagText());
  answer.put("to_tag", toTag);
}

Answer run(const Saw& command, const Session& session) {
  const LabelPrint labels = labelPrint(command.labels, session.toRead().read());
  switch (command.verb) {
    case SawVerb::asPlanned: return asPlanned(command, labels, session);
    case SawVerb::otherwise: return sawnOtherwise(command, labels, session);
    case SawVerb::knot: return knotFound(command, session);
    case SawVerb::replan: return planAgain(command, session);
    case SawVerb::spoiled: return spoiled(command, session);
    case SawVerb::usedUp: return usedUp(command, labels, session);
  }
  throw std::logic_error("no such verb of the saw");
}

Answer run(const Undo& /*command*/, const Session& session) {
  store::Book book = session.toWrite();
  const desk::Undone undone = desk::undo(book, session.hand);
  Answer answer = answerOf(book);
  answer.say("Undone: " + undone.what + " (entry " + std::to_string(undone.reversed.value) + ").");
  answer.put("entry", undone.entry.value);
  answer.put("reversed", undone.reversed.value);
  answer.put("what", undone.what);
  return answer;
}

}  // namespace flitch::cli
