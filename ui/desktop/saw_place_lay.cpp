#include <QPainter>
#include <algorithm>
#include <array>

#include "inventory/desk/saw_paper.h"
#include "ui/desktop/saw_place.h"

namespace flitch::desktop {

void SawPlace::lay() {
  for (QWidget* widget :
       std::initializer_list<QWidget*>{&job_, &list_, &view_, &all_, &cut_, &knot_, &lost_,
                                       &offcut_, &other_, &back_, &next_}) {
    widget->setVisible(!onPaper_ && (widget != &job_ || !jobs_.empty()));
  }
  if (!changesTable_.isHidden()) view_.setVisible(false);
  const bool otherwise = atOpenBoard() && (bar_.typing() || !bar_.typed().isEmpty());
  const bool spoiling = bar_.about() == SawLine::About::spoiled && bar_.typing();
  bar_.setVisible(!onPaper_ && (otherwise || spoiling));
  paper_.setVisible(onPaper_);
  enter_.setVisible(onPaper_);
  if (onPaper_) {
    layPaper();
    return;
  }
  const int h = height(), w = width();
  job_.setGeometry(16, 12, listWidth - 32, 30);
  fromPaper_.setLabel({});
  all_.setGeometry(16, h - 104, listWidth - 32, 40);
  fromPaper_.setGeometry(16, h - 56, listWidth - 32, 40);
  list_.setGeometry(16, 84, listWidth - 32, std::max(40, h - 84 - 120));
  const int bar = bar_.isHidden() ? 0 : SawLine::barHeight;
  const int band = band_.isHidden() ? 0 : band_.heightFor(w - listWidth);
  bar_.setGeometry(listWidth + 1, h - footHeight - bar, w - listWidth - 1, bar);
  band_.setGeometry(listWidth, h - footHeight - bar - band, w - listWidth, band);
  const QRect board(listWidth + 1, 0, w - listWidth - 1, h - footHeight - bar - band - 4);
  view_.setGeometry(board);
  changesTable_.setGeometry(board.adjusted(24, 16, -24, 0));
  changesTable_.setWidths(changes_.widths(board.width() * 2 / 5));
  layKeys();
  update();
}

void SawPlace::layPaper() {
  const int h = height(), w = width();
  const int band = band_.isHidden() ? 0 : band_.heightFor(w);
  band_.setGeometry(0, h - footHeight - band, w, band);
  paper_.setGeometry(16, 50, w - 32, h - 50 - footHeight - band - 4);
  enter_.setGeometry(16, h - 52, std::max(330, enter_.sizeHint().width()), 40);
  fromPaper_.setLabel("Back");
  fromPaper_.setGeometry(w - 16 - 150, 10, 150, 30);
  update();
}

/// The keys along the foot; where room is short the last ones stand without their letters.
void SawPlace::layKeys() {
  constexpr int gap = 8;
  const std::array buttons{&cut_, &knot_, &lost_, &offcut_, &other_, &back_, &next_};
  const int room = width() - listWidth - 48;
  const auto wide = [&] {
    int sum = static_cast<int>(buttons.size() - 1) * gap;
    for (const Button* button : buttons) sum += button->sizeHint().width();
    return sum;
  };
  for (Button* button : buttons) button->setKeyShown(true);
  for (auto last = buttons.rbegin(); last != buttons.rend() - 1 && wide() > room; ++last) {
    (*last)->setKeyShown(false);
  }
  const int spare = std::max(0, std::min(room - wide(), 90));
  int x = listWidth + 24;
  for (Button* button : buttons) {
    const int each = button->sizeHint().width() + (button == &cut_ ? spare : 0);
    button->setGeometry(x, height() - 52, each, 40);
    x += each + gap;
  }
}

void SawPlace::resizeEvent(QResizeEvent*) { lay(); }

void SawPlace::paintPaper(QPainter& painter) const {
  const Colours& c = look_.colours();
  drawText(painter, 16, 32, "From paper", 22, true, c.ink);
  drawText(painter, 32 + textWidth("From paper", 22, true), 32,
           elided("type only what went otherwise; an empty line means: as planned", 13, false,
                  width() - 380),
           13, false, c.soft);
  drawRule(painter, 0, height() - footHeight, width(), height() - footHeight, c.edge);
  const int after = enter_.x() + enter_.width() + 20;
  painter.setFont(typeface(12));
  painter.setPen(c.soft);
  painter.drawText(QRect(after, height() - footHeight + 4, width() - after - 16, footHeight - 8),
                   Qt::TextWordWrap | Qt::AlignVCenter,
                   QString("Nothing is booked before this key. ") + desk::paperWords +
                       "; marks from the fresh end.");
}

void SawPlace::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  if (onPaper_) {
    paintPaper(painter);
    return;
  }
  drawRule(painter, listWidth, 0, listWidth, height(), c.edge);
  drawRule(painter, listWidth, height() - footHeight, width(), height() - footHeight, c.edge);
  drawText(painter, 16, 70, "Pull list", 17, true, c.ink);
  if (!sheet_) return;
  const auto count = static_cast<int>(sheet_->boards.size());
  const std::size_t left = fetched_.left();
  QString boards = count == 1 ? QString("1 board") : QString("%1 boards").arg(count);
  if (left > 0 && left < fetched_.lines.size()) boards += QString(", %1 to fetch").arg(left);
  drawText(painter, listWidth - 16, 70, boards, 13, false, c.soft, Qt::AlignRight);
}

}  // namespace flitch::desktop
