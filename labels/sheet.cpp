#include "labels/sheet.h"

#include <algorithm>

namespace flitch::pages {
namespace {

constexpr QSizeF a4(210, 297), letterSize(215.9, 279.4);

std::vector<QPointF> corners(const QRectF& box) {
  return {box.topLeft(), box.topRight(), box.bottomRight(), box.bottomLeft()};
}

}  // namespace

Sheet::Sheet(bool letter, bool landscape) {
  const QSizeF size = letter ? letterSize : a4;
  page.mm = landscape ? size.transposed() : size;
  box(QRectF(QPointF(0, 0), page.mm).adjusted(margin - 4, margin - 4, 4 - margin, 4 - margin), 0.7);
}

double Sheet::write(double x, double y, const QString& text, double points, bool bold, double room,
                    Tone tone) {
  if (text.isEmpty()) return x;
  const Text ink{{x, y}, text, points, bold, Qt::AlignLeft, tone, 0, room};
  page.ink.emplace_back(ink);
  return x + textWidth(shownText(ink), points, bold);
}

double Sheet::writeRight(double x, double y, const QString& text, double points, bool bold,
                         double room, Tone tone) {
  if (text.isEmpty()) return x;
  const Text ink{{x, y}, text, points, bold, Qt::AlignRight, tone, 0, room};
  page.ink.emplace_back(ink);
  return x - textWidth(shownText(ink), points, bold);
}

double Sheet::writeCentred(double x, double y, const QString& text, double points, bool bold) {
  page.ink.emplace_back(Text{{x, y}, text, points, bold, Qt::AlignHCenter});
  return x + textWidth(text, points, bold) / 2;
}

void Sheet::rule(double y, double pen) { line(margin - 4, width() - margin + 4, y, pen); }

void Sheet::line(double x0, double x1, double y, double pen, Tone tone) {
  page.ink.emplace_back(Line{{{x0, y}, {x1, y}}, pen, Dash::solid, tone});
}

void Sheet::box(const QRectF& where, double pen) {
  page.ink.emplace_back(Area{corners(where), Fill::none, Tone::sheet, pen, Tone::ink, Dash::solid});
}

void Sheet::filled(const QRectF& where, Tone tone) {
  page.ink.emplace_back(Area{corners(where), Fill::tone, tone, 0, Tone::ink, Dash::solid});
}

void Sheet::ring(double x, double y, double radius) {
  page.ink.emplace_back(
      Ellipse{QRectF(x - radius, y - radius, 2 * radius, 2 * radius), 0.5, Tone::ink, false});
}

void Sheet::titleBlock(const std::vector<Cell>& cells) {
  rule(foot(), 0.7);
  const double full = width() - 2 * margin + 8;
  double x = margin - 4;
  for (const Cell& cell : cells) {
    if (x > margin - 4)
      page.ink.emplace_back(
          Line{{{x, foot()}, {x, foot() + titleHeight}}, 0.25, Dash::solid, Tone::ink});
    const double room = full * cell.share - 4;
    write(x + 2.5, foot() + 4.6, QString::fromUtf8(cell.label), 8, false, room, Tone::soft);
    write(x + 2.5, foot() + 10.8, cell.value, 11, false, room);
    x += full * cell.share;
  }
}

std::vector<QString> wrapped(const QString& text, double points, bool bold, double room) {
  std::vector<QString> lines;
  QString line;
  for (const QString& word : text.split(' ', Qt::SkipEmptyParts)) {
    const QString longer = line.isEmpty() ? word : line + ' ' + word;
    if (!line.isEmpty() && textWidth(longer, points, bold) > room) {
      lines.push_back(line);
      line = word;
    } else {
      line = longer;
    }
  }
  if (!line.isEmpty()) lines.push_back(line);
  return lines;
}

}  // namespace flitch::pages
