#include "ui/desktop/load_view.h"

#include <QPainter>

#include "inventory/desk/claim.h"
#include "inventory/desk/load.h"
#include "inventory/desk/names.h"
#include "inventory/desk/returns.h"
#include "inventory/wood/unreadable.h"
#include "labels/report_page.h"
#include "ui/desktop/written_file.h"

namespace flitch::desktop {
namespace {

constexpr int loadHead = 66, fieldsHeight = 58, claimHead = 40;

}  // namespace

LoadView::LoadView(Session& session, const Look& look, const Actions& actions, QWidget* parent)
    : QWidget(parent),
      session_(session),
      look_(look),
      boards_(session.facts().unit, session.facts().sign, this),
      claims_(session.facts().unit, session.facts().sign, this),
      boardTable_(look, "Boards of the delivery", this),
      claimTable_(look, "What is wrong with the delivery", this),
      reason_(look, "Reason", "split at the far end", "", this),
      credit_(look, "Credit", "", "", this),
      return_(look, actions.at(Act::returnBoard), this),
      claim_(look, actions.at(Act::claimSheet), this) {
  setAccessibleName("Delivery");
  setFocusProxy(&boardTable_);
  boardTable_.setModel(&boards_);
  claimTable_.setModel(&claims_);
  connect(boardTable_.selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          &LoadView::chosenChanged);
  connect(&boardTable_, &SheetTable::entered, &reason_,
          [this] { (sentBack() ? credit_ : reason_).setFocus(Qt::OtherFocusReason); });
  connect(&boardTable_, &SheetTable::left, this, &LoadView::leaveWanted);
  connect(&claimTable_, &SheetTable::left, this, [this] { boardTable_.setFocus(); });
  connect(&reason_, &QLineEdit::returnPressed, &credit_, [this] { credit_.setFocus(); });
  connect(&credit_, &QLineEdit::returnPressed, this, &LoadView::returnBoard);
  for (Field* field : {&reason_, &credit_}) {
    connect(field, &Field::left, this, [this] { boardTable_.setFocus(); });
  }
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void LoadView::setLoad(DeliveryId delivery) {
  const int row = delivery == delivery_ ? boardTable_.currentIndex().row() : 0;
  delivery_ = delivery;
  session_.attempt([&] {
    const store::Snapshot now = session_.book().read();
    boards_.setTable(desk::loadTable(now, delivery, session_.facts().unit, session_.facts().sign));
    claims_.setTable(desk::claimSheet(now, delivery, session_.facts().unit));
  });
  boardTable_.selectRow(std::max(0, row));
  chosenChanged();
  lay();
}

std::optional<Board> LoadView::chosen() const {
  const std::vector<BoardId>& boards = boards_.boards(boardTable_.currentIndex().row());
  if (boards.empty()) return std::nullopt;
  return session_.book().read().board(boards.front());
}

bool LoadView::sentBack() const {
  const std::optional<Board> board = chosen();
  if (!board || board->onRack()) return false;
  const std::vector<BoardReturn> returns = session_.book().read().returns();
  return std::any_of(returns.begin(), returns.end(),
                     [&](const BoardReturn& one) { return one.board == board->id; });
}

void LoadView::chosenChanged() {
  const std::optional<Board> board = chosen();
  const bool back = sentBack();
  reason_.setEnabled(board && board->onRack());
  credit_.setEnabled(board && (board->onRack() || back));
  credit_.setPlaceholderText(!board ? QString()
                             : back ? QString("what came")
                                    : q(text(board->cost, session_.facts().sign)) + " expected");
  return_.setLabel(back ? QString("Credit came") : QString());
  update();
}

void LoadView::returnBoard() {
  const std::optional<Board> board = chosen();
  if (!board) return;
  const bool back = sentBack();
  std::optional<Money> amount;
  try {
    if (!credit_.text().trimmed().isEmpty()) {
      amount = parseMoney(credit_.text().trimmed().toStdString());
    }
  } catch (const Unreadable& what) {
    credit_.setTrouble(true);
    emit said(QString("%1. Accepted: %2").arg(QString(what.what()), q(what.accepted)), true);
    return;
  }
  credit_.setTrouble(back && !amount);
  if (back && !amount) {
    emit said("Type the credit that came, 0 for none.", true);
    return;
  }
  const bool done = session_.attempt([&] {
    if (back) {
      desk::credit(session_.book(), *board, *amount, today(), session_.hand());
    } else {
      desk::sendBack(session_.book(), *board, reason_.text().trimmed().toStdString(), amount,
                     session_.hand());
    }
  });
  if (!done) return;
  reason_.clear();
  credit_.clear();
  session_.look();
  emit said(q(desk::tagOf(*board)) +
                (back ? ": the credit is in the book" : " goes back to " + q(board->supplier)),
            false);
  boardTable_.setFocus();
}

void LoadView::writeClaim(const QString& path) {
  if (path.isEmpty()) return;
  const bool done = session_.attempt([&] {
    if (path.endsWith(".csv", Qt::CaseInsensitive)) return writeRows(claims_.table(), path);
    const store::Snapshot now = session_.book().read();
    std::vector<pages::PhotoPrint> photos;
    for (const desk::ClaimedPhoto& claimed : desk::claimedPhotos(now, claims_.table())) {
      photos.push_back(pages::photoPrint(now.photoBytes(claimed.photo.id), claimed.caption));
    }
    const store::BookFacts& facts = session_.facts();
    pages::writePdf(
        pages::claimPages(claims_.table(), photos, {facts.name, today(), facts.unit, facts.sign}),
        path.toStdString(), q(claims_.table().title));
  });
  if (done) emit said("Written to " + path, false);
}

void LoadView::lay() {
  const int w = width(), h = height();
  const auto rows = [](const TableModel& model) {
    return SheetTable::headHeight + model.rowCount() * SheetTable::rowHeight + 2;
  };
  const bool wrong = !claims_.table().rows.empty();
  claimTable_.setVisible(wrong);
  const int claims = wrong ? std::min(rows(claims_), std::max(110, (h - 260) / 2)) : 0;
  const int foot = claims + claimHead + 8;
  const int room = std::max(80, h - loadHead - fieldsHeight - foot);
  const int high = std::min(rows(boards_), room);
  boardTable_.setGeometry(0, loadHead, w, high);
  boardTable_.setWidths(boards_.widths(300));
  const int y = loadHead + high + 22;
  reason_.setGeometry(0, y, std::min(360, w - 380), 28);
  credit_.setGeometry(reason_.width() + 10, y, 150, 28);
  return_.setGeometry(reason_.width() + 170, y, 190, 28);
  const int below = y + 28 + claimHead;
  claimTable_.setGeometry(0, below, w, std::min(claims, h - below));
  claimTable_.setWidths(claims_.widths(300));
  claim_.setGeometry(w - 190, below - claimHead + 4, 190, 30);
  update();
}

void LoadView::resizeEvent(QResizeEvent*) { lay(); }

void LoadView::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  drawText(painter, 0, 31, elided(q(boards_.table().title), 22, true, width() - 16), 22, true,
           c.ink);
  drawText(painter, 0, 54,
           "Choose a board to send it back; a board sent back takes the credit that came.", 12,
           false, c.soft);
  drawText(painter, reason_.x(), reason_.y() - 6, "Reason", 12, false, c.soft);
  drawText(painter, credit_.x(), credit_.y() - 6,
           sentBack() ? "Credit that came" : "Credit expected", 12, false, c.soft);
  const int y = reason_.geometry().bottom() + 27;
  drawText(painter, 0, y,
           claims_.table().rows.empty()
               ? "Nothing is wrong with this load, as far as the book knows."
               : "What is wrong with it",
           claims_.table().rows.empty() ? 13 : 17, !claims_.table().rows.empty(), c.ink);
}

}  // namespace flitch::desktop
