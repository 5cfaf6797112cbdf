#include "labels/tag_page.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "inventory/records/refusal.h"
#include "labels/page.h"
#include "labels/symbol.h"

namespace flitch::pages {
namespace {

constexpr double mmPerInch = 25.4;

/// Texts and symbols of one label, in mm, every text kept inside its room.
class Label {
 public:
  explicit Label(QSizeF size) : page_{size, {}} {}

  [[nodiscard]] double width() const { return page_.mm.width(); }
  [[nodiscard]] double height() const { return page_.mm.height(); }
  [[nodiscard]] Page page() && { return std::move(page_); }

  /// Returns where the text ends.
  double write(double x, double y, const QString& text, double points, bool bold, double room) {
    if (text.isEmpty()) return x;
    const Text ink{{x, y}, text, points, bold, Qt::AlignLeft, Tone::ink, 0, room};
    page_.ink.emplace_back(ink);
    return x + textWidth(shownText(ink), points, bold);
  }
  /// Returns where the text begins.
  double writeRight(double x, double y, const QString& text, double points, bool bold, double room,
                    Tone tone = Tone::ink) {
    if (text.isEmpty()) return x;
    const Text ink{{x, y}, text, points, bold, Qt::AlignRight, tone, 0, room};
    page_.ink.emplace_back(ink);
    return x - textWidth(shownText(ink), points, bold);
  }
  /// For what is never cut short: set smaller instead.
  void writeWhole(double x, double y, const QString& text, double points, bool bold, double room) {
    write(x, y, text, fittingPoints(text, points, bold, room), bold, 0);
  }
  void rule(double x0, double x1, double y) {
    page_.ink.emplace_back(Line{{{x0, y}, {x1, y}}, 0.25, Dash::solid, Tone::ink});
  }
  void triangle(double x, double y, double size, bool down) {
    const double tip = down ? y : y - size * 1.1, foot = down ? y - size * 1.1 : y;
    page_.ink.emplace_back(Area{{{x, foot}, {x + size, foot}, {x + size / 2, tip}},
                                Fill::tone,
                                Tone::ink,
                                0,
                                Tone::ink,
                                Dash::solid});
  }

  /// Bars whose first bar is at `x`: their quiet zone reaches 10 modules further on both sides.
  /// Returns where it ends.
  double bars(double x, double y, double high, const std::string& text, int dots, int dpi) {
    const double module = dots * mmPerInch / dpi;
    const int modules = code128(text).columns + 2 * quietCode128;
    page_.ink.emplace_back(Symbol{Symbol::Kind::code128, text,
                                  QRectF(x - quietCode128 * module, y, modules * module, high)});
    return x + (modules - quietCode128) * module;
  }
  /// A square symbol in a box of `side` with its quiet zone.
  void square(double x, double y, double side, const std::string& text,
              Symbol::Kind kind = Symbol::Kind::qr) {
    page_.ink.emplace_back(Symbol{kind, text, QRectF(x, y, side, side)});
  }

 private:
  Page page_;
};

/// Side of a QR box, quiet zone included: tag codes up to 16 letters and figures fit version 1
/// (21 modules) at level Q (ISO/IEC 18004).
double squareSide(int dots, int dpi) { return (21 + 2 * quietQr) * dots * mmPerInch / dpi; }

QString quarters(const Board& board) { return asText(text(board.nominal)); }

/// Species cut short where it must be, quarters never. Returns where they end.
double speciesLine(Label& label, double x, double y, double points, double room,
                   const Board& board) {
  const QString rest = " " + quarters(board);
  const double restWidth = textWidth(rest, points, true);
  const double end = label.write(x, y, asText(board.species), points, true, room - restWidth);
  return label.write(end, y, rest, points, true, 0);
}

/// Board feet, grade, bay: the grade gives way.
void factsLine(Label& label, double x, double y, double points, double room, const Board& board) {
  const double gap = points * 0.3;
  const QString feet = asText(text(board.measuredFeet)) + " bf";
  const QString bay = board.bay.empty() ? QString() : "bay " + asText(board.bay);
  const double bayRoom = std::min(room * 0.4, textWidth(bay, points, false) + 0.2);
  const double end = label.write(x, y, feet, points, false, 0) + gap;
  const double gradeRoom = x + room - end - (bay.isEmpty() ? 0 : bayRoom + gap);
  double next = label.write(end, y, asText(board.grade), points, false, gradeRoom);
  if (!board.grade.empty()) next += gap;
  label.write(next, y, bay, points, false, bayRoom);
}

/// 100 x 50 mm and about: on face A at the tag end, its foot toward the near edge. The right
/// column, 26 mm wide, holds the square symbol and how the board lies.
struct LargeTag {
  static constexpr double left = 5, top = 13.4;
  explicit LargeTag(Label& label, TagCode tag)
      : right(label.width() - 4), room(label.width() - 32) {
    const std::string symbol = symbolText(tag);
    const double side = squareSide(6, 203);
    label.writeWhole(left, top, asText(text(tag)), 38, true, room);
    label.square(label.width() - 3.2 - side, 2.4, side, symbol);
    label.bars(left + 0.5, label.height() - 14.4, 9, symbol, 3, 203);
    label.writeRight(right, label.height() - 13.4, "FACE A", 11, true, 0);
    const double words = label.writeRight(right, label.height() - 6.4, "near edge", 9, false, 0);
    label.triangle(words - 4, label.height() - 6, 3, true);
  }
  double right, room;
};

/// 70 x 37 mm: the same order of things, smaller.
struct SmallTag {
  static constexpr double left = 4;
  explicit SmallTag(Label& label, TagCode tag) : right(label.width() - 4), room(46) {
    const std::string symbol = symbolText(tag);
    const double side = squareSide(4, 203);
    label.writeWhole(left, 10.4, asText(text(tag)), 26, true, label.width() - left - side - 3.5);
    label.square(label.width() - 2 - side, 1.6, side, symbol);
    label.bars(left + 1, label.height() - 12.4, 8.4, symbol, 3, 300);
    const double words = label.writeRight(right, label.height() - 4, "near edge", 8, false, 0);
    label.triangle(words - 3.4, label.height() - 3.6, 2.4, true);
    label.writeRight(words - 4.4, label.height() - 4, "A", 9, true, 0);
  }
  double right, room;
};

/// 72 x 18 mm, on end grain: surfaced 4/4 is 20.6 mm thick.
struct EndTag {
  static constexpr double left = 17.5;
  explicit EndTag(Label& label, TagCode tag, bool withBars)
      : right(label.width() - 3), room(label.width() - left - 20) {
    const std::string symbol = symbolText(tag);
    const double side = squareSide(4, 203);
    label.square(1.3, (label.height() - side) / 2, side, symbol);
    label.writeWhole(left, withBars ? 8 : 7, asText(text(tag)), withBars ? 20 : 19, true, room);
    if (!withBars) return;
    // The bars of a very long serial take the place of the words: an end tag stands upright.
    const double end = label.bars(left + 1, 10.4, 5.5, symbol, 3, 300);
    speciesRoom = std::min(speciesRoom, right - end);
    if (right - textWidth("face A", 8, false) - 4 < end) return;
    const double words = label.writeRight(right, 15.4, "face A", 8, false, 0);
    label.triangle(words - 3.6, 15.4, 2.6, false);
  }
  double right, room;
  double speciesRoom = 18;
};

/// 38 x 13 mm, where nothing else fits: the densest square symbol and the tag.
struct SlipTag {
  explicit SlipTag(Label& label, TagCode tag) {
    const std::string symbol = symbolText(tag);
    // Four dots of 203 an inch a module, three where the serial is long.
    const int modules = dataMatrix(symbol).columns + 2 * quietDataMatrix;
    const auto side = [&](int dots) { return modules * dots * mmPerInch / 203; };
    const double taken = side(side(4) <= label.height() - 2.6 ? 4 : 3);
    label.square(1.3, (label.height() - taken) / 2, taken, symbol, Symbol::Kind::dataMatrix);
    left = 1.3 + taken + 1.2;
    room = label.width() - left - 1.3;
    label.writeWhole(left, label.height() / 2, asText(text(tag)), 14, true, room);
  }
  double left, room;
};

enum class Layout { large, small, end, slip };

Layout layoutFor(const LabelStock& stock) {
  if (stock.label.height() >= 45 && stock.label.width() >= 90) return Layout::large;
  if (stock.label.height() >= 34 && stock.label.width() >= 68) return Layout::small;
  if (stock.label.height() >= 17 && stock.label.width() >= 70) return Layout::end;
  if (stock.label.height() >= 12 && stock.label.width() >= 34) return Layout::slip;
  throw Refusal("label-too-small", {"", "A tag does not fit on this label.", stock.name,
                                    "labels of at least 34 × 12 mm"});
}

Page endTag(const Board& board, Label label, Unit unit) {
  const bool offcut = board.kind == BoardKind::offcut;
  const EndTag tag(label, *board.tag, !offcut);
  if (offcut) {
    label.write(EndTag::left, 11.6, "offcut", 9.5, false, tag.room);
    label.writeWhole(EndTag::left, 16, asText(sizeText(board, unit)), 10, true, tag.room);
  }
  label.writeRight(tag.right, 5.6, quarters(board), 13, true, 18);
  label.writeRight(tag.right, 10.6, asText(board.species), 9, false, tag.speciesRoom);
  if (offcut && !board.bay.empty())
    label.writeRight(tag.right, 15.4, "bay " + asText(board.bay), 9, true, 18);
  return std::move(label).page();
}

Page largeTag(const Board& board, Label label, Unit unit) {
  const LargeTag tag(label, *board.tag);
  const double left = LargeTag::left;
  speciesLine(label, left, 21.2, 17, tag.room, board);
  label.writeWhole(left, 27.4, asText(sizeText(board, unit)), 13, false, tag.room);
  factsLine(label, left, 33, 12, tag.room, board);
  label.writeRight(tag.right, label.height() - 19.4, asText(board.supplier), 8, false, 22,
                   Tone::soft);
  return std::move(label).page();
}

Page slipTag(const Board& board, Label label) {
  const SlipTag tag(label, *board.tag);
  const double line = label.height() / 2 + 4.2;
  const QString thick = " " + quarters(board);
  const double room = tag.room - textWidth(thick, 8, true);
  const double end = label.write(tag.left, line, asText(board.species), 8, false, room);
  label.write(end, line, thick, 8, true, 0);
  return std::move(label).page();
}

Page smallTag(const Board& board, Label label, Unit unit) {
  const SmallTag tag(label, *board.tag);
  const double left = SmallTag::left;
  const QString feet = asText(text(board.measuredFeet)) + " bf";
  const double feetWidth = textWidth(feet, 12, true) + 3;
  const double end = speciesLine(label, left, 16.4, 12, 49 - feetWidth, board);
  label.write(end + 3, 16.4, feet, 12, true, 0);
  label.writeWhole(left, 21.6, asText(sizeText(board, unit)), 10, false, 44);
  const QString size = asText(sizeText(board, unit));
  const double sizeEnd = left + textWidth(size, fittingPoints(size, 10, false, 44), false);
  label.writeRight(tag.right, 22, asText(board.grade), 10, false, tag.right - sizeEnd - 3);
  if (!board.bay.empty())
    label.writeRight(tag.right, 27.6, "bay " + asText(board.bay), 10, true, 18);
  return std::move(label).page();
}

}  // namespace

Page boardTag(const Board& board, const LabelStock& stock, Unit unit) {
  if (!board.tag) throw std::invalid_argument("a board without a tag code has no tag to print");
  switch (layoutFor(stock)) {
    case Layout::large: return largeTag(board, Label(stock.label), unit);
    case Layout::small: return smallTag(board, Label(stock.label), unit);
    case Layout::slip: return slipTag(board, Label(stock.label));
    case Layout::end: break;
  }
  return endTag(board, Label(stock.label), unit);
}

Page blankTag(TagCode code, const LabelStock& stock) {
  Label label(stock.label);
  switch (layoutFor(stock)) {
    case Layout::large: {
      const LargeTag tag(label, code);
      // Two lines for the pencil: what it is, how large.
      for (const double y : {22.0, 32.0}) label.rule(LargeTag::left, LargeTag::left + tag.room, y);
      break;
    }
    case Layout::small: {
      const SmallTag tag(label, code);
      label.rule(SmallTag::left, SmallTag::left + tag.room, 21.6);
      break;
    }
    case Layout::end: {
      const EndTag tag(label, code, true);
      break;
    }
    case Layout::slip: const SlipTag tag(label, code); break;
  }
  return std::move(label).page();
}

Page bayTag(const BayTag& facts, const LabelStock& stock) {
  // Laid out for 100 x 50 mm; letters shrink with the label, the bars keep whole dots.
  const double k = std::min(stock.label.width() / 100, stock.label.height() / 50);
  if (k < 0.68)
    throw Refusal("label-too-small", {"", "A bay tag does not fit on this label.", stock.name,
                                      "labels of at least 68 × 34 mm"});
  Label label(stock.label);
  const double left = 5 * k, room = label.width() - 2 * left;
  const std::string symbol = symbolText(facts.tag);
  const double foot = label.height() - 15.5;
  const double line = foot - 2.5;
  // Capitals are 0.72 of the letters' size high; the name takes what stands above the line of
  // woods.
  const double high = line - 5 * k - 3;
  label.writeWhole(left, line - 5 * k - 1, asText(facts.bay),
                   std::min(92.0, high / 0.72 / mmPerInch * 72), true, room);
  label.write(left, line, asText(facts.contents), 14 * k, false, room);
  const double end = label.bars(left + 1, foot, 12, symbol, 3, k < 1 ? 300 : 203);
  label.writeWhole(end + 1, label.height() - 5, asText(text(facts.tag)), 15, true,
                   label.width() - left - end - 1);
  return std::move(label).page();
}

Page partLabel(const PartLabel& facts, const LabelStock& stock) {
  // Laid out for 70 x 37 mm; other labels take it larger or smaller.
  const double k = std::min(stock.label.width() / 70, stock.label.height() / 37);
  if (k < 0.8)
    throw Refusal("label-too-small", {"", "A part label does not fit on this label.", stock.name,
                                      "labels of at least 56 × 30 mm"});
  Label label(stock.label);
  const double left = 4 * k, right = label.width() - 4 * k, middle = 24 * k;
  const auto at = [&](double y) { return y * k; };
  label.writeWhole(left, at(13.4), asText(facts.handMark), 36 * k, true, 18.5 * k);
  label.write(middle, at(7.6), asText(facts.part), 11 * k, true, right - middle);
  const double show = label.writeRight(right, at(13), asText(facts.show), 11 * k, true, 20 * k);
  label.write(middle, at(13), asText(facts.job), 10 * k, false, show - middle - 2 * k);
  label.rule(left, right, at(16.6));
  const double front = label.writeRight(right, at(22), asText(facts.front), 10 * k, true, 0);
  label.writeWhole(left, at(22), asText(facts.rough), 11 * k, false, front - left - 2 * k);
  label.write(left, at(27.2), asText(facts.finished), 10 * k, false, right - left);
  const std::string from = facts.from.empty() ? text(facts.board) : facts.from;
  const double start = label.writeRight(right, at(33.4), asText(from), 7.5 * k, false, 27 * k);
  label.write(left, at(33.4), asText(facts.next), 10 * k, true, start - left - 2 * k);
  return std::move(label).page();
}

}  // namespace flitch::pages
