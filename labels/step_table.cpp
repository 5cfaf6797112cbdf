#include "labels/step_table.h"

#include <algorithm>

#include "labels/page.h"

namespace flitch::pages {
namespace {

using Kind = SawStep::Kind;

QString whatOf(const SawStep& step, bool keeps, const QString& blank) {
  const QString section = QString::number(step.section);
  const QString stick = QString::number(step.stick);
  switch (step.kind) {
    case Kind::squareEnd: return step.falls == "waste" ? "crosscut, waste off" : "square the end";
    case Kind::crosscut:
      if (step.falls == "waste") return "crosscut, waste off";
      if (keeps) return "length " + section + ", keep";
      return blank.isEmpty() ? "crosscut length " + section : "length " + section + blank;
    case Kind::reference:
      return step.section > 0 ? "edge of length " + section : QString("reference edge");
    case Kind::rip:
      if (step.section > 0) return "rip length " + section;
      return step.stick > 0 ? "rip piece " + stick : QString("rip the board");
    case Kind::trimStrip:
      return step.stick > 0 ? "crosscut strip " + stick : QString("crosscut the rest");
    case Kind::remainder: return "remainder";
  }
  return {};
}

}  // namespace

Row rowOf(const SawStep& step, const Cutting& cutting, Unit unit) {
  const LengthStyle style = unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
  Row row;
  const Piece* piece =
      step.piece >= 0 ? &cutting.pieces[static_cast<std::size_t>(step.piece)] : nullptr;
  const bool keeps = piece && piece->kind == PieceKind::offcut;
  const QString blank = piece && piece->kind == PieceKind::blank
                            ? ", " + asText(handMark(piece->line, piece->copy))
                            : QString();
  row.what = whatOf(step, keeps, blank);
  row.measure = asText(text(step.measure, style));
  row.from = asText(step.from);
  if (step.kind == Kind::reference) row.sign = Row::Sign::edge;
  if (step.kind == Kind::reference && step.measure <= Length()) row.measure.clear();
  if (step.kind == Kind::remainder) row.sign = Row::Sign::tag;
  if (step.number > 0) row.number = QString::number(step.number);
  if (step.kind == Kind::crosscut || step.kind == Kind::squareEnd) {
    row.chalk = asText(text(step.chalk, style));
    return row;
  }
  row.falls = asText(step.falls);
  row.keeps = keeps;
  if (keeps)
    row.falls = "keep " + asText(text(piece->at.dx, style) + " × " + text(piece->at.dy, style));
  if (piece && piece->kind == PieceKind::blank) {
    row.mark = row.falls.section(' ', 0, 0);
    row.falls = row.falls.section(' ', 1);
  }
  return row;
}

Columns columnsFor(const std::vector<Row>& rows, double width) {
  constexpr double signWidth = 9, gap = 2.2;
  constexpr double elidable = 28;  // a part's name gives way before figures do
  const auto fallsWidth = [&](const Row& row) {
    const double whole = textWidth(row.mark + " ", 14, true) + textWidth(row.falls, 11, false);
    return row.keeps ? whole : std::min(whole, elidable);
  };
  Columns columns;
  columns.width = width;
  for (const auto& [words, figures] :
       {std::pair{12.0, 18.0}, {11.5, 17.0}, {11.0, 16.0}, {11.0, 14.0}}) {
    double what = 0, measure = 0, from = 0, need = 0;
    for (const Row& row : rows) {
      what = std::max(what, textWidth(row.what, words, false));
      measure = std::max(measure, textWidth(row.measure, figures, true));
      if (row.sign != Row::Sign::tag && row.chalk.isEmpty())
        from = std::max(from, textWidth(row.from, words, false));
    }
    columns.words = words;
    columns.figures = figures;
    columns.measureEnd = signWidth + what + gap + measure;
    columns.fromStart = columns.measureEnd + gap;
    columns.fallsStart = columns.fromStart + from + gap;
    for (const Row& row : rows) {
      const double start = row.chalk.isEmpty() ? columns.fallsStart : columns.fromStart;
      const double rest = row.chalk.isEmpty() ? fallsWidth(row)
                                              : textWidth(row.from, words, false) + gap +
                                                    textWidth("chalk", 11, false) + gap +
                                                    textWidth(row.chalk, figures, true);
      need = std::max(need, start + rest);
    }
    if (need <= width) break;
  }
  return columns;
}

void drawRow(Sheet& sheet, double x, double top, double step, const Row& row,
             const Columns& columns) {
  const double y = top - (rowHeight - step) / 2;
  const double base = y + 6.4;
  switch (row.sign) {
    case Row::Sign::ring:
      sheet.ring(x + 3.6, y + 4.6, 3.4);
      sheet.writeCentred(x + 3.6, y + 6.15, row.number, row.number.size() > 2 ? 10 : 12.5, true);
      break;
    case Row::Sign::edge:
      sheet.page.ink.emplace_back(Line{{{x + 1.4, y + 1.8}, {x + 3.6, y + 7.2}, {x + 5.8, y + 1.8}},
                                       0.8,
                                       Dash::solid,
                                       Tone::ink});
      break;
    case Row::Sign::tag:
      sheet.box(QRectF(x + 0.4, y + 2.2, 6.6, 4.6), 0.4);
      sheet.write(x + 1.5, y + 6, "A", 9, true);
      sheet.page.ink.emplace_back(Area{{{x + 4.4, y + 4.6}, {x + 6.2, y + 4.6}, {x + 5.3, y + 6.2}},
                                       Fill::tone,
                                       Tone::ink,
                                       0,
                                       Tone::ink,
                                       Dash::solid});
      break;
  }
  sheet.write(x + 9, base, row.what, columns.words);
  sheet.writeRight(x + columns.measureEnd, base + 0.2, row.measure, columns.figures, true);
  const double end = sheet.write(x + columns.fromStart, base, row.from, columns.words);
  if (!row.chalk.isEmpty()) {
    const double start =
        sheet.writeRight(x + columns.width, base + 0.2, row.chalk, columns.figures, true);
    const double word = textWidth("chalk", 11, false);
    sheet.write(std::max(end + 2.2, std::min(x + columns.fallsStart, start - word - 2.2)), base,
                "chalk", 11);
  } else {
    double at = x + (row.sign == Row::Sign::tag ? columns.fromStart : columns.fallsStart);
    if (!row.mark.isEmpty()) at = sheet.write(at, base, row.mark + " ", 14, true);
    const double room = x + columns.width - at;
    // A size is written smaller before a figure of it is lost.
    const double points = row.keeps ? fittingPoints(row.falls, 11, false, room) : 11;
    sheet.write(at, base, row.falls, points, false, room + (row.keeps ? 0.1 : 0));
  }
  sheet.line(x, x + columns.width, top + step - 0.6, 0.2, Tone::edge);
}

}  // namespace flitch::pages
