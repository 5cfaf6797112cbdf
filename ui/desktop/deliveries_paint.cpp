#include <QDate>
#include <QLocale>
#include <QPainter>
#include <map>

#include "ui/desktop/deliveries_place.h"

namespace flitch::desktop {

using desk::TallyCell;

QString shortDate(const std::string& iso) {
  const QDate date = QDate::fromString(q(iso), Qt::ISODate);
  return date.isValid() ? QLocale::c().toString(date, "d MMM") : q(iso);
}

/// What is wrong with the line at hand, cells that are only empty yet left out.
QString DeliveriesPlace::fault() const {
  const auto line = static_cast<std::size_t>(grid_.line());
  if (line >= read_.lines.size()) return {};
  const desk::TypedLine& typed = sheet_.lines[line];
  for (const desk::CellFault& fault : read_.lines[line].faults) {
    if (typed.at(fault.cell).empty()) continue;
    QString text =
        typed.at(TallyCell::tag).empty() ? QString() : q(typed.at(TallyCell::tag)) + ": ";
    text += q(fault.complaint.sentence) + ".";
    if (!fault.complaint.accepted.empty())
      text += " Accepted: " + q(fault.complaint.accepted) + ".";
    return text;
  }
  return {};
}

/// What is unlikely in the line at hand, or else in the first line that is so.
QString DeliveriesPlace::caution() const {
  const auto said = [&](std::size_t line) {
    QString text = q(sheet_.lines[line].at(TallyCell::tag));
    for (const std::string& one : read_.lines[line].cautions)
      text += (text.isEmpty() ? "" : ": ") + q(one) + ".";
    return text + " Taken as written.";
  };
  const auto at = static_cast<std::size_t>(grid_.line());
  if (at < read_.lines.size() && !read_.lines[at].cautions.empty()) return said(at);
  for (std::size_t line = 0; line < read_.lines.size(); ++line)
    if (!read_.lines[line].cautions.empty()) return said(line);
  return {};
}

void DeliveriesPlace::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  drawRule(painter, listWidth, 0, listWidth, height(), c.edge);
  drawRule(painter, width() - factsWidth, 0, width() - factsWidth, height(), c.edge);
  for (const QWidget* field :
       std::initializer_list<const QWidget*>{&supplier_, &reference_, &came_, &rule_, &freight_}) {
    drawText(painter, field->x(), 20, elided(field->accessibleName(), 12, false, field->width()),
             12, false, c.soft);
  }
  paintLoads(painter);
  paintFigures(painter);
  paintHint(painter);
}

void DeliveriesPlace::paintLoads(QPainter& painter) const {
  const Colours& c = look_.colours();
  drawText(painter, 16, 31, "Deliveries", 17, true, c.ink);
  int y = 50;
  const auto row = [&](const QString& supplier, const QString& left, const QString& right,
                       bool chosen) {
    if (chosen) {
      painter.fillRect(16, y, listWidth - 28, 46, c.picked);
      painter.fillRect(16, y, 4, 46, c.blue);
    }
    drawText(painter, 26, y + 20, elided(supplier, 13, chosen, listWidth - 42), 13, chosen, c.ink);
    drawText(painter, 26, y + 37, left, 12, false, c.soft);
    drawText(painter, listWidth - 16, y + 37, right, 12, false, c.soft, Qt::AlignRight);
    y += 46;
    drawRule(painter, 16, y, listWidth - 12, y, c.rule);
    y += 1;
  };
  row(sheet_.supplier.empty() ? QString("New delivery") : q(sheet_.supplier),
      QString("tallying, %1").arg(boards()), shortDate(sheet_.receivedOn), true);
  for (const Load& load : loads_) {
    if (y + 46 > height() - 8) break;
    row(load.supplier, load.boards, load.came, false);
  }
}

void DeliveriesPlace::paintFigures(QPainter& painter) const {
  const Colours& c = look_.colours();
  const int left = width() - factsWidth + 12, right = width() - 16;
  drawText(painter, left, 31, "Billed, measured", 17, true, c.ink);
  struct Sum {
    Feet billed, measured;
  };
  std::map<std::string, Sum> kinds;
  Sum all;
  Money price, landed;
  for (const TallyFigures& board : read_.figures) {
    const TallyLine& line = read_.draft.lines[board.line];
    Sum& kind = kinds[line.species + " " + text(line.nominal)];
    for (Sum* sum : {&kind, &all}) {
      sum->billed += board.billed;
      sum->measured += board.measured;
    }
    price += board.price;
    landed += board.landed;
  }
  const int billedAt = right - 76;
  int y = 66;
  drawText(painter, left, y, "bf", 12, false, c.soft);
  drawText(painter, billedAt, y, "billed", 12, false, c.soft, Qt::AlignRight);
  drawText(painter, right, y, "measured", 12, false, c.soft, Qt::AlignRight);
  drawRule(painter, left, y + 8, right, y + 8, c.ink);
  y += 26;
  const int most = (height() - 330) / 27;
  int shown = 0;
  for (const auto& [kind, sum] : kinds) {
    if (++shown > most) break;
    drawText(painter, left, y, elided(q(kind), 13, false, billedAt - left - 56), 13, false, c.ink);
    drawText(painter, billedAt, y, q(text(sum.billed)), 13, false, c.ink, Qt::AlignRight);
    drawText(painter, right, y, q(text(sum.measured)), 13, false, c.ink, Qt::AlignRight);
    drawRule(painter, left, y + 9, right, y + 9, c.rule);
    y += 27;
  }
  drawText(painter, left, y, "All", 13, true, c.ink);
  drawText(painter, billedAt, y, q(text(all.billed)), 13, true, c.ink, Qt::AlignRight);
  drawText(painter, right, y, q(text(all.measured)), 13, true, c.ink, Qt::AlignRight);
  y += 36;
  const auto money = [&](const QString& what, Money amount, bool bold) {
    drawText(painter, left, y, what, 13, bold, c.ink);
    drawText(painter, right, y, q(text(amount, session_.facts().sign)), 13, bold, c.ink,
             Qt::AlignRight);
    y += 24;
  };
  money("Boards", price, false);
  if (landed != price) money("Freight, by value", landed - price, false);
  money("Landed", landed, true);
  if (!read_.troubles.empty()) {
    const QRect room(left, y, right - left, 60);
    painter.setPen(c.soft);
    painter.setFont(typeface(12));
    painter.drawText(room, Qt::TextWordWrap, q(read_.troubles.front()));
  }
}

void DeliveriesPlace::paintHint(QPainter& painter) const {
  const Colours& c = look_.colours();
  const int left = grid_.x(), wide = grid_.width(), top = height() - footHeight + 6;
  const QString wrong = fault();
  if (!wrong.isEmpty()) {
    const QRect band(left, top, wide, 46);
    painter.fillRect(band, c.errorBand);
    painter.fillRect(band.left(), band.top(), 4, band.height(), c.red);
    drawText(painter, band.left() + 18, band.top() + 28, "!", 17, true, c.red, Qt::AlignHCenter);
    painter.setPen(c.ink);
    painter.setFont(typeface(13));
    painter.drawText(band.adjusted(34, 4, -8, -4), Qt::TextWordWrap | Qt::AlignVCenter, wrong);
  } else if (const QString unlikely = caution(); !unlikely.isEmpty()) {
    const QRect band(left, top, wide, 46);
    painter.fillRect(band, c.cautionBand);
    painter.fillRect(band.left(), band.top(), 4, band.height(), c.caution);
    drawText(painter, band.left() + 18, band.top() + 28, "!", 17, true, c.caution,
             Qt::AlignHCenter);
    painter.setPen(c.ink);
    painter.setFont(typeface(13));
    painter.drawText(band.adjusted(34, 4, -8, -4), Qt::TextWordWrap | Qt::AlignVCenter, unlikely);
  } else {
    const bool inches = session_.facts().unit == Unit::inches;
    drawText(
        painter, left + 8, top + 20,
        elided(inches ? "Enter goes on · bare length: feet, 10-6 · bare width: inches, 7 3/8 · "
                        "marks: 12-17  60-end  good 14-78"
                      : "Enter goes on · lengths and widths in millimetres · marks: 300-430  "
                        "1500-end  good 350-2000",
               12, false, wide - 16),
        12, false, c.soft);
  }
  drawRule(painter, left, height() - 40, left + wide, height() - 40, c.ink);
  drawText(painter, left + 8, height() - 16,
           boards() == 1 ? QString("1 board") : QString("%1 boards").arg(boards()), 14, true,
           c.ink);
  if (boards() > 0) {
    drawText(painter, left + wide - 8, height() - 16, cells()[1].value + " · " + cells()[2].value,
             14, true, c.ink, Qt::AlignRight);
  }
}

}  // namespace flitch::desktop
