#include "inventory/desk/saw_paper.h"

#include <algorithm>
#include <cctype>
#include <sstream>

#include "inventory/desk/names.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/where_it_fits.h"
#include "inventory/exchange/columns.h"
#include "inventory/records/job.h"
#include "inventory/records/refusal.h"
#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"

namespace flitch::desk {

namespace {

std::string upper(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char letter) { return static_cast<char>(std::toupper(letter)); });
  return text;
}

std::vector<std::string> wordsOf(const std::string& text) {
  std::istringstream from(text);
  std::vector<std::string> words;
  for (std::string word; from >> word;) words.push_back(word);
  return words;
}

/// Words from the one at `from` on.
std::string rest(const std::vector<std::string>& words, std::size_t from) {
  std::string text;
  for (std::size_t w = from; w < words.size(); ++w) text += (text.empty() ? "" : " ") + words[w];
  return text;
}

/// Reads the line of one board, item by item.
class PaperReading {
 public:
  PaperReading(const std::string& text, const Cutting& cutting, const exchange::ReadingRules& rules)
      : text_(text), cutting_(cutting), rules_(rules), marks_(marksOf(cutting)) {}

  PaperLine read() {
    for (const std::string_view part : parts()) item(std::string(part));
    if (!pending_.empty()) refuse();
    if (!line_.sawn && (items_ > 1)) refuse();
    if (line_.otherwise.stoppedAfter && !line_.used.empty()) {
      throw Refusal("bad-line",
                    Complaint{"", "The cuts of another board have other numbers than this sheet's",
                              text_, "used T0044-B and what was kept of it: keep 40 x 6"});
    }
    return std::move(line_);
  }

 private:
  [[nodiscard]] std::vector<std::string_view> parts() const {
    std::vector<std::string_view> parts;
    std::string_view left = text_;
    while (!left.empty()) {
      const std::size_t end = left.find_first_of(",;");
      const std::string_view part = trimmed(left.substr(0, end));
      if (!part.empty()) parts.push_back(part);
      left = end == std::string_view::npos ? std::string_view() : left.substr(end + 1);
    }
    return parts;
  }

  [[noreturn]] void refuse() const {
    throw Refusal("bad-line", Complaint{"", "`" + text_ + "` does not say what went otherwise",
                                        text_, paperWords});
  }

  void item(const std::string& text) {
    ++items_;
    const std::vector<std::string> words = wordsOf(plain(text));
    const std::string first = upper(words.front());
    try {
      if (upper(words.back()) == "LOST") {
        lost(words);
      } else if (words.size() > 2 && upper(words[1]) == "SHORT") {
        line_.otherwise.cutShort.push_back({blank(first), lengthOf(rest(words, 2))});
      } else if (first == "NO" && words.size() == 1) {
        line_.sawn = false;
      } else if (first == "KEEP" && words.size() > 1) {
        keep(rest(words, 1));
      } else if (first == "STOP" && words.size() == 2 && !line_.otherwise.stoppedAfter) {
        line_.otherwise.stoppedAfter = cutNumber(words[1]);
      } else if (first == "TAG" && words.size() == 2 && upper(words[1]) == "STAYS") {
        line_.otherwise.tagStays = true;
      } else if (first == "BIN" && words.size() == 1) {
        line_.otherwise.allShorts = true;
      } else if (first == "BIN") {
        line_.otherwise.shorts.push_back(sizeOf(rest(words, 1)));
      } else if (first == "USED" && words.size() == 2 && line_.used.empty()) {
        line_.used = upper(words[1]);
      } else if (std::all_of(words.begin(), words.end(), [&](const std::string& w) {
                   return std::isalpha(static_cast<unsigned char>(w.front())) != 0 &&
                          w.find_first_of("0123456789") != std::string::npos;
                 })) {
        // Marks before a comma belong to the `lost` that follows.
        pending_.insert(pending_.end(), words.begin(), words.end());
      } else {
        found(rest(words, first == "KNOT" ? 1 : 0));
      }
    } catch (const Unreadable& error) {
      throw Refusal("bad-line", Complaint{"", error.what(), error.value, error.accepted});
    }
  }

  [[nodiscard]] int cutNumber(const std::string& text) const {
    if (text.size() > 3 || !std::all_of(text.begin(), text.end(), isDigit)) refuse();
    return std::stoi(text);
  }

  [[nodiscard]] std::string blank(const std::string& mark) const {
    if (std::find(marks_.begin(), marks_.end(), mark) != marks_.end()) return mark;
    std::string there;
    for (const std::string& each : marks_) there += (there.empty() ? "" : ", ") + each;
    throw Refusal("no-such-blank", Complaint{"", "This board gives no blank " + mark, mark, there});
  }

  void lost(std::vector<std::string> words) {
    words.pop_back();
    words.insert(words.begin(), pending_.begin(), pending_.end());
    pending_.clear();
    if (words.empty()) refuse();
    for (const std::string& word : words) {
      const std::string mark = blank(upper(word));
      if (std::find(line_.lost.begin(), line_.lost.end(), mark) == line_.lost.end()) {
        line_.lost.push_back(mark);
      }
    }
  }

  [[nodiscard]] Length lengthOf(const std::string& text) const {
    return parseLength(text, rules_.unit == Unit::inches ? Bare::inches : Bare::millimetres);
  }

  [[nodiscard]] OffcutSize sizeOf(const std::string& text) const {
    const std::size_t by = text.find_first_of("xX");
    if (by == std::string::npos) refuse();
    return {lengthOf(text.substr(0, by)), lengthOf(text.substr(by + 1))};
  }

  void keep(const std::string& text) {
    std::optional<std::vector<OffcutSize>>& kept = line_.otherwise.offcuts;
    if (!kept) kept.emplace();
    if (upper(text) == "NONE") return;
    if (text.find_first_of("xX") != std::string::npos) {
      kept->push_back(sizeOf(text));
    } else {
      const Length length = lengthOf(text);
      kept->push_back({length, keptWidth(text)});
    }
  }

  /// Width of the one offcut planned, else of what is thrown at the tag end.
  [[nodiscard]] Length keptWidth(const std::string& text) const {
    const Piece* offcut = nullptr;
    int offcuts = 0;
    const Piece* thrown = nullptr;
    for (const Piece& piece : cutting_.pieces) {
      if (piece.kind == PieceKind::offcut) offcut = &piece, ++offcuts;
      if (piece.kind != PieceKind::unusable) continue;
      const bool nearer = thrown == nullptr || piece.at.x < thrown->at.x ||
                          (piece.at.x == thrown->at.x && piece.at.dy > thrown->at.dy);
      if (nearer) thrown = &piece;
    }
    if (offcuts == 1) return offcut->at.dy;
    if (offcuts == 0 && thrown != nullptr) return thrown->at.dy;
    throw Refusal("which-offcut",
                  Complaint{"",
                            offcuts == 0 ? "Nothing is left of this board beside its blanks"
                                         : "Several offcuts are planned here",
                            text, "each one kept as length x width: keep 14 x 4; or keep none"});
  }

  void found(const std::string& text) {
    const std::size_t across = text.find(" x ");
    for (exchange::MarkLine mark : exchange::readQuickMarks(text.substr(0, across), rules_)) {
      if (across != std::string::npos) {
        const exchange::MarkLine width =
            exchange::readQuickMarks(text.substr(across + 3), rules_).front();
        mark.yFrom = width.xFrom;
        mark.yTo = width.xTo;
      }
      line_.found.push_back(std::move(mark));
    }
  }

  const std::string& text_;
  const Cutting& cutting_;
  const exchange::ReadingRules& rules_;
  std::vector<std::string> marks_, pending_;
  PaperLine line_;
  std::size_t items_ = 0;
};

/// A length of the book's unit, as a maker writes it.
std::string spanText(const exchange::MarkLine& mark, Unit unit) {
  std::string text = mark.kind + " " + figure(mark.xFrom, unit) + "–" +
                     (mark.xTo ? figure(*mark.xTo, unit) : "end");
  if (mark.yTo) {
    text += " × " + figure(mark.yFrom.value_or(Length()), unit) + "–" + figure(*mark.yTo, unit);
  }
  return text;
}

std::string keptText(const std::vector<OffcutSize>& sizes, Unit unit) {
  if (sizes.empty()) return "keeps no offcut";
  std::string text = "keeps ";
  for (const OffcutSize& size : sizes) {
    text += (&size == &sizes[0] ? "" : ", ") + figure(size.length, unit) + " × " +
            figure(size.width, unit);
  }
  return text;
}

/// "stops after cut 3, D1 and D2 are wanted again, 41 × 6 1/4 stays whole".
std::string stoppedText(int last, const CuttingCase& planned, const CuttingCase& sawn) {
  std::string text = "stops after cut " + std::to_string(last);
  std::vector<std::string> wanted;
  const std::vector<std::string> made = marksOf(sawn.cutting);
  for (const std::string& mark : marksOf(planned.cutting)) {
    if (std::find(made.begin(), made.end(), mark) == made.end()) wanted.push_back(mark);
  }
  if (!wanted.empty()) text += ", " + areText(wanted) + " wanted again";
  const std::vector<Piece>& before = planned.cutting.pieces;
  for (const Piece& piece : sawn.cutting.pieces) {
    const bool asPlanned = std::any_of(before.begin(), before.end(), [&](const Piece& p) {
      return p.kind == piece.kind && p.at == piece.at;
    });
    if (piece.kind != PieceKind::offcut || asPlanned) continue;
    const Unit unit = sawn.request.unit;
    text += ", " + figure(piece.at.dx, unit) + " × " + figure(piece.at.dy, unit) + " stays whole";
  }
  return text;
}

}  // namespace

std::vector<std::string> marksOf(const Cutting& cutting) {
  std::vector<std::pair<int, int>> blanks;
  for (const Piece& piece : cutting.pieces) {
    if (piece.kind == PieceKind::blank) blanks.emplace_back(piece.line, piece.copy);
  }
  std::sort(blanks.begin(), blanks.end());
  std::vector<std::string> marks;
  for (const auto& [line, number] : blanks) marks.push_back(handMark(line, number));
  return marks;
}

std::string areText(const std::vector<std::string>& marks) {
  std::string text;
  for (std::size_t m = 0; m < marks.size(); ++m) {
    if (m > 0) text += m + 1 == marks.size() ? " and " : ", ";
    text += marks[m];
  }
  return text + (marks.size() == 1 ? " is" : " are");
}

PaperLine readPaper(const std::string& text, const Cutting& cutting,
                    const exchange::ReadingRules& rules) {
  return PaperReading(text, cutting, rules).read();
}

std::string readingOf(const PaperLine& line, const CuttingCase& at) {
  if (!line.sawn) return "not sawn yet, stays planned";
  const Unit unit = at.request.unit;
  std::string text;
  const auto say = [&](const std::string& more) { text += (text.empty() ? "" : "; ") + more; };
  if (!line.used.empty()) say(line.used + " was sawn in its stead");
  // What cannot be is refused while it is typed, not when it is entered.
  const AsSawn as = line.otherwise.any() ? asSawn(line.otherwise, at) : AsSawn{at.cutting, {}};
  const CuttingCase sawn{as.cutting, at.board, at.request, at.tick};
  const std::vector<std::string> off = marksOf(as.cutting);
  for (const std::string& mark : line.lost) {
    if (line.otherwise.stoppedAfter && std::find(off.begin(), off.end(), mark) == off.end()) {
      throw Refusal("no-such-blank", Complaint{"", mark + " is not off this board yet", mark,
                                               "a blank that is; what hangs together is wanted "
                                               "again by itself"});
    }
  }
  if (!line.lost.empty()) say(areText(line.lost) + " wanted again");
  if (line.otherwise.stoppedAfter) say(stoppedText(*line.otherwise.stoppedAfter, at, sawn));
  if (!as.shorts.empty()) {
    say(std::to_string(as.shorts.size()) + (as.shorts.size() == 1 ? " short" : " shorts") +
        " for the bin");
  } else if (line.otherwise.allShorts) {
    say("nothing here is worth the bin");
  }
  for (const CutShort& cut : line.otherwise.cutShort) say(whereItFits(cut, at));
  if (line.otherwise.offcuts) say(keptText(*line.otherwise.offcuts, unit));
  if (line.otherwise.tagStays) say("the tag stays on what is kept there");
  if (!line.found.empty()) {
    for (const exchange::MarkLine& mark : line.found) say(spanText(mark, unit));
    const std::vector<std::string> barred =
        barredBy(placed(at.board, fromTagEnd(line.found, sawn.cutting, unit), unit), sawn);
    text +=
        barred.empty() ? ": in no blank that it bars" : ": " + areText(barred) + " wanted again";
  }
  return text;
}

Turn turnOf(const store::Snapshot& snapshot, BoardId planned, const PaperLine& line, bool sure,
            Unit unit) {
  Turn turn{planned, {}, line.otherwise, line.found};
  if (!line.used.empty()) turn.taken = boardToChange(snapshot, line.used, sure, unit).id;
  if (turn.taken == planned) turn.taken = {};
  return turn;
}

}  // namespace flitch::desk
