#include <algorithm>
#include <cstdio>

#include "inventory/desk/as_sawn.h"
#include "inventory/desk/jobs.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/replan.h"
#include "inventory/records/blank.h"
#include "inventory/records/recipe.h"
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

/// Parts of the job that a piece of this size is still large enough for.
std::string servesText(const Job& job, const ShopProfile& shop, const Piece& blank, Length length,
                       Length thickness, const std::string& species) {
  std::string parts;
  for (const Part& part : job.parts) {
    if (part.line == blank.line || !allowsRecipe(part, RecipeKind::solid, shop)) continue;
    const Blank wanted = blankFor(part, shop);
    const bool holds =
        wanted.length <= length && wanted.width <= blank.at.dy && wanted.thickness <= thickness &&
        std::find(part.species.begin(), part.species.end(), species) != part.species.end();
    if (holds) parts += (parts.empty() ? "" : ", ") + partLetter(part.line) + " " + part.name;
  }
  return parts;
}

void sayWhereItFits(const desk::CutShort& cut, const Cutting& planned, const Board& board,
                    const Job& job, const ShopProfile& shop, Answer& answer) {
  for (const Piece& piece : planned.pieces) {
    if (piece.kind != PieceKind::blank || handMark(piece.line, piece.copy) != cut.mark) continue;
    const std::string parts =
        servesText(job, shop, piece, cut.length, board.thickness, board.species);
    answer.say(cut.mark + ", " + lengthText(cut.length, answer.unit()) + " long, " +
               (parts.empty() ? "is large enough for no other part of " + job.name + "."
                              : "is still large enough for " + parts + "."));
  }
}

/// Plans what is left of the job, keeps the plan and says what changed.
void planAround(store::Book& book, JobId job, const Saw& command, const Session& session,
                Answer& answer) {
  const desk::Replanned again = desk::replanned(book, job, command.seconds);
  const desk::Kept kept = desk::keep(book, again.result, again.reserved, session.hand);
  char seconds[32];
  std::snprintf(seconds, sizeof seconds, "%.1f s", again.seconds);
  answer.say("\nPlanned again in " + std::string(seconds) + ". " + desk::changesText(again));
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
  const Board planned = desk::boardToChange(before, command.tags[0], session.sure, unit);
  const Board taken = command.instead.empty()
                          ? planned
                          : desk::boardToChange(before, command.instead, session.sure, unit);
  const JobId jobId = jobFor(command, before, planned.id);
  desk::Deviation deviation;
  for (const std::string& text : command.cutShort) {
    deviation.cutShort.push_back(readCutShort(text, unit));
  }
  deviation.offcuts = readOffcuts(command.offcuts, unit);
  Cutting was;
  ShopProfile shop;
  const desk::Sawn sawn = desk::sawOtherwise(
      book, jobId, planned.id, taken.id,
      [&](const Cutting& cutting, const Board& board, const PlanRequest& request, Length tick) {
        was = taken.id == planned.id ? cutting : desk::onBoard(cutting, board, request, tick);
        shop = request.shop;
        return deviation.any() ? desk::asSawn(was, deviation, shop, unit) : was;
      },
      session.hand, {command.lost, command.why});
  Answer answer = answerOf(book);
  const store::Snapshot now = book.read();
  const Job job = now.job(jobId).value();
  answer.say(taken.tagText() + " was sawn for " + job.name +
             (taken.id == planned.id ? ", not as planned" : " in place of " + planned.tagText()) +
             ": wood " + answer.money(sawn.woodCost) + ".");
  for (const desk::CutShort& cut : deviation.cutShort) {
    sayWhereItFits(cut, was, taken, job, shop, answer);
  }
  saySawn(sawn, job, command, labels, now, answer);
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
