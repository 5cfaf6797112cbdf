// Blanks laid by hand, pulled with the mouse or said in a line.
#include "inventory/desk/choices.h"
#include "inventory/desk/jobs.h"
#include "ui/desktop/jobs_place.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {

void JobsPlace::showSettled() {
  view_.setSettled(&settled_);
  update();
  emit cellsChanged();
}

bool JobsPlace::layByHand(const LaidByHand& laid, const std::optional<LaidByHand>& before) {
  if (session_.planning()) return false;
  SettledBoards next = settled_;
  next.lay(laid, before);
  // Framed at once, so that what cannot lie there is told before anything is planned.
  const bool lies = session_.attempt([&] {
    static_cast<void>(
        planning::frame(desk::request(session_.book(), chosen_, next.choices(trust_))));
  });
  if (!lies) return false;
  settled_ = std::move(next);
  showSettled();
  const std::optional<Board> board = session_.book().read().board(laid.board);
  emit said(q(laidText(laid, board.value(), session_.facts().unit)) +
                " is laid by hand; Ctrl+Enter plans around it.",
            false);
  return true;
}

void JobsPlace::takeUp(const LaidByHand& laid) {
  settled_.takeUp(laid);
  showSettled();
  emit said(q(partLetter(laid.line)) + " is laid by hand no more.", false);
}

std::optional<LaidByHand> JobsPlace::laidSaid() {
  const Job* j = job();
  if (j == nullptr || laying_.typed().isEmpty() || laying_.typed() == offered_) {
    laying_.tell("", false);
    return std::nullopt;
  }
  try {
    const store::Snapshot now = session_.book().read();
    const Unit unit = session_.facts().unit;
    const LaidByHand laid = desk::readLaid(laying_.typed().toStdString(), now, *j, unit);
    const Board board = now.board(laid.board).value();
    QString reading = q(partLetter(laid.line)) + " on " + tagText(board) + ", " +
                      shortText(laid.at.x, unit) + " from the tag end and " +
                      shortText(laid.at.y, unit) + " from the near edge, " +
                      shortText(laid.at.dx, unit) + " × " + shortText(laid.at.dy, unit);
    if (laid.faceUp == Face::b) reading += ", face B up";
    if (laid.frontEdge == Edge::far) reading += ", front edge at the far edge";
    laying_.tell(reading, false);
    return laid;
  } catch (const Refusal& refusal) {
    laying_.tell(refusal);
    return std::nullopt;
  }
}

void JobsPlace::openLaying(bool open) {
  layingOpen_ = open;
  const QModelIndexList rows = parts_.selectionModel()->selectedRows();
  if (open && laying_.typed().isEmpty() && chosenBoard() != nullptr && !rows.isEmpty()) {
    // The part and the board chosen, ready for the place.
    offered_ =
        q(partLetter(model_.part(rows.front().row()).line)) + "@" + tagText(chosenBoard()->board);
    laying_.setTyped(offered_ + " ");
  }
  laidSaid();
  lay();
  (open ? static_cast<QWidget&>(laying_) : shownArea()).setFocus(Qt::OtherFocusReason);
}

void JobsPlace::layAsSaid() {
  const std::optional<LaidByHand> laid = laidSaid();
  if (!laid || !layByHand(*laid, std::nullopt)) return;
  laying_.setTyped("");
  laidSaid();
}

}  // namespace flitch::desktop
