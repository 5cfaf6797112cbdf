#include <algorithm>

#include "ui/desktop/deliveries_place.h"

namespace flitch::desktop {

std::vector<QWidget*> DeliveriesPlace::areas() const {
  auto* self = const_cast<DeliveriesPlace*>(this);
  if (!tallying()) return {&self->list_, &self->load_};
  std::vector<QWidget*> all{&self->list_, &self->supplier_, &self->grid_};
  if (invoiceShown_) all.push_back(&self->invoice_);
  all.push_back(&self->receive_);
  return all;
}

std::array<TitleCell, 3> DeliveriesPlace::cells() const {
  if (!tallying()) {
    const Table& claim = load_.claim();
    return {TitleCell{"Delivery", load_.title(), 220, 320},
            TitleCell{"Boards", QString::number(load_.boards()), 170, 240},
            TitleCell{"Wrong with it",
                      claim.rows.empty() ? QString("nothing known")
                                         : QString("%1 lines").arg(claim.rows.size()),
                      110, 160}};
  }
  Feet billed, measured;
  Money landed;
  for (const TallyFigures& board : read_.figures) {
    billed += board.billed;
    measured += board.measured;
    landed += board.landed;
  }
  const QString name = sheet_.supplier.empty() ? QString("not named yet") : q(sheet_.supplier);
  return {TitleCell{"Delivery", name + ", " + shortDate(sheet_.receivedOn), 220, 320},
          TitleCell{"Billed · measured", q(text(billed)) + " bf · " + q(text(measured)) + " bf",
                    170, 240},
          TitleCell{"Landed", q(text(landed, session_.facts().sign)), 110, 160}};
}

void DeliveriesPlace::lay() {
  const int w = width(), h = height();
  const int left = listWidth + 14, right = w - factsWidth - 1;
  const int room = right - left - 12;
  int x = left;
  const std::array<std::pair<QWidget*, int>, 5> head{
      {{&supplier_, 26}, {&reference_, 14}, {&came_, 16}, {&rule_, 25}, {&freight_, 19}}};
  for (const auto& [field, share] : head) {
    const int wide = (room - 4 * 10) * share / 100;
    field->setGeometry(x, 27, wide, 28);
    x += wide + 10;
  }
  const bool here = tallying();
  for (QWidget* each :
       std::initializer_list<QWidget*>{&supplier_, &reference_, &came_, &rule_, &freight_, &grid_,
                                       &receive_, &repeat_, &remove_, &invoiceKey_}) {
    each->setVisible(here);
  }
  const bool asked = here && invoiceShown_;
  const int rows = std::max(60, h - headHeight - footHeight - (asked ? invoiceHeight + 12 : 0));
  grid_.setGeometry(left, headHeight, room, rows);
  invoice_.setVisible(asked);
  invoice_.setGeometry(left, headHeight + rows + 12, room, invoiceHeight);
  load_.setVisible(!here);
  load_.setGeometry(left, 0, w - left - 16, h);
  setFocusProxy(here ? static_cast<QWidget*>(&grid_) : &load_);
  list_.setGeometry(
      12, 46, listWidth - 20,
      std::min(h - 54, static_cast<int>(list_.rows().size()) * ReportList::rowHeight));
  const int facts = w - factsWidth + 12, wide = factsWidth - 28;
  receive_.setGeometry(facts, h - 44, wide, 30);
  invoiceKey_.setGeometry(facts, h - 155, wide, 30);
  repeat_.setGeometry(facts, h - 118, wide, 30);
  remove_.setGeometry(facts, h - 81, wide, 30);
  update();
}

}  // namespace flitch::desktop
