#include <algorithm>
#include <fstream>
#include <iostream>
#include <map>

#include "inventory/desk/count.h"
#include "inventory/desk/names.h"
#include "inventory/desk/rack_work.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/reshape.h"
#include "inventory/desk/returns.h"
#include "inventory/wood/moisture.h"
#include "inventory/wood/unreadable.h"
#include "ui/cli/commands.h"

namespace flitch::cli {

namespace {

constexpr std::size_t mostCodes = 20'000;

/// Codes as typed and as scanned into a file, in order; blanks and line ends part them.
std::vector<std::string> codesOf(const Codes& codes) {
  std::vector<std::string> all = codes.tags;
  if (codes.file.empty()) return all;
  std::ifstream file;
  if (codes.file != "-") {
    file.open(codes.file);
    if (!file) {
      throw Refusal("bad-file", Complaint{"--codes", codes.file + " cannot be opened", codes.file,
                                          "a text file of codes, or -"});
    }
  }
  std::istream& in = codes.file == "-" ? std::cin : file;
  for (std::string code; in >> code;) {
    if (all.size() == mostCodes) {
      throw Refusal("bad-file", Complaint{"--codes", codes.file + " holds more than 20000 codes",
                                          codes.file, "the codes of one bay"});
    }
    all.push_back(code);
  }
  return all;
}

Money moneyOf(const std::string& text, const std::string& option, const Answer& answer) {
  try {
    return parseMoney(text, answer.sign());
  } catch (const Unreadable& error) {
    throw Refusal("bad-amount", Complaint{option, error.what(), error.value, error.accepted});
  }
}

std::string tagsText(const std::vector<Board>& boards) {
  std::string all;
  for (const Board& board : boards) all += (all.empty() ? "" : ", ") + board.tagText();
  return all;
}

std::vector<Board> again(const std::vector<Board>& boards, const store::Snapshot& snapshot) {
  std::vector<Board> now;
  for (const Board& board : boards) now.push_back(snapshot.board(board.id).value());
  return now;
}

Reading readingOf(const BoardWork& command) {
  try {
    return {dayOf(command.on), parseMoisture(command.moisture), command.state};
  } catch (const Unreadable& error) {
    throw Refusal("bad-moisture",
                  Complaint{"--moisture", error.what(), error.value, error.accepted});
  }
}

TagCode blankTagOf(const std::string& tag) {
  const TagReading reading = readTag(tag);
  if (reading.verdict != TagReading::Verdict::right) {
    throw Refusal("not-a-tag",
                  Complaint{"--as", "\"" + tag + "\" is not a tag with its check character", tag,
                            "T0042-F, as printed"});
  }
  return reading.code;
}

/// The board with what was measured again, the rest as it stands.
Board measuredAgain(const BoardWork& command, const Board& board, const store::Book& book) {
  desk::ShapeTyped typed = desk::shapeOf(board, book.facts().unit);
  const std::map<std::string, std::string*> fields{{"thickness", &typed.thickness},
                                                   {"outline_a", &typed.outlineA},
                                                   {"outline_b", &typed.outlineB},
                                                   {"bow", &typed.bow},
                                                   {"bent_at", &typed.bentAt},
                                                   {"crook", &typed.crook},
                                                   {"cup", &typed.cup},
                                                   {"twist", &typed.twist},
                                                   {"grain_slope", &typed.grain}};
  for (const auto& [column, text] : command.measured) {
    if (const auto field = fields.find(column); field != fields.end()) {
      *field->second = text;
    } else if (text == "near" || text == "far") {
      typed.hollow = text == "far" ? Edge::far : Edge::near;
    } else {
      throw Refusal("bad-cell", Complaint{"--hollow", "`" + text + "` is no edge of a board", text,
                                          "near, far"});
    }
  }
  try {
    return desk::reshaped(board, typed, desk::readingRules(book));
  } catch (const Refusal& refusal) {
    // A place of a tally's row, as the option that was typed.
    std::vector<Complaint> complaints = refusal.complaints();
    for (Complaint& complaint : complaints) {
      std::string column = complaint.place.substr(complaint.place.rfind(':') + 1);
      std::replace(column.begin(), column.end(), '_', '-');
      complaint.place = "--" + column;
    }
    throw Refusal(refusal.code(), std::move(complaints));
  }
}

}  // namespace

Answer run(const BoardWork& command, const Session& session) {
  using What = BoardWork::What;
  store::Book book = session.toWrite();
  Answer answer = answerOf(book);
  const std::vector<Board> boards =
      desk::boardsToChange(book.read(), codesOf(command.boards), session.sure, answer.unit());
  const std::string names =
      boards.size() <= 3 ? tagsText(boards) : counted(boards.size(), "board", "boards");
  EntryId entry;
  switch (command.what) {
    case What::move: {
      const std::string bay = desk::bayOrNew(book.read(), command.bay);
      entry = desk::moveTo(book, boards, bay, session.hand);
      answer.say(names + " to bay " + bay + ".");
      break;
    }
    case What::note:
      entry = desk::note(book, boards, command.note, session.hand);
      answer.say(names + (command.note.empty() ? ": notes taken away." : ": noted."));
      break;
    case What::keepBack:
    case What::letGo:
      entry = desk::keepBack(book, boards, command.what == What::keepBack, session.hand);
      answer.say(names + (command.what == What::keepBack ? ": kept back." : ": let go."));
      break;
    case What::reading: {
      const Reading reading = readingOf(command);
      entry = desk::takeReading(book, boards, reading, session.hand);
      answer.say(names + ": " + moistureText(reading.tenthsPercent) + " on " + reading.takenOn +
                 ", " + std::string(word(reading.state)) + ".");
      break;
    }
    case What::retire:
      entry = desk::retire(book, boards, command.reason, session.hand);
      answer.say(names + " off the rack: " + command.reason + ".");
      break;
    case What::measure: {
      const Board measured = measuredAgain(command, boards.front(), book);
      entry = desk::reshape(book, measured, session.hand);
      answer.say(names + " is measured again: " + sizeText(measured, answer.unit()) + ", " +
                 lengthText(measured.thickness, answer.unit()) + " thick" +
                 (measured.grain ? ", grain " + text(*measured.grain) : "") + ".");
      break;
    }
    case What::newTag: {
      const desk::Retagged retagged = desk::replaceTag(
          book, boards.front(),
          command.tag.empty() ? std::nullopt : std::optional(blankTagOf(command.tag)),
          session.hand);
      entry = retagged.entry;
      answer.say(names + " has the tag " + text(retagged.tag) + " now; " + names +
                 " hangs on no board again.");
      break;
    }
  }
  answer.put("entry", entry.value);
  answer.put("boards", again(boards, book.read()));
  return answer;
}

Answer run(const Return& command, const Session& session) {
  store::Book book = session.toWrite();
  Answer answer = answerOf(book);
  const Board board = desk::boardToChange(book.read(), command.tag, session.sure, answer.unit());
  const std::string name = board.tagText();
  EntryId entry;
  if (!command.credit.empty()) {
    const Money amount = moneyOf(command.credit, "--credit", answer);
    entry = desk::credit(book, board, amount, dayOf(command.on), session.hand);
    answer.say("A credit of " + answer.money(amount) + " came for " + name + ".");
  } else {
    std::optional<Money> expected;
    if (!command.expect.empty()) expected = moneyOf(command.expect, "--expect", answer);
    entry = desk::sendBack(book, board, command.reason, expected, session.hand);
    answer.say(name + " goes back to " + board.supplier + ": " + command.reason +
               ". Credit expected: " + answer.money(expected.value_or(board.cost)) + ".");
  }
  answer.put("entry", entry.value);
  answer.put("report", desk::returnReport(book.read()));
  answer.put("boards", again({board}, book.read()));
  return answer;
}

namespace {

/// A row for each board that is not where the book has it.
Table countTable(const desk::Counted& counted, const store::Snapshot& snapshot, Unit unit) {
  Table table;
  table.columns = {{"tag", "tag", false},         {"found", "found", false},
                   {"species", "species", false}, {"nominal", "quarters", false},
                   {"size", "size", false},       {"bay", "bay", false}};
  const auto add = [&](const std::vector<Board>& boards, const std::string& found) {
    for (const Board& board : boards) {
      table.rows.push_back({board.tagText(), found, board.species, text(board.nominal),
                            sizeText(board, unit), board.bay});
    }
  };
  add(counted.missing, "missing");
  add(counted.unexpected, "unexpected");
  add(counted.found, "was missing");
  for (const Board& board : counted.gone) add({board}, "was " + desk::wentText(snapshot, board));
  for (const TagCode tag : counted.blank) {
    table.rows.push_back({text(tag), std::string("blank tag"), {}, {}, {}, {}});
  }
  return table;
}

}  // namespace

Answer run(const Count& command, const Session& session) {
  std::vector<std::string> codes = codesOf(command.codes);
  store::Book book = command.look ? session.toRead() : session.toWrite();
  Answer answer = answerOf(book);
  const desk::Counted bay =
      command.look
          ? desk::compare(book.read(), command.bay, codes, command.untagged, session.sure,
                          answer.unit())
          : desk::count(book, command.bay, codes, command.untagged, session.sure, session.hand);
  std::string line = "Bay " + bay.bay + ": " + std::to_string(bay.seen.size()) + " seen, " +
                     std::to_string(bay.missing.size()) + " missing, " +
                     std::to_string(bay.unexpected.size() + bay.found.size()) + " unexpected";
  if (!bay.blank.empty() || bay.untagged > 0) {
    line += ", " + std::to_string(bay.blank.size() + static_cast<std::size_t>(bay.untagged)) +
            " not yet in the book";
  }
  answer.say(line + (command.look ? "; nothing was posted." : "."));
  const Table table = countTable(bay, book.read(), answer.unit());
  if (table.rows.empty()) {
    answer.put("lines", table);
  } else {
    answer.show("lines", table);
  }
  answer.put("bay", bay.bay);
  answer.put("seen", static_cast<std::int64_t>(bay.seen.size()));
  answer.put("missing", bay.missing);
  answer.put("unexpected", bay.unexpected);
  answer.put("found", bay.found);
  answer.put("untagged", static_cast<std::int64_t>(bay.untagged));
  if (bay.entry) answer.put("entry", bay.entry.value);
  return answer;
}

}  // namespace flitch::cli
