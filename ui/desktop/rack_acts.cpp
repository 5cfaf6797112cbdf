#include <QFileDialog>
#include <algorithm>

#include "inventory/desk/count.h"
#include "inventory/desk/rack_work.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/reshape.h"
#include "inventory/desk/returns.h"
#include "ui/desktop/rack_place.h"

namespace flitch::desktop {

namespace {

void needOne(const std::vector<Board>& boards) {
  if (boards.size() == 1) return;
  throw Refusal("one-board",
                Complaint{"", "That is done to one board at a time", "", "one board chosen"});
}

}  // namespace

QString RackPlace::chosenText() const {
  const std::vector<Board> boards = selected();
  return boards.size() == 1 ? tagText(boards.front()) : QString("%1 boards").arg(boards.size());
}

void RackPlace::openLine(bool open) {
  saying_ = open;
  line_.setTitle("What was done to " + chosenText());
  lay();
  (open ? static_cast<QWidget&>(line_) : table_).setFocus(Qt::OtherFocusReason);
}

void RackPlace::doTo(const BoardWords& words) {
  using What = BoardWords::What;
  const std::vector<Board> boards = selected();
  const QString names = chosenText();
  QString tag;
  const bool kept = session_.attempt([&] {
    store::Book& book = session_.book();
    const store::Hand hand = session_.hand();
    switch (words.what) {
      case What::move:
        desk::moveTo(book, boards, desk::bayOrNew(book.read(), words.text), hand);
        break;
      case What::note: desk::note(book, boards, words.text, hand); break;
      case What::keepBack: desk::keepBack(book, boards, true, hand); break;
      case What::letGo: desk::keepBack(book, boards, false, hand); break;
      case What::reading:
        desk::takeReading(book, boards, {today(), words.tenthsPercent, words.state}, hand);
        break;
      case What::retire: desk::retire(book, boards, words.text, hand); break;
      case What::sendBack:
        needOne(boards);
        desk::sendBack(book, boards.front(), words.text, std::nullopt, hand);
        break;
      case What::newTag:
        needOne(boards);
        tag = q(text(desk::replaceTag(book, boards.front(), std::nullopt, hand).tag));
        break;
    }
  });
  if (!kept) return;
  line_.clear();
  session_.look();
  emit said(names + ": " + (tag.isEmpty() ? readingOf(words) : "has the tag " + tag + " now") + ".",
            false);
}

void RackPlace::measureAgain(bool open) {
  shaping_ = open;
  saying_ = false;
  lay();
  if (!open) view_.setFocus(Qt::OtherFocusReason);
}

void RackPlace::keepShape(const Board& board) {
  undone_.clear();
  if (session_.attempt([&] { desk::reshape(session_.book(), board, session_.hand()); })) {
    session_.look();
    emit said(tagText(board) + " is measured again: " + q(sizeText(board, session_.facts().unit)),
              false);
  }
}

void RackPlace::afterUndo() {
  if (!shownBefore_) return;
  const std::optional<Board> now = session_.book().read().board(shownBefore_->id);
  const bool drawn =
      now && (now->defects != shownBefore_->defects || now->looked != shownBefore_->looked);
  if (drawn) {
    undone_.push_back(*shownBefore_);
  } else {
    undone_.clear();
  }
}

bool RackPlace::canRedo() const {
  return !undone_.empty() && view_.board() && undone_.back().id == view_.board()->id;
}

void RackPlace::redo() {
  if (!canRedo()) return;
  Board board = *view_.board();
  board.defects = undone_.back().defects;
  board.looked = undone_.back().looked;
  undone_.pop_back();
  session_.attempt([&] { desk::survey(session_.book(), board, session_.hand()); });
}

void RackPlace::showSisters() {
  if (!model_.log().isEmpty() || !view_.board()) return;
  const QString log = q(view_.board()->log);
  filter_.setText("");
  state_.setCurrentIndex(0);
  model_.setLog(log);
  nothingFound();
  chooseRow();
  table_.setFocus(Qt::OtherFocusReason);
  emit said("Boards of log " + log + ", in sequence. Ctrl+L shows all.", false);
}

std::vector<Board> RackPlace::selected() const {
  std::vector<Board> boards;
  QModelIndexList rows = table_.selectionModel()->selectedRows();
  std::sort(rows.begin(), rows.end());
  for (const QModelIndex& row : rows) boards.push_back(model_.at(row.row()));
  return boards;
}

std::array<TitleCell, 3> RackPlace::cells() const {
  if (counting()) {
    const desk::Counted& bay = count_.counted();
    const std::size_t strange =
        bay.unexpected.size() + bay.found.size() + bay.gone.size() + bay.blank.size();
    return {TitleCell{"Counting", bay.bay.empty() ? QString("no bay yet") : "bay " + q(bay.bay),
                      150, 420},
            TitleCell{"Here",
                      QString("%1 of %2 boards")
                          .arg(bay.seen.size())
                          .arg(bay.seen.size() + bay.missing.size()),
                      230, 300},
            TitleCell{"Not expected", strange == 0 ? QString("nothing") : QString::number(strange),
                      300, 320}};
  }
  if (binning()) {
    return {TitleCell{"Bins", QString::number(bins_.count()), 150, 420},
            TitleCell{"In them, by estimate", q(text(bins_.feet())) + " bf", 230, 300},
            TitleCell{"Shown", "bins of untagged shorts", 300, 320}};
  }
  const int shown = model_.rowCount();
  const std::size_t all = model_.boards().size();
  TitleCell first{"Shown", "no boards", 150, 420};
  if (all > 0) first.value = QString("%1 of %2 boards").arg(shown).arg(all);
  if (!model_.log().isEmpty()) first.value = QString("%1 of log %2").arg(shown).arg(model_.log());
  const auto totals = [&](int count, const auto& boardAt) {
    Feet feet;
    Money value;
    for (int n = 0; n < count; ++n) {
      const Board& board = boardAt(n);
      feet += board.measuredFeet;
      value += board.cost;
    }
    return QString("%1 · %2 bf · %3")
        .arg(count == 1 ? QString("1 board") : QString("%1 boards").arg(count), q(text(feet)),
             q(text(value, session_.facts().sign)));
  };
  TitleCell second{"Selected", "nothing", 230, 300};
  const QModelIndexList rows = table_.selectionModel()->selectedRows();
  if (rows.size() > 1) {
    second.value = totals(static_cast<int>(rows.size()),
                          [&](int n) -> const Board& { return model_.at(rows[n].row()); });
  } else if (view_.board()) {
    second.value = totals(1, [&](int) -> const Board& { return *view_.board(); });
  }
  TitleCell third{"Shown in all", "nothing", 300, 320};
  if (shown > 0) {
    third.value = totals(shown, [&](int n) -> const Board& { return model_.at(n); });
  }
  return {first, second, third};
}

bool RackPlace::can(Act act) const {
  switch (act) {
    case Act::takeTally:
    case Act::bins:
    case Act::countBay: return true;
    case Act::postCount: return counting() && count_.canPost();
    default: break;
  }
  if (over_ != nullptr) return false;
  switch (act) {
    case Act::clearFilter: return !empty();
    case Act::printTags: return model_.rowCount() > 0;
    case Act::clearCuttings: {
      const desk::BoardGrade* grade = view_.board() ? grades_.known(*view_.board()) : nullptr;
      return grade != nullptr && grade->estimate;
    }
    case Act::oldestFirst: return model_.rowCount() > 0;
    case Act::addPhoto:
    case Act::sayDone:
    case Act::shape:
    case Act::warp: return view_.board().has_value();
    case Act::reprintTag: return view_.board() && view_.board()->tag;
    case Act::sisters: return view_.board() && !view_.board()->log.empty();
    case Act::photoCorners:
      return view_.board() && !session_.book().read().photos(view_.board()->id).empty();
    case Act::tallerBoard:
    case Act::lowerBoard: return view_.board().has_value() && width() < wideFrom;
    default: return !empty() && view_.can(act);
  }
}

void RackPlace::carryOut(Act act) {
  switch (act) {
    case Act::bins: showOver(binning() ? nullptr : &bins_); break;
    case Act::countBay: showOver(counting() ? nullptr : &count_); break;
    case Act::postCount: count_.post(); break;
    case Act::sayDone: openLine(!saying_); break;
    case Act::clearFilter:
      model_.setLog("");
      filter_.setText("");
      state_.setCurrentIndex(0);
      nothingFound();
      chooseRow();
      filter_.setFocus(Qt::ShortcutFocusReason);
      break;
    case Act::printTags: {
      std::vector<Board> chosen = selected();
      askToPrint(chosen.size() > 1 ? std::move(chosen) : shown());
      break;
    }
    case Act::reprintTag: askToPrint({*view_.board()}); break;
    case Act::sisters: showSisters(); break;
    case Act::oldestFirst:
      model_.setOldestFirst(!model_.oldestFirst());
      chosen_ = {};
      chooseRow();
      break;
    case Act::shape:
      measureAgain(true);
      shape_.focusOutline();
      break;
    case Act::warp:
      measureAgain(true);
      shape_.focusWarp();
      break;
    case Act::photoCorners: pullCorners(!pulling_); break;
    case Act::addPhoto: {
      const QStringList paths = QFileDialog::getOpenFileNames(
          this, "Photos of the board", QString(), "Photos (*.jpg *.jpeg *.png)");
      if (!paths.isEmpty()) keepPhotos(paths);
      break;
    }
    case Act::clearCuttings:
      cuttings_ = !cuttings_;
      showNotes();
      break;
    case Act::tallerBoard:
    case Act::lowerBoard:
      taller_ = std::clamp(taller_ + (act == Act::tallerBoard ? 27 : -27), -135, 270);
      lay();
      break;
    default: view_.carryOut(act);
  }
}

}  // namespace flitch::desktop
