#include "ui/desktop/look.h"

#include <QFontMetrics>
#include <QGuiApplication>
#include <QPainterPath>
#include <array>
#include <string_view>

#include "labels/typeface.h"

namespace flitch::desktop {

const Colours& dayColours() {
  static const Colours day{.ground = "#EFECE3",
                           .sheet = "#FBFAF6",
                           .field = "#FFFFFF",
                           .stripe = "#F5F2EA",
                           .picked = "#DBE6F1",
                           .errorBand = "#F8E6E0",
                           .cautionBand = "#F6EBD0",
                           .cherry = "#F1DDCD",
                           .ash = "#F3EBD3",
                           .oak = "#E9DEC1",
                           .ink = "#1D2328",
                           .soft = "#565C60",
                           .blue = "#1B4F86",
                           .red = "#A12B18",
                           .good = "#26663A",
                           .caution = "#7A4B00",
                           .edge = "#7D7767",
                           .grain = "#B98F6B",
                           .rule = "#CFC9BA"};
  return day;
}

const Colours& nightColours() {
  static const Colours night{.ground = "#15181A",
                             .sheet = "#1D2124",
                             .field = "#121517",
                             .stripe = "#212629",
                             .picked = "#29405A",
                             .errorBand = "#432620",
                             .cautionBand = "#3D321B",
                             .cherry = "#4C362B",
                             .ash = "#45402F",
                             .oak = "#443B27",
                             .ink = "#EFEBE1",
                             .soft = "#ACAFA9",
                             .blue = "#92C0EE",
                             .red = "#FF9C85",
                             .good = "#88D0A2",
                             .caution = "#EABF66",
                             .edge = "#848C90",
                             .grain = "#9A7657",
                             .rule = "#3C4347"};
  return night;
}

namespace {

bool systemIsDark() {
  const QPalette palette = QGuiApplication::palette();
  return palette.color(QPalette::Window).lightness() <
         palette.color(QPalette::WindowText).lightness();
}

bool has(std::string_view text, std::string_view word) {
  return text.find(word) != std::string_view::npos;
}

/// A courtesy only: the species is told by its name.
const QColor& tint(const Colours& colours, std::string_view species) {
  if (has(species, "oak") || has(species, "walnut") || has(species, "elm")) return colours.oak;
  if (has(species, "cherry") || has(species, "mahogany") || has(species, "beech")) {
    return colours.cherry;
  }
  return colours.ash;
}

}  // namespace

Look::Look(QObject* parent) : QObject(parent), night_(systemIsDark()) {}

void Look::choose(bool night) {
  chosen_ = true;
  if (night == night_) return;
  night_ = night;
  emit changed();
}

void Look::systemChanged() {
  if (chosen_ || systemIsDark() == night_) return;
  night_ = !night_;
  emit changed();
}

QPalette Look::palette() const {
  const Colours& c = colours();
  QPalette palette;
  palette.setColor(QPalette::Window, c.sheet);
  palette.setColor(QPalette::WindowText, c.ink);
  palette.setColor(QPalette::Base, c.field);
  palette.setColor(QPalette::AlternateBase, c.stripe);
  palette.setColor(QPalette::Text, c.ink);
  palette.setColor(QPalette::PlaceholderText, c.soft);
  palette.setColor(QPalette::Button, c.field);
  palette.setColor(QPalette::ButtonText, c.ink);
  palette.setColor(QPalette::Highlight, c.picked);
  palette.setColor(QPalette::HighlightedText, c.ink);
  palette.setColor(QPalette::ToolTipBase, c.field);
  palette.setColor(QPalette::ToolTipText, c.ink);
  palette.setColor(QPalette::Link, c.blue);
  palette.setColor(QPalette::Mid, c.edge);
  for (auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText}) {
    palette.setColor(QPalette::Disabled, role, c.soft);
  }
  return palette;
}

pages::Theme Look::wood(const std::string& species) const {
  const Colours& c = colours();
  pages::Theme theme;
  const auto set = [&](pages::Tone tone, const QColor& colour) {
    theme.colour[static_cast<int>(tone)] = colour;
  };
  set(pages::Tone::ink, c.ink);
  set(pages::Tone::soft, c.soft);
  set(pages::Tone::blue, c.blue);
  set(pages::Tone::red, c.red);
  set(pages::Tone::good, c.good);
  set(pages::Tone::caution, c.caution);
  set(pages::Tone::edge, c.edge);
  set(pages::Tone::sheet, c.sheet);
  set(pages::Tone::grain, c.grain);
  set(pages::Tone::wood, tint(c, species));
  theme.grain = true;
  return theme;
}

QFont typeface(int pixels, bool bold) {
  QFont font;
  font.setFamilies({pages::typefaceFamily(), "DejaVu Sans"});
  font.setPixelSize(pixels);
  font.setBold(bold);
  font.setHintingPreference(QFont::PreferVerticalHinting);
  return font;
}

int textWidth(const QString& text, int pixels, bool bold) {
  return QFontMetrics(typeface(pixels, bold)).horizontalAdvance(text);
}

QString elided(const QString& text, int pixels, bool bold, int width) {
  return QFontMetrics(typeface(pixels, bold)).elidedText(text, Qt::ElideRight, width);
}

void drawText(QPainter& painter, double x, double baseline, const QString& text, int pixels,
              bool bold, const QColor& colour, Qt::Alignment align) {
  painter.setFont(typeface(pixels, bold));
  painter.setPen(colour);
  const double width = painter.fontMetrics().horizontalAdvance(text);
  if (align & Qt::AlignRight) x -= width;
  if (align & Qt::AlignHCenter) x -= width / 2;
  painter.drawText(QPointF(x, baseline), text);
}

void drawRule(QPainter& painter, int x1, int y1, int x2, int y2, const QColor& colour) {
  if (y1 == y2) {
    painter.fillRect(x1, y1, x2 - x1, 1, colour);
  } else {
    painter.fillRect(x1, y1, 1, y2 - y1, colour);
  }
}

void drawFrame(QPainter& painter, const QRect& box, const QColor& fill, const QColor& edge,
               bool focus, const Colours& colours) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setBrush(fill);
  painter.setPen(QPen(edge, 1));
  painter.drawRoundedRect(QRectF(box).adjusted(0.5, 0.5, -0.5, -0.5), 3, 3);
  if (focus) {
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(colours.blue, 2));
    painter.drawRoundedRect(QRectF(box).adjusted(1, 1, -1, -1), 3, 3);
  }
  painter.restore();
}

void drawSign(QPainter& painter, const QRectF& box, const Colours& colours) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const double h = box.height(), w = h * 0.42;
  for (int side : {-1, 1}) {
    const auto at = [&](double u, double v) {
      return QPointF(box.x() + h / 2 + side * u * w, box.y() + v * h);
    };
    painter.setPen(QPen(colours.ink, 1.2));
    painter.setBrush(colours.cherry);
    const std::array<QPointF, 4> leaf{at(0.06, 0), at(1, 0.06), at(1, 0.94), at(0.06, 1)};
    painter.drawPolygon(leaf.data(), 4);
    painter.setPen(QPen(colours.ink, 1));
    painter.setBrush(Qt::NoBrush);
    for (double k : {0.35, 0.68}) {
      QPainterPath ring(at(0.06, 0.5 - k * 0.62));
      ring.quadTo(at(k * 1.05, 0.5), at(0.06, 0.5 + k * 0.62));
      painter.drawPath(ring);
    }
  }
  painter.restore();
}

}  // namespace flitch::desktop
