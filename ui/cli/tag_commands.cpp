#include <algorithm>

#include "inventory/desk/bench.h"
#include "inventory/desk/names.h"
#include "inventory/desk/rack_work.h"
#include "inventory/desk/receive.h"
#include "labels/part_labels.h"
#include "labels/picture_reader.h"
#include "labels/tally_paper.h"
#include "ui/cli/commands.h"
#include "ui/cli/paper.h"

namespace flitch::cli {

namespace {

std::vector<Board> boardsToTag(const Tag& command, const store::Snapshot& snapshot) {
  std::vector<Board> boards;
  if (command.all) {
    boards = snapshot.rack();
  } else if (command.newest) {
    const auto deliveries = snapshot.deliveries();
    if (!deliveries.empty()) {
      for (const BoardId id : snapshot.boardsOf(deliveries.back())) {
        Board board = snapshot.board(id).value();
        if (board.onRack()) boards.push_back(std::move(board));
      }
    }
  } else {
    for (const std::string& tag : command.tags) {
      boards.push_back(desk::boardNamed(snapshot, tag));
      desk::needOnRack(snapshot, boards.back());
    }
  }
  if (boards.empty()) {
    throw Refusal("no-boards", Complaint{"", "There are no boards to tag", "",
                                         "boards on the rack, or --blank N"});
  }
  return boards;
}

/// What a scanned code is, in words; needs a book to say more than "a tag".
std::string meaning(const std::string& code, const std::optional<store::Snapshot>& snapshot,
                    Unit unit) {
  const TagReading reading = readTag(code);
  if (reading.verdict == TagReading::Verdict::notATag) return "not a tag";
  if (!snapshot) return "a tag";
  if (reading.verdict == TagReading::Verdict::right) {
    if (const auto bay = snapshot->bayOf(reading.code)) return "bay " + *bay;
  }
  try {
    const Board board = desk::boardNamed(*snapshot, code);
    return board.species + " " + text(board.nominal) + ", " + sizeText(board, unit) +
           (board.onRack() ? "" : ", " + desk::wentText(*snapshot, board));
  } catch (const Refusal& refusal) {
    return refusal.complaints().front().sentence;
  }
}

Table labelTable(const std::vector<pages::PartLabel>& labels) {
  Table table;
  table.columns = {{"mark", "mark", false},   {"part", "part", false},
                   {"rough", "rough", false}, {"finished", "finished", false},
                   {"show", "show", false},   {"front", "front edge", false},
                   {"next", "next", false},   {"from", "from", false}};
  for (const pages::PartLabel& label : labels) {
    table.rows.push_back({label.handMark, label.part, label.rough, label.finished, label.show,
                          label.front, label.next, label.from});
  }
  return table;
}

Answer partLabelsOf(const Tag& command, const Session& session) {
  const store::Book book = session.toRead();
  const store::Snapshot snapshot = book.read();
  const Job job = jobNamed(snapshot, command.job);
  Answer answer = answerOf(book);
  const desk::BenchPlan bench = desk::benchPlan(snapshot, job.id);
  const std::vector<pages::PartLabel> labels =
      pages::partLabels(bench.stored.plan, bench.boards, job, bench.shop, answer.unit());
  answer.say(counted(labels.size(), "part label", "part labels") + " of " + job.name +
             ", in cutting order");
  writePartLabels(labels, labelPrint(command.labels, snapshot), answer);
  answer.put("job", job.name);
  answer.put("labels", labelTable(labels));
  return answer;
}

Answer bayTagsOf(const Tag& command, const Session& session) {
  store::Book book = session.toWrite();
  const LabelPrint print = labelPrint(command.labels, book.read());
  Answer answer = answerOf(book);
  const std::vector<TagCode> tags = desk::tagBays(book, command.bays, session.hand);
  const std::vector<Board> rack = book.read().rack();
  std::vector<pages::BayTag> labels;
  std::vector<std::string> names;
  for (std::size_t i = 0; i < tags.size(); ++i) {
    labels.push_back({tags[i], command.bays[i], desk::bayContents(rack, command.bays[i])});
    names.push_back(text(tags[i]));
    answer.say(names.back() + "  bay " + command.bays[i]);
  }
  writeBayTags(labels, print, answer);
  answer.put("tags", names);
  return answer;
}

Answer tallySheetsOf(const Tag& command, const Session& session) {
  const store::Book book = session.toRead();
  Answer answer = answerOf(book);
  const std::vector<TagCode> tags =
      desk::blankTags(book.read(), static_cast<std::size_t>(command.tally));
  if (tags.size() < static_cast<std::size_t>(command.tally)) {
    throw Refusal("roll-too-short",
                  Complaint{"--tally-sheet", "so many blank tags have not been printed yet",
                            std::to_string(command.tally),
                            "at most " + std::to_string(tags.size()) +
                                ", or print more first: flitch tag --blank N"});
  }
  std::vector<std::string> names;
  for (const TagCode tag : tags) names.push_back(text(tag));
  answer.put("tags", names);
  answer.say("tally sheet of " + counted(tags.size(), "line", "lines") + ", " + names.front() +
             " to " + names.back());
  writePages(pages::tallyPaper(tags, answer.unit()), command.labels.paper, "Tally sheet", answer);
  return answer;
}

}  // namespace

Answer run(const Tag& command, const Session& session) {
  if (command.tally > 0) return tallySheetsOf(command, session);
  if (!command.job.empty()) return partLabelsOf(command, session);
  if (command.blank > 0) {
    store::Book book = session.toWrite();
    const LabelPrint print = labelPrint(command.labels, book.read());
    const std::vector<TagCode> tags = desk::reserveTags(book, command.blank, session.hand);
    Answer answer = answerOf(book);
    std::vector<std::string> names;
    for (const TagCode tag : tags) names.push_back(text(tag));
    answer.put("tags", names);
    answer.say(counted(tags.size(), "blank tag", "blank tags") + ", " + names.front() + " to " +
               names.back());
    writeBlankTags(tags, print, answer);
    return answer;
  }
  if (!command.bays.empty()) return bayTagsOf(command, session);
  const store::Book book = session.toRead();
  Answer answer = answerOf(book);
  const std::vector<Board> boards = boardsToTag(command, book.read());
  answer.say(counted(boards.size(), "tag", "tags"));
  writeTags(boards, labelPrint(command.labels, book.read()), answer);
  std::vector<std::string> names;
  for (const Board& board : boards) names.push_back(board.tagText());
  answer.put("tags", names);
  return answer;
}

Answer run(const Scan& command, const Session& session) {
  std::optional<store::Book> book;
  if (!session.path.empty()) book = session.toRead();
  Answer answer = book ? answerOf(*book) : Answer(Unit::inches, "$");
  std::optional<store::Snapshot> snapshot;
  if (book) snapshot = book->read();
  Table table;
  table.columns = {{"picture", "picture", false},
                   {"code", "code", false},
                   {"format", "symbol", false},
                   {"meaning", "what it is", false}};
  for (const pages::PictureReading& reading : pages::readPictures(command.pictures)) {
    if (!reading.trouble.empty()) {
      answer.warn(reading.path + ": " + reading.trouble);
      answer.exitCode = 1;
    } else if (reading.found.empty()) {
      answer.warn(reading.path + ": no symbol was found in this picture");
      answer.exitCode = 1;
    }
    for (const pages::Found& found : reading.found) {
      const TagReading tag = readTag(found.text);
      const bool known = tag.verdict == TagReading::Verdict::right;
      table.rows.push_back({reading.path, known ? text(tag.code) : found.text, found.format,
                            meaning(found.text, snapshot, answer.unit())});
    }
  }
  if (table.rows.empty()) {
    answer.put("found", table);
  } else {
    answer.show("found", table);
  }
  return answer;
}

}  // namespace flitch::cli
