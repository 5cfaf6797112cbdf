#include "ui/desktop/rack_place.h"

#include <QPainter>
#include <QResizeEvent>
#include <QScrollBar>
#include <algorithm>

#include "inventory/desk/names.h"
#include "inventory/desk/receive.h"

namespace flitch::desktop {
namespace {

const std::vector<int> columnWidths{84, 78, 62, 90, 92,  66, 46, 116, 64,
                                    68, 60, 40, 48, 114, 58, 58, 84};
constexpr int tableWidth = 1248;

}  // namespace

RackPlace::RackPlace(Session& session, const Look& look, const Actions& actions, QWidget* parent)
    : Place(parent),
      session_(session),
      look_(look),
      model_(session.facts().unit, session.facts().sign, this),
      filter_(look, "Filter the rack", "cherry 4/4 >8' b3", "Ctrl+L clears", this),
      state_(look, "State", "", this),
      tags_(look, actions.at(Act::printTags), this),
      table_(look, "Boards on the rack", this),
      view_(look, session.facts().unit, this),
      facts_(look, session.facts().unit, session.facts().sign, this),
      bar_(look, session.facts().unit, this),
      shape_(look, session.facts().unit, this),
      corners_(look, this),
      nothing_(session, look, actions, this),
      bins_(session, look, this),
      count_(session, look, this),
      line_(look, this) {
  setAccessibleName("Rack");
  setFocusProxy(&filter_);
  state_.addItems({"State: on the rack", "State: free", "State: reserved", "State: kept back"});
  table_.setModel(&model_);
  table_.setSelectionMode(QAbstractItemView::ExtendedSelection);
  table_.sortByColumn(RackModel::tag, Qt::AscendingOrder);

  connect(&filter_, &QLineEdit::textChanged, this, [this](const QString& words) {
    model_.setFilter(words);
    nothingFound();
    chooseRow();
  });
  const auto toTable = [this] {
    if (model_.rowCount() > 0) table_.setFocus(Qt::TabFocusReason);
  };
  connect(&filter_, &QLineEdit::returnPressed, this, toTable);
  connect(&filter_, &Field::left, this, [this, toTable](int way) {
    if (way > 0) toTable();
  });
  connect(&state_, &QComboBox::currentIndexChanged, this, [this](int state) {
    model_.setState(state);
    nothingFound();
    chooseRow();
  });
  connect(table_.selectionModel(), &QItemSelectionModel::currentRowChanged, this,
          [this](const QModelIndex& now) {
            if (!now.isValid() || keeping_) return;
            view_.flush();
            chosen_ = model_.at(now.row()).id;
            showBoard(model_.at(now.row()));
          });
  connect(table_.selectionModel(), &QItemSelectionModel::selectionChanged, this, [this] {
    if (saying_) line_.setTitle("What was done to " + chosenText());
    emit cellsChanged();
  });
  connect(&table_, &SheetTable::entered, this, [this] { view_.setFocus(Qt::TabFocusReason); });
  connect(&table_, &QTableView::clicked, this, [this] { table_.setFocus(Qt::MouseFocusReason); });
  connect(&table_, &SheetTable::left, this, [this] { filter_.setFocus(Qt::BacktabFocusReason); });
  connect(&view_, &BoardView::chosenChanged, this,
          [this] { bar_.setBoard(view_.board(), view_.chosen()); });
  connect(&view_, &BoardView::edited, this, &RackPlace::keep);
  connect(&view_, &BoardView::kindChosen, &bar_, &MarkBar::setKind);
  connect(&view_, &BoardView::quickWanted, &bar_, &MarkBar::focusQuick);
  connect(&view_, &BoardView::figuresWanted, &bar_, &MarkBar::focusFigures);
  connect(&view_, &BoardView::leaveWanted, this,
          [this] { table_.setFocus(Qt::BacktabFocusReason); });
  connect(&bar_, &MarkBar::edited, &view_, &BoardView::edit);
  connect(&bar_, &MarkBar::preview, &view_, &BoardView::setPreview);
  connect(&bar_, &MarkBar::leaveWanted, this, [this] { view_.setFocus(Qt::BacktabFocusReason); });
  connect(&bar_, &MarkBar::kindWanted, this, [this](const QString& kind) {
    view_.setKind(kind.toStdString());
    for (const ActionRow& r : actionTable()) {
      if (QString(r.kind) == kind) view_.carryOut(r.act);
    }
    bar_.setKind(kind);
    view_.setFocus(Qt::OtherFocusReason);
  });
  connect(&shape_, &ShapeBar::reshaped, this, &RackPlace::keepShape);
  connect(&shape_, &ShapeBar::leaveWanted, this, [this] { measureAgain(false); });
  connect(&corners_, &CornerView::kept, this, &RackPlace::keepCorners);
  connect(&corners_, &CornerView::leaveWanted, this, [this] { pullCorners(false); });
  connect(&line_, &BoardLine::said, this, &RackPlace::doTo);
  connect(&line_, &BoardLine::left, this, [this] { openLine(false); });
  connect(&bins_, &BinsView::leaveWanted, this, [this] { showOver(nullptr); });
  connect(&count_, &CountView::leaveWanted, this, [this] { showOver(nullptr); });
  connect(&count_, &CountView::changed, this, &Place::cellsChanged);
  connect(&count_, &CountView::said, this, &Place::said);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
  connect(&grades_, &GradeWork::answered, this, &RackPlace::showNotes);
  bar_.setKind("sound knot");
  setTabOrder(&filter_, &state_);
  setTabOrder(&state_, &tags_);
  setTabOrder(&tags_, &table_);
  setTabOrder(&table_, &view_);
  refresh();
}

void RackPlace::refresh() {
  const store::Snapshot now = session_.book().read();
  shop_ = now.shop();
  own_ = now.ownSpecies();
  if (now.rack().empty()) nothing_.refresh();
  if (binning()) bins_.refresh();
  count_.refresh();
  const exchange::ReadingRules rules = session_.readingRules();
  bar_.setRules(rules);
  shape_.setRules(rules);
  keeping_ = true;
  const int scrolled = table_.verticalScrollBar()->value();
  model_.setBoards(now.rack(), shop_);
  table_.verticalScrollBar()->setValue(scrolled);
  keeping_ = false;
  nothingFound();
  chooseRow();
  lay();
}

void RackPlace::chooseRow() {
  int row = model_.rowOf(chosen_);
  if (row < 0 && model_.rowCount() > 0) row = 0;
  if (row < 0) {
    chosen_ = {};
    showBoard(std::nullopt);
  } else {
    keeping_ = true;
    table_.setCurrentIndex(model_.index(row, 0));
    keeping_ = false;
    chosen_ = model_.at(row).id;
    showBoard(model_.at(row));
  }
}

void RackPlace::showBoard(const std::optional<Board>& board) {
  if (pulling_ && (!board || !view_.board() || board->id != view_.board()->id)) {
    pulling_ = false;
    lay();
  }
  view_.setBoard(board, shop_);
  shape_.setBoard(board);
  facts_.setBoard(view_.board(), session_.book().read());
  showPhotos();
  if (board && grades_.known(*board) == nullptr) grades_.ask(*board);
  showNotes();
}

void RackPlace::showNotes() {
  std::vector<BoardNote> notes;
  std::vector<Rect> places;
  Face face = Face::a;
  if (const std::optional<Board>& board = view_.board(); board) {
    const desk::BoardGrade* grade = grades_.known(*board);
    notes = boardNotes(*board, shop_, own_, grade == nullptr ? QString("...") : q(grade->line),
                       grade != nullptr && grade->estimate.has_value(), session_.facts().unit);
    if (cuttings_ && grade != nullptr && grade->estimate) {
      places = desk::cuttingsOf(*board, *grade->estimate);
      if (grade->estimate->trial.face == 1) face = Face::b;
    }
  }
  view_.setCuttings(face, std::move(places));
  view_.setNotes(width() >= wideFrom ? std::vector<BoardNote>{} : notes);
  facts_.setNotes(std::move(notes));
  emit cellsChanged();
}

void RackPlace::nothingFound() {
  noMatch_.clear();
  if (!empty() && model_.rowCount() == 0) {
    noMatch_ = !model_.complaint().isEmpty() ? model_.complaint() + "."
               : filter_.text().isEmpty()    ? QString("No board is in this state.")
                                             : QString("No board is “%1”. Ctrl+L shows all %2.")
                                                .arg(filter_.text())
                                                .arg(model_.boards().size());
  }
  update();
  table_.setVisible(!empty() && over_ == nullptr && noMatch_.isEmpty());
}

void RackPlace::keep(const Board& board) {
  undone_.clear();
  const int mark = view_.chosen();
  // A change of the book shows the board again; after a refusal the book's own is shown.
  if (!session_.attempt([&] { desk::survey(session_.book(), board, session_.hand()); })) refresh();
  if (view_.board() && mark < static_cast<int>(view_.board()->defects.size())) view_.choose(mark);
}

void RackPlace::showOver(QWidget* view) {
  view_.flush();
  over_ = view;
  if (binning()) bins_.refresh();
  lay();
  nothingFound();
  setFocus(Qt::OtherFocusReason);
  emit cellsChanged();
}

void RackPlace::open(BoardId board) {
  if (over_ != nullptr) showOver(nullptr);
  if (model_.rowOf(board) < 0) {
    model_.setLog("");
    filter_.setText("");
    state_.setCurrentIndex(0);
  }
  const int row = model_.rowOf(board);
  if (row < 0) return;
  table_.setCurrentIndex(model_.index(row, 0));
  table_.scrollTo(model_.index(row, 0));
  view_.setFocus(Qt::OtherFocusReason);
}

bool RackPlace::find(const QString& text) {
  if (over_ != nullptr) showOver(nullptr);
  filter_.setText(text);
  table_.setFocus(Qt::OtherFocusReason);
  return model_.rowCount() > 0;
}

bool RackPlace::takeCode(const QString& code) {
  if (counting()) {
    count_.take(code);
    return true;
  }
  const TagReading reading = readTag(code.toStdString());
  const bool moves = saying_ && over_ == nullptr && !selected().empty() &&
                     reading.verdict == TagReading::Verdict::right &&
                     reading.code.kind == TagKind::bay;
  if (moves) {
    session_.attempt([&] {
      doTo({BoardWords::What::move, desk::bayNamed(session_.book().read(), code.toStdString()), 0,
            MoistureState::ready});
    });
  }
  return moves;
}

std::vector<QWidget*> RackPlace::areas() const {
  auto* self = const_cast<RackPlace*>(this);
  if (over_ != nullptr) return {over_};
  if (empty()) return {&self->nothing_};
  return {&self->filter_, &self->table_, &self->view_, self->bar_.first()};
}

void RackPlace::lay() {
  for (QWidget* view : std::initializer_list<QWidget*>{&bins_, &count_}) {
    view->setGeometry(rect());
    view->setVisible(view == over_);
  }
  nothing_.setGeometry(rect());
  nothing_.setVisible(empty() && over_ == nullptr);
  const bool none = empty() || over_ != nullptr;
  setFocusProxy(over_ != nullptr ? over_ : empty() ? static_cast<QWidget*>(&nothing_) : &filter_);
  for (QWidget* w : std::initializer_list<QWidget*>{&filter_, &state_, &tags_}) {
    w->setVisible(!none);
  }
  view_.setVisible(!none && !pulling_);
  bar_.setVisible(!none && !pulling_ && !shaping_ && !saying_);
  shape_.setVisible(!none && !pulling_ && shaping_ && !saying_);
  line_.setVisible(!none && !pulling_ && saying_);
  corners_.setVisible(!none && pulling_);
  const bool wide = width() >= wideFrom;
  facts_.setVisible(!none && wide);
  if (none) return;
  const int left = wide ? tableWidth + 16 + 16 : width();
  filter_.setGeometry(16, 12, 330, 30);
  state_.setGeometry(358, 12, 170, 30);
  const int tagsWidth = std::max(128, tags_.sizeHint().width());
  tags_.setGeometry(left - 16 - tagsWidth, 12, tagsWidth, 30);
  if (wide) {
    const int right = width() - left;
    table_.setGeometry(16, 46, tableWidth, height() - 46);
    const int board = 344;
    view_.setGeometry(left + 1, 8, right - 1, board);
    bar_.setGeometry(left + 1, 8 + board, right - 1, MarkBar::barHeight);
    facts_.setGeometry(left + 1, 8 + board + MarkBar::barHeight + 16, right - 1,
                       height() - board - MarkBar::barHeight - 24);
  } else {
    const int barTop = height() - MarkBar::barHeight;
    // The table has whole rows; what the board does not need goes to it.
    const int wanted = std::max(312, height() * 45 / 100) + taller_;
    int rows = (barTop - 46 - 28 - wanted - 11) / SheetTable::rowHeight;
    rows = std::max(2, rows);
    const int tableHeight = 28 + rows * SheetTable::rowHeight;
    table_.setGeometry(16, 46, width() - 32, tableHeight);
    const int top = 46 + tableHeight + 11;
    view_.setGeometry(0, top, width(), barTop - top);
    bar_.setGeometry(0, barTop, width(), MarkBar::barHeight);
  }
  shape_.setGeometry(bar_.geometry());
  line_.setGeometry(bar_.geometry());
  corners_.setGeometry(view_.geometry().united(bar_.geometry()));
  table_.setWidths(columnWidths);
  update();
}

void RackPlace::resizeEvent(QResizeEvent* event) {
  lay();
  // The notes stand in the line over the board, or beside it where the window is wide.
  if ((event->oldSize().width() >= wideFrom) != (width() >= wideFrom)) showNotes();
}

void RackPlace::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  if (empty() || over_ != nullptr) return;
  if (!noMatch_.isEmpty()) {
    drawText(painter, 16, 76, noMatch_, 14, true, c.ink);
  }
  if (width() >= wideFrom) {
    painter.fillRect(QRectF(tableWidth + 32, 0, 1, height()), c.edge);
  } else {
    painter.fillRect(QRectF(0, table_.geometry().bottom() + 9, width(), 1.5), c.ink);
  }
}

}  // namespace flitch::desktop
