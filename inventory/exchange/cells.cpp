#include "inventory/exchange/cells.h"

#include <cstdlib>

#include "inventory/records/board.h"
#include "inventory/wood/species.h"
#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

constexpr Length shortestBoard = Length::inches(1);
constexpr Length narrowestBoard = Length::sixtyFourths(16);
constexpr Length thinnestBoard = Length::sixtyFourths(4);

bool hasUnit(std::string_view text) {
  const std::string written = plain(text);
  return std::any_of(written.begin(), written.end(),
                     [](char c) { return (c >= 'a' && c <= 'z') || c == '\'' || c == '"'; });
}

/// The figure before a foot sign or a bare one, if whole: 106 of `106'`.
std::optional<int> wholeFigure(std::string_view text) {
  std::string written = plain(text);
  for (const std::string_view end : {"'", "ft", "\"", "in"}) {
    if (written.ends_with(end)) {
      written = trimmed(std::string_view(written).substr(0, written.size() - end.size()));
      break;
    }
  }
  if (written.empty() || written.size() > 4) return std::nullopt;
  if (written.find_first_not_of("0123456789") != std::string::npos) return std::nullopt;
  return std::atoi(written.c_str());
}

/// Feet and inches run together: 106 is 10' 6", 1011 is 10' 11".
std::string feetInchesMeant(int figure) {
  for (const int tail : {100, 10}) {
    const int inches = figure % tail;
    const int feet = figure / tail;
    const bool twoDigits = tail == 10 || inches >= 10;
    if (twoDigits && inches < 12 && feet >= 1 && feet <= 60) {
      return text(Length::feet(feet) + Length::inches(inches), LengthStyle::feetInches);
    }
  }
  return {};
}

/// A fraction whose blank and stroke were lost: 738 is 7 3/8.
std::string fractionMeant(int figure) {
  const int bottom = figure % 10;
  const int top = figure / 10 % 10;
  const bool fraction = (bottom == 2 || bottom == 4 || bottom == 8) && top % 2 == 1 && top < bottom;
  if (!fraction || figure < 100) return {};
  return std::to_string(figure / 100) + " " + std::to_string(top) + "/" + std::to_string(bottom);
}

std::string didYouMean(std::initializer_list<std::string> words) {
  std::string out;
  for (const std::string& word : words) {
    if (word.empty()) continue;
    out += (out.empty() ? " Did you mean " : " or ") + word;
  }
  return out.empty() ? out : out + "?";
}

/// 61 ft 6 in.
std::string feetText(Length length) {
  const std::int64_t feet = length / Length::feet(1);
  const Length left = length - Length::feet(feet);
  const std::string inches = left == Length() ? "" : " " + text(left, LengthStyle::inches) + " in";
  return std::to_string(feet) + " ft" + inches;
}

std::string mm(Length length) { return text(length, LengthStyle::millimetres) + " mm"; }

/// Single letters wrong, lost or added between two short words. O(|a| |b|).
std::size_t editDistance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t swapped = diagonal + (a[i - 1] == b[j - 1] ? 0 : 1);
      diagonal = row[j];
      row[j] = std::min({swapped, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row[b.size()];
}

/// Nothing unless both sides are lengths and the second is farther.
std::optional<LengthSpan> spanAt(std::string_view left, std::string_view right, Bare bare) {
  try {
    LengthSpan span{parseLength(left, bare), std::nullopt};
    if (trimmed(right) == "end") return span;
    span.to = parseLength(right, bare);
    if (*span.to <= span.from) return std::nullopt;
    return span;
  } catch (const Unreadable&) {
    return std::nullopt;
  }
}

std::string listOf(std::span<const std::string> words) {
  constexpr std::size_t most = 16;
  std::string out;
  for (std::size_t i = 0; i < std::min(words.size(), most); ++i) {
    out += (i == 0 ? "" : ", ") + words[i];
  }
  return words.size() > most ? out + " and " + std::to_string(words.size() - most) + " more" : out;
}

}  // namespace

void Complaints::add(int line, std::string_view column, const std::string& sentence,
                     std::string_view value, const std::string& accepted) {
  std::string place = file_;
  if (line > 0) place += ":" + std::to_string(line);
  if (!column.empty()) place += ":" + std::string(column);
  all_.push_back({place, sentence, shortened(value), accepted});
}

void Complaints::add(int line, std::string_view column, const Unreadable& what) {
  add(line, column, what.what(), what.value, what.accepted);
}

void Complaints::refuse(const std::string& code) {
  constexpr std::size_t most = 50;
  if (all_.empty()) return;
  if (all_.size() > most) {
    const std::size_t more = all_.size() - most;
    all_.resize(most);
    all_.push_back({file_, "and " + std::to_string(more) + " more like these", "", ""});
  }
  throw Refusal(code, std::move(all_));
}

Unreadable Cell::unreadable(std::string_view sentence, std::string accepted) const {
  return {inBackticks(text) + std::string(sentence), shortened(text), std::move(accepted)};
}

Length Cell::length() const {
  Bare bare = measure == Measure::feetLength && rules.unit == Unit::inches ? Bare::feet
                                                                           : smallBare(rules.unit);
  if (measure == Measure::millimetres) bare = Bare::millimetres;
  if (unit.empty() || hasUnit(text)) return parseLength(text, bare);
  if (unit == "mm") return parseLength(text, Bare::millimetres);
  if (unit == "in") return parseLength(text, Bare::inches);
  if (unit == "ft") return parseLength(text, Bare::feet);
  return parseLength(std::string(text) + " " + std::string(unit), bare);
}

int Cell::number(int least, int most) const {
  const std::string accepted =
      "a whole number from " + std::to_string(least) + " to " + std::to_string(most);
  const std::string written = plain(text);
  if (written.find_first_not_of("0123456789") != std::string::npos) {
    throw unreadable(" is not a whole number", accepted);
  }
  const int n = written.size() > 6 ? most + 1 : std::atoi(written.c_str());
  if (n < least || n > most)
    throw unreadable(" is too " + std::string(n < least ? "small" : "large"), accepted);
  return n;
}

Money Cell::price() const {
  constexpr Money most = Money::units(1'000'000);
  const Money amount = parseMoney(text, rules.sign);
  if (amount > most) throw unreadable(" is more than a million", "8.20, 1,199.40");
  return amount;
}

std::string Cell::note(std::size_t most) const {
  if (text.size() > most) {
    throw unreadable(" is too long", "at most " + std::to_string(most) + " bytes");
  }
  return std::string(text);
}

bool Cell::yesOrNo() const {
  static constexpr std::array<std::string_view, 2> words{"no", "yes"};
  return wordOf(*this, words) == 1;
}

TagCode Cell::tag() const {
  const TagReading reading = readTag(text);
  const std::string accepted = "the code as it stands on the tag, such as T0042-F";
  switch (reading.verdict) {
    case TagReading::Verdict::wrongCheck:
      throw unreadable(" has a last character that does not fit its number", accepted);
    case TagReading::Verdict::noCheck: throw unreadable(" has no check character", accepted);
    case TagReading::Verdict::notATag: throw unreadable(" is not a tag", accepted);
    case TagReading::Verdict::right: break;
  }
  if (reading.code.kind != TagKind::board) throw unreadable(" is not a board's tag", accepted);
  return reading.code;
}

std::string Cell::oneOf(std::span<const std::string> known, std::string_view what) const {
  std::string name = speciesName(text);
  if (std::find(known.begin(), known.end(), name) != known.end()) return name;
  std::string sentence = " is not a " + std::string(what) + " of this book";
  std::string near;
  std::size_t least = 3;  // two letters wrong are still near
  // Words past 40 letters are no name, however near.
  if (name.size() <= 40) {
    for (const std::string& word : known) {
      const std::size_t distance = editDistance(name, word);
      if (distance < std::min(least, word.size())) {
        least = distance;
        near = word;
      }
    }
  }
  if (!near.empty()) sentence += "." + didYouMean({near});
  throw unreadable(sentence, listOf(known));
}

std::size_t wordOf(const Cell& cell, std::span<const std::string_view> words) {
  const std::string name = speciesName(cell.text);
  std::string accepted;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (speciesName(words[i]) == name) return i;
    accepted += (i == 0 ? "" : ", ") + std::string(words[i]);
  }
  throw cell.unreadable(" is none of the words this column takes", accepted);
}

Length boardLength(const Cell& cell) {
  const bool metric = cell.rules.unit == Unit::millimetres;
  const std::optional<int> figure = wholeFigure(cell.text);
  const bool bare = !hasUnit(cell.text) && cell.unit.empty() && !metric;
  const std::string written = plain(cell.text);
  const bool feet = bare || written.ends_with("'") || written.ends_with("ft");
  const auto tooLong = [&](const std::string& size) {
    const bool asInches = figure && bare && Length::inches(*figure) <= maxBoardLength;
    return cell.unreadable(" is " + size + "; boards up to 60 ft are taken." +
                               didYouMean({figure && feet ? feetInchesMeant(*figure) : "",
                                           asInches ? std::to_string(*figure) + " in" : ""}),
                           "10-6, 10' 6\", 126 in, 3200 mm");
  };
  // Before reading: 1011 for 10' 11" is past the longest length there is.
  if (figure && feet && Length::feet(*figure) > maxBoardLength) {
    throw tooLong(std::to_string(*figure) + " ft");
  }
  const Length length = cell.length();
  if (length > maxBoardLength && metric) {
    throw cell.unreadable(
        " is " + mm(length) + "; boards up to " + mm(maxBoardLength) + " long are taken",
        "2400, 2400 mm, 2.4 m");
  }
  if (length > maxBoardLength) throw tooLong(feetText(length));
  if (length < shortestBoard) throw cell.unreadable(" is too short for a board", "1 in or more");
  return length;
}

Length boardWidth(const Cell& cell) {
  const Length width = cell.length();
  if (width > maxBoardWidth) {
    if (cell.rules.unit == Unit::millimetres) {
      throw cell.unreadable(
          " is " + mm(width) + "; boards up to " + mm(maxBoardWidth) + " wide are taken",
          "180, 180 mm, 18 cm");
    }
    const std::optional<int> figure = wholeFigure(cell.text);
    const bool asMillimetres = figure && Length::millimetres(*figure) <= maxBoardWidth;
    throw cell.unreadable(" is " + feetText(width) + "; boards up to 5 ft (60 in) wide are taken." +
                              didYouMean({figure ? fractionMeant(*figure) : "",
                                          asMillimetres ? std::to_string(*figure) + " mm" : ""}),
                          "7 3/8, 7.375, 187.5 mm");
  }
  if (width < narrowestBoard) {
    throw cell.unreadable(" is too narrow for a board", "1/4 in or more");
  }
  return width;
}

Length boardThickness(const Cell& cell) {
  const Length thickness = cell.length();
  if (thickness > maxBoardThickness) {
    const std::optional<int> figure = wholeFigure(cell.text);
    const std::string size = cell.rules.unit == Unit::millimetres
                                 ? mm(thickness)
                                 : text(thickness, LengthStyle::inches) + " in";
    throw cell.unreadable(" is " + size + " thick; boards up to 16 in are taken." +
                              didYouMean({figure ? std::to_string(*figure) + " mm" : ""}),
                          "15/16, 1 1/16, 26 mm");
  }
  if (thickness < thinnestBoard) {
    throw cell.unreadable(" is too thin for a board", "1/16 in or more");
  }
  return thickness;
}

std::vector<std::string_view> parted(std::string_view text, std::string_view signs) {
  std::vector<std::string_view> parts;
  for (;;) {
    const std::size_t at = text.find_first_of(signs);
    const std::string_view part = trimmed(text.substr(0, at));
    if (!part.empty()) parts.push_back(part);
    if (at == std::string_view::npos) return parts;
    text.remove_prefix(at + 1);
  }
}

Nominal nominalCell(const Cell& cell, Unit unit) {
  const bool bareMillimetres = unit == Unit::millimetres && !plain(cell.text).ends_with("mm");
  const Nominal nominal =
      parseNominal(bareMillimetres ? std::string(cell.text) + " mm" : std::string(cell.text));
  if (nominal.unit() != unit) {
    throw cell.unreadable(" is in millimetres", "4/4, 8/4, 8; millimetres go under nominal_mm");
  }
  return nominal;
}

LengthSpan readSpan(std::string_view asWritten, Bare bare) {
  const std::string written = plain(asWritten);
  const auto fail = [asWritten](const std::string& what) {
    return Unreadable(inBackticks(asWritten) + what, shortened(asWritten),
                      "12-17, 12 1/2-17, 60-end");
  };
  std::optional<LengthSpan> found;
  // Hyphens also stand in 1-1/2: every one is tried as the one between.
  for (std::size_t at = written.find('-'); at != std::string::npos;
       at = written.find('-', at + 1)) {
    const std::string_view all = written;
    const std::optional<LengthSpan> span = spanAt(all.substr(0, at), all.substr(at + 1), bare);
    if (!span) continue;
    if (found) throw fail(" can be read in two ways");
    found = span;
  }
  if (!found) throw fail(" is not from one place to a farther one");
  return *found;
}

}  // namespace flitch::exchange
