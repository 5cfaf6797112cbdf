#include <QDate>
#include <QLocale>
#include <QPainter>
#include <cstdlib>
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
  painter.fillRect(0, 0, listWidth, height(), c.ground);
  drawText(painter, 16, 31, "Deliveries", 17, true, c.ink);
  drawRule(painter, listWidth, 0, listWidth, height(), c.edge);
  if (!tallying()) return;
  drawRule(painter, width() - factsWidth, 0, width() - factsWidth, height(), c.edge);
  for (const QWidget* field :
       std::initializer_list<const QWidget*>{&supplier_, &reference_, &came_, &rule_, &freight_}) {
    drawText(painter, field->x(), 20, elided(field->accessibleName(), 12, false, field->width()),
             12, false, c.soft);
  }
  paintFigures(painter);
  paintHint(painter);
}

namespace {

/// Wood of one species and thickness as the invoice claims it, as their rule counts it and as it
/// measures; money as claimed and as counted.
struct KindSum {
  std::optional<Feet> claimed;
  Feet billed, measured;
  std::optional<Money> asked;
  Money price;
};

/// "2.5 bf and $20.85 too much", "0.4 bf too little"; empty where nothing differs.
QString overText(std::optional<Feet> feet, std::optional<Money> money, const std::string& sign) {
  QStringList over, under;
  if (feet && feet->thousandths != 0) {
    const Feet size{std::abs(feet->thousandths)};
    (feet->thousandths > 0 ? over : under) << q(text(size)) + " bf";
  }
  if (money && *money != Money()) {
    (*money > Money() ? over : under) << q(text(*money > Money() ? *money : -*money, sign));
  }
  QStringList said;
  if (!over.isEmpty()) said << over.join(" and ") + " too much";
  if (!under.isEmpty()) said << under.join(" and ") + " too little";
  return said.join(", ");
}

}  // namespace

void DeliveriesPlace::paintFigures(QPainter& painter) const {
  const Colours& c = look_.colours();
  const std::string& sign = session_.facts().sign;
  const int left = width() - factsWidth + 12, right = width() - 16;
  drawText(painter, left, 31, "Billed, measured", 17, true, c.ink);
  std::map<std::string, KindSum> kinds;
  KindSum all;
  Money landed;
  for (const TallyFigures& board : read_.figures) {
    const TallyLine& line = read_.draft.lines[board.line];
    for (KindSum* sum : {&kinds[line.species + " " + text(line.nominal)], &all}) {
      sum->billed += board.billed;
      sum->measured += board.measured;
      sum->price += board.price;
    }
    landed += board.landed;
  }
  const bool claims = !read_.draft.claims.empty();
  for (const InvoiceClaim& claim : read_.draft.claims) {
    if (claim.species.empty()) continue;
    KindSum& sum = kinds[claim.species + " " + text(claim.nominal)];
    if (claim.feet) sum.claimed = sum.claimed.value_or(Feet{}) + *claim.feet;
    if (claim.amount) sum.asked = sum.asked.value_or(Money{}) + *claim.amount;
  }
  const int measuredAt = right, billedAt = right - (claims ? 48 : 76), claimedAt = billedAt - 50;
  int y = 66;
  drawText(painter, left, y, "bf", 12, false, c.soft);
  if (claims) drawText(painter, claimedAt, y, "invoice", 12, false, c.soft, Qt::AlignRight);
  drawText(painter, billedAt, y, claims ? "by rule" : "billed", 12, false, c.soft, Qt::AlignRight);
  drawText(painter, measuredAt, y, claims ? "meas." : "measured", 12, false, c.soft,
           Qt::AlignRight);
  drawRule(painter, left, y + 8, right, y + 8, c.ink);
  y += 26;
  const auto figures = [&](const QString& name, const KindSum& sum, bool bold) {
    const int room = (claims ? claimedAt : billedAt) - left - (claims ? 36 : 56);
    drawText(painter, left, y, elided(name, 13, bold, room), 13, bold, c.ink);
    if (sum.claimed) {
      drawText(painter, claimedAt, y, q(text(*sum.claimed)), 13, bold, c.ink, Qt::AlignRight);
    }
    drawText(painter, billedAt, y, q(text(sum.billed)), 13, bold, c.ink, Qt::AlignRight);
    drawText(painter, measuredAt, y, q(text(sum.measured)), 13, bold, c.ink, Qt::AlignRight);
  };
  const int last = height() - 330;
  for (const auto& [kind, sum] : kinds) {
    if (y > last) break;
    figures(q(kind), sum, false);
    const QString over =
        overText(sum.claimed ? std::optional(*sum.claimed - sum.billed) : std::nullopt,
                 sum.asked ? std::optional(*sum.asked - sum.price) : std::nullopt, sign);
    if (!over.isEmpty()) {
      y += 16;
      drawText(painter, left, y, elided(over, 12, false, right - left), 12, false, c.red);
    }
    drawRule(painter, left, y + 9, right, y + 9, c.rule);
    y += 27;
  }
  if (claims && read_.against.totals.size() > 4) {
    if (const auto* feet = std::get_if<Feet>(&read_.against.totals[4])) all.claimed = *feet;
  }
  figures("All", all, true);
  y += 20;
  if (claims) paintOver(painter, y);
  y += 16;
  const auto money = [&](const QString& what, Money amount, bool bold) {
    drawText(painter, left, y, what, 13, bold, c.ink);
    drawText(painter, right, y, q(text(amount, sign)), 13, bold, c.ink, Qt::AlignRight);
    y += 22;
  };
  money("Boards", all.price, false);
  for (const InvoiceLine& line : read_.draft.extras) {
    if (y > height() - 210) break;
    QString what = q(std::string(word(line.kind)));
    what[0] = what[0].toUpper();
    money(what + (line.spread == Spread::value ? ", by value" : ", by footage"), line.amount,
          false);
  }
  money("Landed", landed, true);
  if (!read_.troubles.empty()) {
    const QRect room(left, y - 8, right - left, std::max(0, invoiceKey_.y() - y));
    painter.setPen(c.soft);
    painter.setFont(typeface(12));
    painter.drawText(room, Qt::TextWordWrap, q(read_.troubles.front()));
  }
}

/// The invoice against the tally in one band.
void DeliveriesPlace::paintOver(QPainter& painter, int& y) const {
  const Colours& c = look_.colours();
  if (read_.against.totals.size() < 9) return;
  const auto* feet = std::get_if<Feet>(&read_.against.totals[5]);
  const auto* money = std::get_if<Money>(&read_.against.totals[8]);
  const QString over =
      overText(feet == nullptr ? std::nullopt : std::optional(*feet),
               money == nullptr ? std::nullopt : std::optional(*money), session_.facts().sign);
  const QRect band(width() - factsWidth + 12, y - 8, factsWidth - 28, 46);
  painter.fillRect(band, over.isEmpty() ? c.picked : c.errorBand);
  painter.fillRect(band.left(), band.top(), 4, band.height(), over.isEmpty() ? c.good : c.red);
  painter.setPen(c.ink);
  painter.setFont(typeface(13, true));
  painter.drawText(
      band.adjusted(14, 2, -6, -2), Qt::TextWordWrap | Qt::AlignVCenter,
      over.isEmpty() ? QString("✓ The invoice agrees with the tally") : "Invoiced " + over);
  y = band.bottom() + 8;
}

void DeliveriesPlace::paintHint(QPainter& painter) const {
  const Colours& c = look_.colours();
  const int left = grid_.x(), wide = grid_.width(), top = height() - footHeight + 6;
  const QString wrong = invoiceShown_ && invoice_.typing() ? invoice_.fault() : fault();
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
    const QString hint =
        invoiceShown_ && invoice_.typing()
            ? QString(
                  "Enter goes on · freight, tax, surfacing, discount, other, boards, total · "
                  "spread by feet or value · Enter in an empty line goes back")
        : inches ? QString(
                       "Enter goes on · bare length: feet, 10-6 · bare width: inches, 7 3/8 · "
                       "marks: 12-17  60-end  good 14-78 · Ctrl+T outline")
                 : QString(
                       "Enter goes on · lengths and widths in millimetres · marks: 300-430  "
                       "1500-end  good 350-2000 · Ctrl+T outline");
    drawText(painter, left + 8, top + 20, elided(hint, 12, false, wide - 16), 12, false, c.soft);
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
