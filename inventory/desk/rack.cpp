#include <algorithm>
#include <cctype>
#include <functional>
#include <sstream>

#include "inventory/desk/reports.h"
#include "inventory/wood/unreadable.h"

namespace flitch::desk {

namespace {

using Wanted = std::function<bool(const Board&)>;

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

/// `>8'`, `<30in`: the board is longer or shorter. A bare figure is feet, in a metric book mm.
std::optional<Wanted> byLength(const std::string& word, Unit unit) {
  if (word.size() < 2 || (word[0] != '>' && word[0] != '<')) return std::nullopt;
  try {
    const Length than =
        parseLength(word.substr(1), unit == Unit::inches ? Bare::feet : Bare::millimetres);
    const bool longer = word[0] == '>';
    return
        [than, longer](const Board& b) { return longer ? b.length() >= than : b.length() < than; };
  } catch (const Unreadable& error) {
    throw Refusal("bad-filter", Complaint{"", word + " is not a length", word, error.accepted});
  }
}

std::optional<Wanted> byNominal(const std::string& word) {
  if (word.find('/') == std::string::npos && word.find("mm") == std::string::npos) {
    return std::nullopt;
  }
  try {
    const Nominal nominal = parseNominal(word);
    return [nominal](const Board& b) { return b.nominal == nominal; };
  } catch (const Unreadable&) {
    return std::nullopt;
  }
}

/// A tag with its letter; a bare number is left to the notes and bays.
std::optional<Wanted> byTag(const std::string& word) {
  if (word.empty() || std::isalpha(static_cast<unsigned char>(word[0])) == 0) return std::nullopt;
  const TagReading reading = readTag(word);
  if (reading.verdict == TagReading::Verdict::notATag || reading.code.kind != TagKind::board) {
    return std::nullopt;
  }
  if (reading.verdict == TagReading::Verdict::wrongCheck) {
    throw Refusal("wrong-check",
                  Complaint{"", word + " has a last character that does not fit its number", word,
                            "the tag as printed: read it again"});
  }
  return [code = reading.code](const Board& b) { return b.tag == code; };
}

std::optional<Wanted> byState(const std::string& word) {
  const auto newest = [](const Board& b, MoistureState state) {
    return b.readings.empty() ? state == MoistureState::ready : b.readings.back().state == state;
  };
  if (word == "free") return [](const Board& b) { return !b.keptBack && !b.reservedFor; };
  if (word == "held") return [](const Board& b) { return static_cast<bool>(b.reservedFor); };
  if (word == "kept") return [](const Board& b) { return b.keptBack; };
  if (word == "unseen") {
    return [](const Board& b) { return b.looked[0] == Looked::no || b.looked[1] == Looked::no; };
  }
  for (const BoardKind kind : {BoardKind::plank, BoardKind::slab, BoardKind::offcut}) {
    const std::string name(flitch::word(kind));
    if (word == name || word == name + "s")
      return [kind](const Board& b) { return b.kind == kind; };
  }
  for (const MoistureState state :
       {MoistureState::wet, MoistureState::resting, MoistureState::ready}) {
    if (word == flitch::word(state)) {
      return [state, newest](const Board& b) { return newest(b, state); };
    }
  }
  return std::nullopt;
}

Wanted wantedIn(const std::string& word) {
  return [word](const Board& b) {
    for (const std::string* field :
         {&b.species, &b.grade, &b.bay, &b.note, &b.log, &b.reservedName, &b.supplier}) {
      if (lower(*field).find(word) != std::string::npos) return true;
    }
    return false;
  };
}

}  // namespace

std::function<bool(const Board&)> rackFilter(const std::string& words, Unit unit) {
  std::vector<Wanted> all;
  std::istringstream stream(lower(words));
  std::string word;
  while (stream >> word) {
    std::optional<Wanted> wanted = byLength(word, unit);
    if (!wanted) wanted = byNominal(word);
    if (!wanted) wanted = byTag(word);
    if (!wanted) wanted = byState(word);
    all.push_back(wanted ? *std::move(wanted) : wantedIn(word));
  }
  return [all = std::move(all)](const Board& board) {
    return std::all_of(all.begin(), all.end(), [&](const Wanted& one) { return one(board); });
  };
}

std::vector<Board> filterRack(std::vector<Board> boards, const std::string& words, Unit unit) {
  const auto wanted = rackFilter(words, unit);
  boards.erase(std::remove_if(boards.begin(), boards.end(),
                              [&](const Board& board) { return !wanted(board); }),
               boards.end());
  return boards;
}

}  // namespace flitch::desk
