#include <algorithm>
#include <iterator>

#include "inventory/desk/receive.h"
#include "inventory/desk/short_of_grade.h"
#include "ui/desktop/deliveries_place.h"

namespace flitch::desktop {

void DeliveriesPlace::receive() {
  // What stands in the field counts, Enter or not.
  grid_.goTo(grid_.line(), grid_.cell());
  edit([&] {
    for (std::size_t line = 0; line < sheet_.lines.size(); ++line) {
      line += desk::spreadEqual(sheet_, line, [this] { return nextTag(); }) - 1;
    }
  });
  if (!read_.ready()) {
    emit said(read_.troubles.empty() ? QString("Nothing is tallied yet.")
                                     : q(read_.troubles.front()) + ".",
              true);
    return;
  }
  DeliveryDraft draft = read_.draft;
  const std::vector<exchange::MarkLine> marks = read_.marks;
  desk::Received received;
  const bool done =
      session_.attempt([&] { received = desk::receive(session_.book(), draft, session_.hand()); });
  if (!done) return;
  if (!marks.empty()) {
    session_.attempt([&] { desk::mark(session_.book(), marks, "tally", session_.hand()); });
  }
  sheet_ = {};
  before_.clear();
  session_.attempt(
      [&] { session_.book().saveDraft(desk::tallyDraft, session_.hand().station, ""); });
  refresh();
  session_.look();
  const std::size_t count = received.boards.size();
  QString told = QString("%1 received from %2")
                     .arg(count == 1 ? QString("1 board") : QString("%1 boards").arg(count),
                          q(draft.supplier));
  const QString shorts = q(shortOfGradeText(received.delivery));
  if (!shorts.isEmpty()) told += ". " + shorts;
  emit said(told, false);
}

std::string DeliveriesPlace::shortOfGradeText(DeliveryId delivery) const {
  const store::Snapshot now = session_.book().read();
  const std::vector<Board> rack = now.rack();
  std::vector<Board> came;
  std::copy_if(rack.begin(), rack.end(), std::back_inserter(came),
               [&](const Board& board) { return board.delivery == delivery; });
  // So few looks at each that the window does not wait.
  constexpr int aMoment = 20'000;
  return desk::sentence(desk::shortOfGrade(came, rack, aMoment), session_.facts().sign);
}

}  // namespace flitch::desktop
