#include "inventory/desk/rack_work.h"

#include <algorithm>
#include <map>

#include "inventory/desk/names.h"
#include "inventory/store/writer.h"

namespace flitch::desk {

namespace {

/// "T0042-F", "T0042-F and 2 more".
std::string named(const std::vector<Board>& boards) {
  std::string name = tagOf(boards.front());
  if (boards.size() > 1) name += " and " + std::to_string(boards.size() - 1) + " more";
  return name;
}

void needBoards(const std::vector<Board>& boards) {
  if (boards.empty()) throw Refusal("no-boards", Complaint{"", "No board is named", "", "a tag"});
}

bool blank(const std::string& text) { return text.find_first_not_of(" \t") == std::string::npos; }

/// One entry in which `edit` changes each board.
EntryId editEach(Book& book, const std::vector<Board>& boards, const std::string& event,
                 const std::string& what, const Hand& hand,
                 const std::function<void(Board&)>& edit) {
  needBoards(boards);
  const std::string said = named(boards) + (what.empty() ? "" : ": " + what);
  return book.change({event, {}, said, {}}, hand, [&](store::Writer& writer) {
    for (Board board : boards) {
      edit(board);
      writer.updateBoard(board);
    }
  });
}

}  // namespace

EntryId moveTo(Book& book, const std::vector<Board>& boards, const std::string& bay,
               const Hand& hand) {
  if (blank(bay)) throw Refusal("no-bay", Complaint{"", "No bay is named", "", "a bay's name"});
  return editEach(book, boards, "moved", "to " + bay, hand, [&](Board& board) { board.bay = bay; });
}

EntryId note(Book& book, const std::vector<Board>& boards, const std::string& note,
             const Hand& hand) {
  constexpr std::size_t most = 1000;
  return editEach(book, boards, "noted", note, hand, [&](Board& board) {
    if (note.empty()) {
      board.note.clear();
    } else {
      board.note += (board.note.empty() ? "" : "; ") + note;
    }
    if (board.note.size() > most) {
      throw Refusal("long-note", Complaint{"", "The note of " + tagOf(board) + " is too long",
                                           note.substr(0, 40), "at most 1000 bytes in all"});
    }
  });
}

EntryId keepBack(Book& book, const std::vector<Board>& boards, bool keep, const Hand& hand) {
  return editEach(book, boards, keep ? "kept back" : "let go", "", hand,
                  [&](Board& board) { board.keptBack = keep; });
}

EntryId takeReading(Book& book, const std::vector<Board>& boards, const Reading& reading,
                    const Hand& hand) {
  return editEach(book, boards, "reading taken", reading.takenOn, hand, [&](Board& board) {
    std::vector<Reading>& all = board.readings;
    const auto at =
        std::lower_bound(all.begin(), all.end(), reading,
                         [](const Reading& a, const Reading& b) { return a.takenOn < b.takenOn; });
    if (at != all.end() && at->takenOn == reading.takenOn) {
      *at = reading;
    } else {
      all.insert(at, reading);
    }
  });
}

EntryId retire(Book& book, const std::vector<Board>& boards, const std::string& reason,
               const Hand& hand) {
  return takeOff(book, boards, AccountKind::retired, reason, hand, [](store::Writer&) {});
}

Retagged replaceTag(Book& book, const Board& board, std::optional<TagCode> tag, const Hand& hand) {
  if (tag && (tag->kind != TagKind::board || !issuable(tag->kind, tag->serial))) {
    throw Refusal("bad-tag", Complaint{"", text(*tag) + " is no board's tag", text(*tag),
                                       "a blank tag, or none: the book gives the next"});
  }
  Retagged retagged{};
  retagged.entry =
      book.change({"tag replaced", {}, tagOf(board), {}}, hand,
                  [&](store::Writer& writer) { retagged.tag = writer.replaceTag(board.id, tag); });
  return retagged;
}

std::vector<TagCode> tagBays(Book& book, const std::vector<std::string>& bays, const Hand& hand) {
  const auto has = [](const store::Snapshot& snapshot) {
    return [&snapshot](const std::string& bay) { return snapshot.bayTag(bay).has_value(); };
  };
  if (!std::all_of(bays.begin(), bays.end(), has(book.read()))) {
    std::string names;
    for (const std::string& bay : bays) names += (names.empty() ? "" : ", ") + bay;
    book.change({"bay tagged", {}, names, {}}, hand, [&](store::Writer& writer) {
      for (const std::string& bay : bays) {
        if (!writer.now().bayTag(bay)) writer.tagBay(bay);
      }
    });
  }
  std::vector<TagCode> tags;
  for (const std::string& bay : bays) tags.push_back(book.read().bayTag(bay).value());
  return tags;
}

std::string bayContents(const std::vector<Board>& rack, const std::string& bay) {
  std::map<std::string, int> kinds;
  for (const Board& board : rack) {
    if (board.bay == bay) ++kinds[board.species + " " + text(board.nominal)];
  }
  std::vector<std::pair<std::string, int>> order(kinds.begin(), kinds.end());
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  std::string all;
  for (const auto& [kind, boards] : order) all += (all.empty() ? "" : " · ") + kind;
  return all;
}

EntryId takeOff(Book& book, const std::vector<Board>& boards, AccountKind to,
                const std::string& reason, const Hand& hand,
                const std::function<void(store::Writer&)>& also) {
  needBoards(boards);
  if (blank(reason)) {
    throw Refusal("no-reason", Complaint{"", "A board leaves the rack for a reason", "",
                                         "a few words: honeycombed end"});
  }
  return book.change(
      {std::string(word(to)), {}, named(boards) + ": " + reason, {}}, hand,
      [&](store::Writer& writer) {
        for (const Board& board : boards) {
          const Board now = writer.now().board(board.id).value();
          const std::string name = tagOf(now);
          needOnRack(writer.now(), now);
          if (now.reservedFor) {
            throw Refusal("held", Complaint{"", name + " is reserved for " + now.reservedName, name,
                                            "a board that is free"});
          }
          writer.post({AccountKind::board, board.id, to, {}, now.wood, now.cost, -1, {}});
        }
        also(writer);
      });
}

}  // namespace flitch::desk
