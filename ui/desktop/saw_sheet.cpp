#include "ui/desktop/saw_sheet.h"

#include <QAccessible>
#include <QPainter>
#include <algorithm>

#include "labels/step_table.h"
#include "ui/desktop/place.h"

namespace flitch::desktop {
namespace {

using Kind = SawStep::Kind;

constexpr int margin = 24;
constexpr int headHeight = 132;
constexpr int tagRoom = 36;

/// What falls with a step: hand mark and name, or "keep 17 × 8 5/8".
QString fallsOf(const pages::Row& row) {
  return row.mark.isEmpty() ? row.falls : row.mark + (row.falls.isEmpty() ? "" : " " + row.falls);
}

}  // namespace

SawSheet::SawSheet(const Look& look, Unit unit, QWidget* parent)
    : QWidget(parent), look_(look), unit_(unit) {
  setAccessibleName("Cut at hand");
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void SawSheet::setBoard(const PlanSheet* sheet, const OpenedBoard* opened,
                        std::vector<std::string> cautions, const QString& why) {
  sheet_ = sheet;
  opened_ = opened;
  cautions_ = std::move(cautions);
  why_ = why;
  found_.clear();
  steps_.clear();
  if (opened != nullptr && !opened->sawn) {
    for (SawStep& step : sawSteps(opened->cutting, opened->board, sheet->job, sheet->shop)) {
      if (step.kind != Kind::remainder) steps_.push_back(std::move(step));
    }
  }
  setMade(0);
}

void SawSheet::setFound(std::vector<Defect> found) {
  found_ = std::move(found);
  update();
}

void SawSheet::setMade(int made) {
  made_ = std::clamp(made, 0, steps());
  setAccessibleDescription(sentence());
  QAccessibleEvent changed(this, QAccessible::DescriptionChanged);
  QAccessible::updateAccessibility(&changed);
  update();
}

const SawStep* SawSheet::atHand() const {
  return made_ < steps() ? &steps_[static_cast<std::size_t>(made_)] : nullptr;
}

int SawSheet::lastCut() const {
  int number = 0;
  for (int s = 0; s < made_; ++s)
    number = std::max(number, steps_[static_cast<std::size_t>(s)].number);
  return number;
}

QString SawSheet::sentence() const {
  const SawStep* step = atHand();
  if (step == nullptr) return why_;
  const pages::Row row = pages::rowOf(*step, opened_->cutting, unit_);
  QString text = row.number.isEmpty() ? row.what : "cut " + row.number + ", " + row.what;
  text += ", " + row.measure + " " + row.from;
  if (!row.chalk.isEmpty()) text += ", chalk " + row.chalk;
  if (!fallsOf(row).isEmpty()) text += ", falls " + fallsOf(row);
  return text;
}

void SawSheet::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(rect(), c.sheet);
  if (opened_ == nullptr) {
    drawText(painter, margin, 60, elided(why_, 17, true, width() - 2 * margin), 17, true, c.ink);
    return;
  }
  if (opened_->sawn) {
    drawText(painter, margin, 60, "Sawn ✓", 30, true, c.good);
    drawText(painter, margin, 88, elided(why_, 14, false, width() - 2 * margin), 14, false, c.soft);
  } else {
    paintStep(painter);
  }
  const int below = paintBoard(painter, headHeight);
  const int foot = height() - cautionsHeight();
  if (!opened_->sawn) paintNext(painter, below, foot - 8);
  paintCautions(painter, foot);
}

void SawSheet::paintStep(QPainter& painter) const {
  const Colours& c = look_.colours();
  const SawStep* step = atHand();
  if (step == nullptr) {
    drawText(painter, margin, 60, "All cuts made", 30, true, c.ink);
    drawText(painter, margin, 88, "One key more records the board as sawn.", 14, false, c.soft);
    return;
  }
  const pages::Row row = pages::rowOf(*step, opened_->cutting, unit_);
  const QPointF centre(margin + 32, 58);
  painter.setPen(Qt::NoPen);
  painter.setBrush(row.number.isEmpty() ? c.blue : c.red);
  painter.drawEllipse(centre, 32, 32);
  const QString sign = row.number.isEmpty() ? QStringLiteral("V") : row.number;
  drawText(painter, centre.x(), centre.y() + 12, sign, 34, true, c.sheet, Qt::AlignHCenter);

  // What falls stands at the right where it leaves the measure its room.
  const QString falls = fallsOf(row);
  const int fallsWidth = std::clamp(width() * 28 / 100, 200, 420);
  const int fallsAt = width() - margin - fallsWidth;
  const int left = margin + 84;
  const int room = (falls.isEmpty() ? width() - margin : fallsAt - 24) - left;
  QString what = row.what;
  if (!what.isEmpty()) what[0] = what[0].toUpper();
  drawText(painter, left, 38, elided(what, 22, true, room), 22, true, c.ink);
  drawText(painter, left, 90, row.measure, 44, true, c.blue);
  int x = left + textWidth(row.measure, 44, true) + 16;
  const int fromWidth = textWidth(row.from, 16);
  drawText(painter, x, 90, elided(row.from, 16, false, left + room - x), 16, false, c.ink);
  x += fromWidth + 22;
  if (!row.chalk.isEmpty()) {
    const int chalk = textWidth("chalk", 16) + 8;
    if (x + chalk + textWidth(row.chalk, 30, true) <= left + room) {
      drawText(painter, x, 90, "chalk", 16, false, c.soft);
      drawText(painter, x + chalk, 90, row.chalk, 30, true, c.blue);
    }
  }
  if (falls.isEmpty()) return;
  painter.setPen(QPen(c.rule, 1));
  painter.drawLine(fallsAt - 12, 20, fallsAt - 12, 100);
  drawText(painter, fallsAt, 34, "Falls", 12, false, c.soft);
  drawText(painter, fallsAt, 62,
           elided(row.mark.isEmpty() ? falls : row.mark, 22, true, fallsWidth), 22, true, c.ink);
  if (!row.mark.isEmpty()) {
    drawText(painter, fallsAt, 84, elided(row.falls, 14, false, fallsWidth), 14, false, c.ink);
  }
}

int SawSheet::paintBoard(QPainter& painter, int top) const {
  const Colours& c = look_.colours();
  const Rect bounds = boundsOf(opened_->board);
  const double long_ = static_cast<double>(bounds.dx.nm()) / 1e6;
  const double wide = static_cast<double>(bounds.dy.nm()) / 1e6;
  // Where no wood is free at the tag end, the little tag hangs out beyond it.
  const int room = width() - 2 * margin - tagRoom;
  const int most = std::max(60, (height() - headHeight - cautionsHeight()) * 2 / 5);
  pages::BoardLook look;
  look.scale = std::min(toMm(room) / long_, toMm(most) / wide);
  look.atSaw = true;
  look.pixel = toMm(1);
  const bool large = width() >= wideFrom - 400;
  look.namePoints = (large ? 20 : 15) * 72.0 / windowDpi;
  look.smallPoints = (large ? 15 : 12) * 72.0 / windowDpi;
  look.ring = toMm(large ? 13 : 10);
  look.margin = sheet_->shop.markMargin;
  for (int s = 0; s < made_; ++s) {
    look.made = std::max(look.made, steps_[static_cast<std::size_t>(s)].number);
  }
  if (opened_->sawn) look.made = opened_->cuts;
  if (const SawStep* step = atHand()) look.atHand = step->number;
  const int above = 10 + 2 * (large ? 13 : 10) + 8;
  const QPointF at(toMm(margin), toMm(top + above));
  pages::Page page;
  page.mm = QSizeF(toMm(width()), toMm(height()));
  Board shown = opened_->board;
  shown.defects.insert(shown.defects.end(), found_.begin(), found_.end());
  page.ink =
      pages::drawCutting(opened_->cutting, shown, sheet_->job, sheet_->shop, at, look, unit_);
  painter.save();
  pages::paint(page, painter, windowDpi, look_.wood(opened_->board.species));
  painter.restore();
  const int below = top + above + static_cast<int>(toPixels(wide * look.scale)) + 34;
  drawText(
      painter, margin, below,
      elided("as it lies: tag at your right and upside down, tape from the left", 12, false, room),
      12, false, c.soft);
  return below + 12;
}

int SawSheet::paintNext(QPainter& painter, int top, int foot) const {
  const Colours& c = look_.colours();
  constexpr int rowHeight = 34;
  int y = top + 26;
  if (made_ + 1 >= steps() || y + rowHeight > foot) return y;
  drawText(painter, margin, y, "Then", 17, true, c.ink);
  y += 10;
  std::vector<pages::Row> rows;
  int what = 0, measure = 0, from = 0;
  for (int s = made_ + 1; s < steps() && y + static_cast<int>(rows.size() + 1) * rowHeight < foot;
       ++s) {
    rows.push_back(pages::rowOf(steps_[static_cast<std::size_t>(s)], opened_->cutting, unit_));
    what = std::max(what, textWidth(rows.back().what, 14));
    measure = std::max(measure, textWidth(rows.back().measure, 17, true));
    from = std::max(from, textWidth(rows.back().from, 14));
  }
  const int whatAt = margin + 44, measureEnd = whatAt + what + 24 + measure;
  const int fromAt = measureEnd + 14, fallsAt = fromAt + from + 28;
  for (const pages::Row& row : rows) {
    const int base = y + 23;
    if (row.number.isEmpty()) {
      drawText(painter, margin + 14, base + 1, "V", 18, true, c.blue, Qt::AlignHCenter);
    } else {
      painter.setPen(QPen(c.red, 1.4));
      painter.setBrush(Qt::NoBrush);
      painter.drawEllipse(QPointF(margin + 14, base - 5), 11, 11);
      drawText(painter, margin + 14, base, row.number, 12, true, c.red, Qt::AlignHCenter);
    }
    drawText(painter, whatAt, base, row.what, 14, false, c.ink);
    drawText(painter, measureEnd, base, row.measure, 17, true, c.ink, Qt::AlignRight);
    drawText(painter, fromAt, base, row.from, 14, false, c.soft);
    const QString falls = row.chalk.isEmpty() ? fallsOf(row) : QString("chalk %1").arg(row.chalk);
    drawText(painter, fallsAt, base, elided(falls, 14, false, width() - margin - fallsAt), 14,
             false, c.ink);
    y += rowHeight;
    drawRule(painter, margin, y - 1, width() - margin, y - 1, c.rule);
  }
  return y;
}

int SawSheet::heightOf(const std::string& caution) const {
  const QRect room(0, 0, width() - 2 * margin - 44, 1000);
  return QFontMetrics(typeface(13)).boundingRect(room, Qt::TextWordWrap, q(caution)).height() + 4;
}

int SawSheet::cautionsHeight() const {
  if (cautions_.empty() || opened_ == nullptr || opened_->sawn) return 0;
  int high = 12;
  for (const std::string& caution : cautions_) high += heightOf(caution);
  return high;
}

void SawSheet::paintCautions(QPainter& painter, int top) const {
  const int high = cautionsHeight();
  if (high == 0) return;
  const Colours& c = look_.colours();
  const QRect band(margin, top, width() - 2 * margin, high);
  painter.fillRect(band, c.cautionBand);
  painter.fillRect(band.left(), band.top(), 4, band.height(), c.caution);
  int y = top + 8;
  for (const std::string& caution : cautions_) {
    drawText(painter, band.left() + 18, y + 12, "!", 14, true, c.caution, Qt::AlignHCenter);
    painter.setPen(c.ink);
    painter.setFont(typeface(13));
    const int each = heightOf(caution);
    painter.drawText(QRect(band.left() + 32, y, band.width() - 44, each), Qt::TextWordWrap,
                     q(caution));
    y += each;
  }
}

}  // namespace flitch::desktop
