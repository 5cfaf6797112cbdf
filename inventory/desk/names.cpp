#include "inventory/desk/names.h"

#include <algorithm>
#include <cctype>
#include <set>

namespace flitch::desk {

namespace {

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

}  // namespace

Job jobIn(const store::Snapshot& snapshot, JobId id) {
  std::optional<Job> job = snapshot.job(id);
  if (!job) throw Refusal("unknown-job", Complaint{"", "There is no such job", "", "a job's name"});
  return *std::move(job);
}

std::string figure(Length length, Unit unit) {
  return text(length, unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres);
}

Board boardNamed(const store::Snapshot& snapshot, const std::string& tag) {
  const auto refuse = [&](const char* code, const std::string& sentence, std::string accepted) {
    return Refusal(code, Complaint{"", "\"" + tag + "\" " + sentence, tag, std::move(accepted)});
  };
  const TagReading reading = readTag(tag);
  switch (reading.verdict) {
    case TagReading::Verdict::notATag:
      throw refuse("not-a-tag", "is not a tag", "T0042-F, T0042F or 42");
    case TagReading::Verdict::wrongCheck:
      throw refuse("wrong-check",
                   "has a last character that does not fit its number; no board was opened",
                   "the tag as printed: read it again");
    case TagReading::Verdict::noCheck:
    case TagReading::Verdict::right: break;
  }
  if (reading.code.kind != TagKind::board) {
    throw refuse("not-a-board", "is not a board's tag", "a tag that begins with T");
  }
  if (std::optional<Board> board = snapshot.boardByTag(reading.code)) return *board;
  if (const auto now = snapshot.replacedBy(reading.code)) {
    throw refuse("replaced-tag", "was replaced: its board has the tag " + text(*now), text(*now));
  }
  if (snapshot.tagReserved(reading.code)) {
    throw refuse("blank-tag", "is a blank tag: it hangs on no board yet", "a board's tag");
  }
  throw refuse(
      "unknown-tag",
      snapshot.tagKnown(reading.code) ? "hangs on no board any more" : "is not a tag of this book",
      "the tag of a board in this book");
}

Board boardToChange(const store::Snapshot& snapshot, const std::string& tag, bool sure, Unit unit) {
  const Board board = boardNamed(snapshot, tag);
  if (sure || readTag(tag).verdict != TagReading::Verdict::noCheck) return board;
  const std::string name = text(*board.tag);
  throw Refusal("not-sure", Complaint{"",
                                      "\"" + tag + "\" has no check character; it would be " +
                                          name + ", " + board.species + " " + text(board.nominal) +
                                          ", " + sizeText(board, unit) +
                                          (board.bay.empty() ? "" : ", bay " + board.bay),
                                      tag, name + ", or the same with --sure"});
}

std::vector<Board> boardsToChange(const store::Snapshot& snapshot,
                                  const std::vector<std::string>& tags, bool sure, Unit unit) {
  std::vector<Board> boards;
  std::vector<Complaint> complaints;
  std::string code;
  std::set<BoardId> taken;
  for (const std::string& tag : tags) {
    try {
      const Board board = boardToChange(snapshot, tag, sure, unit);
      needOnRack(snapshot, board);
      if (taken.insert(board.id).second) boards.push_back(board);
    } catch (const Refusal& refusal) {
      if (code.empty()) code = refusal.code();
      complaints.insert(complaints.end(), refusal.complaints().begin(), refusal.complaints().end());
    }
  }
  if (!complaints.empty()) throw Refusal(code, std::move(complaints));
  return boards;
}

std::string bayNamed(const store::Snapshot& snapshot, const std::string& bay) {
  const std::vector<std::string> bays = snapshot.bays();
  const auto named = std::find_if(
      bays.begin(), bays.end(), [&](const std::string& name) { return lower(name) == lower(bay); });
  if (named != bays.end()) return *named;
  const TagReading reading = readTag(bay);
  if (reading.verdict == TagReading::Verdict::right) {
    if (const auto tagged = snapshot.bayOf(reading.code)) return *tagged;
  }
  if (reading.verdict == TagReading::Verdict::wrongCheck && bay.size() > 5) {
    throw Refusal("wrong-check",
                  Complaint{"", "\"" + bay + "\" has a last character that does not fit its number",
                            bay, "the tag as printed: read it again"});
  }
  std::string all;
  for (const std::string& name : bays) all += (all.empty() ? "" : ", ") + name;
  throw Refusal("unknown-bay", Complaint{"", "There is no bay " + bay, bay, all});
}

std::string bayOrNew(const store::Snapshot& snapshot, const std::string& bay) {
  constexpr std::size_t longest = 60;
  const TagReading reading = readTag(bay);
  const bool code = reading.verdict == TagReading::Verdict::right ||
                    (reading.verdict == TagReading::Verdict::wrongCheck && bay.size() > 5);
  const std::vector<std::string> bays = snapshot.bays();
  const bool known = std::any_of(
      bays.begin(), bays.end(), [&](const std::string& name) { return lower(name) == lower(bay); });
  if (known || code) return bayNamed(snapshot, bay);
  if (bay.size() > longest) {
    throw Refusal("long-bay", Complaint{"", "The name of the bay is too long", bay.substr(0, 20),
                                        "at most 60 bytes"});
  }
  return bay;
}

std::string tagOf(const Board& board) {
  return board.tag ? board.tagText() : "a board without a tag";
}

void needOnRack(const store::Snapshot& snapshot, const Board& board, const std::string& accepted) {
  if (board.onRack()) return;
  const std::string name = tagOf(board);
  throw Refusal("not-on-rack",
                Complaint{"", name + " is no longer on the rack: " + wentText(snapshot, board),
                          name, accepted});
}

std::string wentText(const store::Snapshot& snapshot, const Board& board) {
  const std::optional<LeftRack> left = snapshot.leftRack(board.id);
  if (!left) return "undone";
  switch (left->to) {
    case AccountKind::returned:
    case AccountKind::missing:
    case AccountKind::retired:
    case AccountKind::lost:
    case AccountKind::sold: return std::string(word(left->to));
    case AccountKind::byHand: return "used by hand";
    default: return "sawn";
  }
}

}  // namespace flitch::desk
