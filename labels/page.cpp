#include "labels/page.h"

#include <QFontMetricsF>
#include <QMarginsF>
#include <QPageLayout>
#include <QPageSize>
#include <QPainterPath>
#include <QPdfWriter>
#include <QPolygonF>
#include <QSaveFile>
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "inventory/records/refusal.h"
#include "labels/symbol.h"
#include "labels/typeface.h"

namespace flitch::pages {
namespace {

constexpr double mmPerInch = 25.4;
constexpr double hatchGap = 1.8;
constexpr double hatchPen = 0.15;
constexpr double tickGap = 9.5;
constexpr double tickRow = 5.3;
constexpr double tickLength = 2.0;

template <class... Kinds>
struct Overloaded : Kinds... {
  using Kinds::operator()...;
};
template <class... Kinds>
Overloaded(Kinds...) -> Overloaded<Kinds...>;

QPolygonF polygon(const std::vector<QPointF>& points) {
  QPolygonF result;
  result.reserve(static_cast<qsizetype>(points.size()));
  for (const QPointF& point : points) result << point;
  return result;
}

Modules modulesOf(const Symbol& symbol) {
  switch (symbol.kind) {
    case Symbol::Kind::code128: return code128(symbol.text);
    case Symbol::Kind::qr: return qr(symbol.text);
    case Symbol::Kind::dataMatrix: break;
  }
  return dataMatrix(symbol.text);
}

/// Modules of quiet zone on each side.
int quietOf(const Symbol& symbol) {
  switch (symbol.kind) {
    case Symbol::Kind::code128: return quietCode128;
    case Symbol::Kind::qr: return quietQr;
    case Symbol::Kind::dataMatrix: break;
  }
  return quietDataMatrix;
}

SymbolDots dotsOf(const Symbol& symbol, const Modules& modules, int dpi) {
  const bool bars = symbol.kind == Symbol::Kind::code128;
  const int quiet = quietOf(symbol);
  const double dots = dpi / mmPerInch;
  const double width = symbol.box.width() * dots;
  const double height = symbol.box.height() * dots;
  const auto fit = [](double room, int count) {
    return static_cast<int>(std::floor(room / count + 1e-6));
  };
  SymbolDots placed;
  placed.module = fit(width, modules.columns + 2 * quiet);
  if (!bars) placed.module = std::min(placed.module, fit(height, modules.rows + 2 * quiet));
  placed.width = placed.module * modules.columns;
  placed.height = bars ? static_cast<int>(std::floor(height)) : placed.module * modules.rows;
  const auto centred = [](double start, double room, int taken) {
    return static_cast<int>(std::lround(start + (room - taken) / 2));
  };
  placed.left = centred(symbol.box.x() * dots, width, placed.width);
  placed.top = centred(symbol.box.y() * dots, height, placed.height);
  return placed;
}

/// Paints one page's ink in mm on a painter scaled to mm.
class InkPainter {
 public:
  InkPainter(QPainter& painter, const Theme& theme, double dotsPerMm, int symbolDpi)
      : painter_(painter), theme_(theme), dot_(1 / dotsPerMm), symbolDpi_(symbolDpi) {}

  void operator()(const Text& text) const {
    const QString shown = shownText(text);
    const QFont font = typeface(text.bold);
    const double scale = text.points * mmPerPoint / layoutPixels;
    const double width = QFontMetricsF(font).horizontalAdvance(shown);
    double left = 0;
    if (text.align & Qt::AlignRight) left = -width;
    if (text.align & Qt::AlignHCenter) left = -width / 2;
    painter_.save();
    painter_.translate(text.at);
    painter_.rotate(text.turned);
    painter_.scale(scale, scale);
    painter_.setFont(font);
    painter_.setPen(theme_.of(text.tone));
    painter_.drawText(QPointF(left, 0), shown);
    painter_.restore();
  }

  void operator()(const Line& line) const {
    if (line.tone == Tone::grain && !theme_.grain) return;
    painter_.setPen(pen(line.width, line.dash, line.tone));
    painter_.setBrush(Qt::NoBrush);
    painter_.drawPolyline(polygon(line.points));
  }

  void operator()(const Area& area) const {
    const QPolygonF shape = polygon(area.points);
    painter_.setPen(Qt::NoPen);
    if (area.fill != Fill::none) {
      painter_.setBrush(theme_.of(area.fill == Fill::hatch ? Tone::sheet : area.tone));
      painter_.drawPolygon(shape);
    }
    if (area.fill == Fill::hatch) hatch(shape);
    if (area.fill == Fill::unseen) ticks(shape);
    if (area.outline > 0) {
      painter_.setPen(pen(area.outline, area.dash, area.outlineTone));
      painter_.setBrush(Qt::NoBrush);
      painter_.drawPolygon(shape);
    }
  }

  void operator()(const Ellipse& ellipse) const {
    painter_.setPen(ellipse.filled || ellipse.outline <= 0
                        ? QPen(Qt::NoPen)
                        : pen(ellipse.outline, Dash::solid, ellipse.tone));
    painter_.setBrush(ellipse.filled ? QBrush(theme_.of(ellipse.tone)) : QBrush(Qt::NoBrush));
    painter_.drawEllipse(ellipse.box);
  }

  /// Dark modules of a row that touch are one rectangle: seams between rectangles would show.
  void operator()(const Symbol& symbol) const {
    const Modules modules = modulesOf(symbol);
    const SymbolDots dots = dotsOf(symbol, modules, symbolDpi_);
    const bool bars = symbol.kind == Symbol::Kind::code128;
    double module = dots.module * mmPerInch / symbolDpi_;
    QPointF start = QPointF(dots.left, dots.top) * (mmPerInch / symbolDpi_);
    double rowHeight = bars ? dots.height * mmPerInch / symbolDpi_ : module;
    if (dots.module == 0) {
      const int quiet = quietOf(symbol);
      module = symbol.box.width() / (modules.columns + 2 * quiet);
      rowHeight = bars ? symbol.box.height() : module;
      start = symbol.box.topLeft() + QPointF(quiet * module, bars ? 0 : quiet * module);
    }
    painter_.save();
    painter_.setRenderHint(QPainter::Antialiasing, false);
    painter_.setPen(Qt::NoPen);
    painter_.setBrush(Qt::black);
    for (int row = 0; row < modules.rows; ++row)
      for (int column = 0; column < modules.columns;) {
        int end = column;
        while (end < modules.columns && modules.at(end, row)) ++end;
        if (end > column)
          painter_.drawRect(QRectF(start.x() + column * module, start.y() + row * rowHeight,
                                   (end - column) * module, rowHeight));
        column = std::max(end, column + 1);
      }
    painter_.restore();
  }

  void operator()(const Picture& picture) const { painter_.drawImage(picture.box, picture.image); }

 private:
  /// ISO 128 line types; never thinner than a dot of the device.
  [[nodiscard]] QPen pen(double width, Dash dash, Tone tone) const {
    const double pens = std::max(width, dot_);
    QPen result(theme_.of(tone), pens);
    result.setJoinStyle(Qt::MiterJoin);
    result.setCapStyle(Qt::FlatCap);
    const auto pattern = [&](std::initializer_list<double> mm) {
      QList<qreal> inPens;
      for (const double length : mm) inPens << length / pens;
      result.setDashPattern(inPens);
    };
    switch (dash) {
      case Dash::solid: break;
      case Dash::dashed: pattern({1.9, 1.1}); break;
      case Dash::dotted: pattern({0.4, 0.9}); break;
      case Dash::chain: pattern({3.6, 0.8, 0.5, 0.8}); break;
    }
    return result;
  }

  template <class Draw>
  void clipped(const QPolygonF& shape, Draw draw) const {
    painter_.save();
    QPainterPath path;
    path.addPolygon(shape);
    path.closeSubpath();
    painter_.setClipPath(path, Qt::IntersectClip);
    draw(shape.boundingRect());
    painter_.restore();
  }

  /// Rising lines at 45 degrees, laid from the page's origin so that neighbours continue them.
  void hatch(const QPolygonF& shape) const {
    clipped(shape, [&](const QRectF& box) {
      painter_.setPen(pen(hatchPen, Dash::solid, Tone::soft));
      const double step = hatchGap * std::sqrt(2.0);
      const double first = std::floor((box.left() + box.top()) / step) * step;
      for (double sum = first; sum < box.right() + box.bottom(); sum += step)
        painter_.drawLine(QPointF(sum - box.top(), box.top()),
                          QPointF(sum - box.bottom(), box.bottom()));
    });
  }

  /// Sparse short ticks falling to the right, every second row half a gap on.
  void ticks(const QPolygonF& shape) const {
    clipped(shape, [&](const QRectF& box) {
      painter_.setPen(pen(0.3, Dash::solid, Tone::soft));
      int row = 0;
      for (double y = box.top() + 0.9; y < box.bottom(); y += tickRow / 2, ++row)
        for (double x = box.left() + 1.2 + (row % 2 ? tickGap / 2 : 0); x < box.right();
             x += tickGap)
          painter_.drawLine(QPointF(x, y), QPointF(x + tickLength, y + tickLength * 0.75));
    });
  }

  QPainter& painter_;
  const Theme& theme_;
  double dot_;
  int symbolDpi_;
};

Ink moved(Ink ink, QPointF by) {
  const auto shift = [&](std::vector<QPointF>& points) {
    for (QPointF& point : points) point += by;
  };
  std::visit(Overloaded{[&](Text& text) { text.at += by; }, [&](Line& line) { shift(line.points); },
                        [&](Area& area) { shift(area.points); },
                        [&](auto& boxed) { boxed.box.translate(by); }},
             ink);
  return ink;
}

}  // namespace

void lay(Page& page, const Page& part, QPointF at) { lay(page, part.ink, at); }

void lay(Page& page, const std::vector<Ink>& ink, QPointF at) {
  page.ink.reserve(page.ink.size() + ink.size());
  for (const Ink& one : ink) page.ink.push_back(moved(one, at));
}

double textWidth(const QString& text, double points, bool bold) {
  return QFontMetricsF(typeface(bold)).horizontalAdvance(text) * points * mmPerPoint / layoutPixels;
}

double fittingPoints(const QString& text, double points, bool bold, double maxWidth) {
  const double width = textWidth(text, points, bold);
  if (width <= maxWidth) return points;
  return std::max(6.0, std::floor(points * maxWidth / width * 2) / 2);
}

QString shownText(const Text& text) {
  if (text.maxWidth <= 0) return text.text;
  const double room = text.maxWidth * layoutPixels / (text.points * mmPerPoint);
  return QFontMetricsF(typeface(text.bold)).elidedText(text.text, Qt::ElideRight, room);
}

QRectF textBox(const Text& text) {
  const QFontMetricsF metrics(typeface(text.bold));
  const double scale = text.points * mmPerPoint / layoutPixels;
  const QString shown = shownText(text);
  const double width = metrics.horizontalAdvance(shown) * scale;
  double left = text.at.x();
  if (text.align & Qt::AlignRight) left -= width;
  if (text.align & Qt::AlignHCenter) left -= width / 2;
  const QRectF letters = metrics.tightBoundingRect(shown);
  return {left, text.at.y() + letters.top() * scale, width, letters.height() * scale};
}

SymbolDots symbolDots(const Symbol& symbol, int dpi) {
  return dotsOf(symbol, modulesOf(symbol), dpi);
}

const Theme& paperTheme() {
  static const Theme theme = [] {
    const QColor black(Qt::black), white(Qt::white), grey(0x3A, 0x3A, 0x3A), rule(0x96, 0x96, 0x96);
    Theme paper;
    for (QColor& colour : paper.colour) colour = black;
    paper.colour[static_cast<int>(Tone::soft)] = grey;
    paper.colour[static_cast<int>(Tone::edge)] = rule;
    paper.colour[static_cast<int>(Tone::sheet)] = white;
    paper.colour[static_cast<int>(Tone::grain)] = rule;
    paper.colour[static_cast<int>(Tone::wood)] = white;
    return paper;
  }();
  return theme;
}

void paint(const Page& page, QPainter& painter, int dpi, const Theme& theme, int symbolDpi) {
  const double dotsPerMm = dpi / mmPerInch;
  painter.save();
  painter.scale(dotsPerMm, dotsPerMm);
  const InkPainter painting(painter, theme, dotsPerMm, symbolDpi > 0 ? symbolDpi : dpi);
  for (const Ink& ink : page.ink) std::visit(painting, ink);
  painter.restore();
}

void writePdf(const std::vector<Page>& pages, const std::string& path, const QString& title) {
  constexpr int resolution = 1200;
  constexpr double widestRoll = 110;  // mm: a four-inch label printer
  if (pages.empty())
    throw Refusal("nothing-to-print", {path, "There is no page to write.", "", ""});
  QSaveFile file(QString::fromStdString(path));
  const auto failed = [&] {
    return Refusal(
        "cannot-write",
        {path, "The file could not be written: " + file.errorString().toStdString() + ".", "",
         "a file in a folder you may write to"});
  };
  if (!file.open(QIODevice::WriteOnly)) throw failed();
  QPdfWriter writer(&file);
  writer.setResolution(resolution);
  writer.setTitle(title);
  writer.setCreator(QStringLiteral("Flitchbook"));
  const auto setSize = [&](const Page& page) {
    // By orientation too: a landscape size given as portrait would be turned.
    const bool wide = page.mm.width() > page.mm.height();
    const QPageSize size(wide ? page.mm.transposed() : page.mm, QPageSize::Millimeter, QString(),
                         QPageSize::ExactMatch);
    writer.setPageLayout(QPageLayout(size, wide ? QPageLayout::Landscape : QPageLayout::Portrait,
                                     QMarginsF(0, 0, 0, 0)));
  };
  setSize(pages.front());
  QPainter painter;
  if (!painter.begin(&writer)) throw failed();
  for (std::size_t at = 0; at < pages.size(); ++at) {
    if (at > 0) {
      setSize(pages[at]);
      writer.newPage();
    }
    const int printer = pages[at].mm.width() <= widestRoll ? 203 : 300;
    paint(pages[at], painter, resolution, paperTheme(), printer);
  }
  painter.end();
  if (!file.commit()) throw failed();
}

QImage toImage(const Page& page, int dpi, bool mono) {
  const auto dots = [&](double mm) { return static_cast<int>(std::ceil(mm * dpi / mmPerInch)); };
  QImage image(dots(page.mm.width()), dots(page.mm.height()), QImage::Format_RGB32);
  image.fill(Qt::white);
  QPainter painter(&image);
  painter.setRenderHint(QPainter::Antialiasing, !mono);
  paint(page, painter, dpi);
  painter.end();
  return mono ? image.convertToFormat(QImage::Format_Mono, Qt::ThresholdDither | Qt::MonoOnly)
              : image;
}

}  // namespace flitch::pages
