#include "ui/desktop/jobs_place.h"

#include <QDate>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QPainter>
#include <algorithm>
#include <numeric>

#include "inventory/desk/beside.h"
#include "inventory/desk/jobs.h"
#include "inventory/desk/saw.h"
#include "inventory/exchange/columns.h"
#include "inventory/wood/tag_code.h"
#include "labels/cut_sheet.h"
#include "labels/glue_up_sheet.h"
#include "labels/label_stock.h"
#include "labels/part_labels.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
JobsPlace::JobsPlace(Session& session, const Look& look, const Actions& actions, QWidget* parent)
    : Place(parent),
      session_(session),
      look_(look),
      actions_(actions),
      model_(session.facts().unit, this),
      choice_(look, "Job", "", this),
      parts_(look, this),
      head_(look, actions, session.facts().sign, this),
      band_(look, this),
      view_(look, session.facts().unit, session.facts().sign, this),
      panels_(session, look, this),
      naming_(look, this),
      laying_(look, this),
      price_(look, actions, session.facts().unit, session.facts().sign, this),
      besideModel_(session.facts().unit, session.facts().sign, this),
      beside_(look, "Two plans side by side", this),
      facts_(look, session.facts().unit, session.facts().sign, this),
      take_(look, actions.at(Act::takeJob), this) {
  setAccessibleName("Jobs");
  setFocusProxy(&parts_);
  take_.setPrimary(true);
  parts_.setParts(&model_);
  choice_.setHeading(true);
  connect(&choice_, &QComboBox::activated, this,
          [this](int i) { showJob(jobs_[static_cast<std::size_t>(i)].id); });
  connect(parts_.selectionModel(), &QItemSelectionModel::selectionChanged, this, [this] {
    const QModelIndexList rows = parts_.selectionModel()->selectedRows();
    const bool none = rows.isEmpty() || model_.isNew(rows.front().row());
    view_.setChosenLine(none ? 0 : model_.part(rows.front().row()).line);
  });
  // Later than the view, which still has the field of the cell open.
  connect(&model_, &PartsModel::typedOver, this, &JobsPlace::changePart, Qt::QueuedConnection);
  connect(&model_, &PartsModel::newTyped, this, &JobsPlace::addPart, Qt::QueuedConnection);
  beside_.setModel(&besideModel_);
  beside_.setSortingEnabled(false);
  connect(&beside_, &SheetTable::left, this, [this] { parts_.setFocus(); });
  view_.setSettled(&settled_);
  connect(&view_, &PlanView::currentChanged, this, &JobsPlace::cellsChanged);
  connect(&view_, &PlanView::boardWanted, this, &JobsPlace::boardWanted);
  connect(&panels_, &GlueView::said, this, &Place::said);
  connect(&panels_, &GlueView::changedOrKept, this, &Place::cellsChanged);
  connect(&panels_, &GlueView::leaveWanted, this, [this] { turnTo(Shown::boards); });
  connect(&view_, &PlanView::layWanted, this, &JobsPlace::layByHand);
  connect(&view_, &PlanView::takeUpWanted, this, &JobsPlace::takeUp);
  laying_.setAbout("Lay a blank by hand", "C@T0042-F 12,1 1/2",
                   "PART@TAG, then its corner nearest the tag end and the near edge; ,B for face B "
                   "up, ,far for the front edge at the far edge. Or pull a blank with the mouse.");
  titleName();
  connect(&naming_, &SaidLine::entered, this,
          [this] { firstPart_ ? readFirstPart() : namePasted(); });
  connect(&naming_, &SaidLine::left, this, &JobsPlace::dropPasted);
  connect(&laying_, &SaidLine::edited, this, &JobsPlace::laidSaid);
  connect(&laying_, &SaidLine::entered, this, &JobsPlace::layAsSaid);
  connect(&laying_, &SaidLine::left, this, [this] { openLaying(false); });
  connect(&band_, &Band::changed, this, &JobsPlace::lay);
  connect(&session_, &Session::planProgressed, this, &JobsPlace::showPlanning);
  connect(&session_, &Session::planEnded, this, [this] {
    clock_.stop();
    refresh();
  });
  clock_.setInterval(100);
  connect(&clock_, &QTimer::timeout, this, &JobsPlace::showPlanning);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
  parts_.setFocus();
  refresh();
}

const Job* JobsPlace::job() const {
  const auto found =
      std::find_if(jobs_.begin(), jobs_.end(), [this](const Job& j) { return j.id == chosen_; });
  return found == jobs_.end() ? nullptr : &*found;
}

void JobsPlace::refresh() {
  const store::Snapshot now = session_.book().read();
  jobs_ = now.jobs();
  shop_ = now.shop();
  if (job() == nullptr) chosen_ = jobs_.empty() ? JobId{} : jobs_.back().id;
  choice_.clear();
  for (const Job& j : jobs_) choice_.addItem(q(j.name));
  if (const Job* now_ = job(); now_ != nullptr) {
    choice_.setCurrentIndex(static_cast<int>(now_ - jobs_.data()));
  }
  readJob();
}

void JobsPlace::showJob(JobId which) {
  chosen_ = which;
  band_.close();
  refresh();
}

void JobsPlace::readJob() {
  const int row = parts_.currentIndex().row();
  sheet_.reset();
  view_.setSheet(nullptr);
  facts_.setSheet(nullptr);
  if (const Job* j = job(); j != nullptr) {
    session_.attempt([&] {
      sheet_ =
          planSheet(session_.book().read(), j->id, session_.facts().sign, session_.facts().unit);
    });
    const std::vector<Species> own = session_.book().read().ownSpecies();
    model_.setJob(*j, shop_, sheet_ ? sheet_->plan.shorts : std::vector<ShortPart>{}, own);
    const Season season = seasonOf(shop_);
    facts_.setYear({movements(*j, own, season, session_.facts().unit),
                    finishedKilograms(*j, own, season.made), season});
    if (row >= 0 && row < model_.rowCount()) parts_.selectRow(row);
  } else {
    model_.setJob({}, shop_, {});
  }
  // What was settled since stands until there is another plan.
  const std::pair newest(chosen_, sheet_ ? sheet_->plan.id : PlanId{});
  if (newest != settledFrom_) settled_.read(sheet_ ? sheet_->plan.choices : Choices{});
  settledFrom_ = newest;
  if (sheet_) {
    view_.setSheet(&*sheet_);
    facts_.setSheet(&*sheet_);
  }
  panels_.setSheet(sheet_ ? &*sheet_ : nullptr);
  if (shown_ == Shown::panels && !panels_.any()) shown_ = Shown::boards;
  readPrice();
  readBeside();
  showPlanning();
  lay();
  emit cellsChanged();
}

void JobsPlace::showPlanning() {
  if (session_.planning() && session_.planningJob() == chosen_) {
    if (!clock_.isActive()) {
      since_.start();
      clock_.start();
    }
    head_.showProgress(session_.sentence(), session_.steps(), shop_,
                       static_cast<double>(since_.elapsed()) / 1000, session_.stopping());
  } else if (sheet_) {
    const Planned* planned = session_.planned(sheet_->plan.id);
    head_.showPlan(*sheet_, planned == nullptr ? std::vector<Step>{} : planned->steps);
  } else {
    const Job* j = job();
    head_.showNothing(j == nullptr       ? QString()
                      : j->parts.empty() ? QString("No parts yet.")
                                         : QString("Not planned yet."));
  }
  emit cellsChanged();
}

std::array<TitleCell, 3> JobsPlace::cells() const {
  const Job* j = job();
  TitleCell first{"Job", j == nullptr ? QString("none") : q(j->name), 250, 420};
  if (j != nullptr && !j->customer.empty()) first.value += ", " + q(j->customer);
  TitleCell second{"Wood in this plan", "not planned", 190, 300};
  if (sheet_) {
    second.value =
        QString("%1 boards · %2 bf").arg(sheet_->boards.size()).arg(q(text(sheet_->feet)));
  }
  return {first, second, {"Drawn", sheet_ ? "face A up · tag end left" : "none", 220, 320}};
}

bool JobsPlace::can(Act act) const {
  const Job* j = job();
  switch (act) {
    case Act::takeJob: return true;
    case Act::nextJob: return jobs_.size() > 1;
    case Act::newJob:
    case Act::pasteParts: return !session_.planning();
    case Act::plan: return j != nullptr && !j->parts.empty() && !session_.planning();
    case Act::stop: return session_.planning();
    case Act::trustUnseen: return j != nullptr && !session_.planning();
    case Act::lockBoard:
    case Act::pinBoard:
    case Act::keepOutBoard: return chosenBoard() != nullptr && !session_.planning();
    case Act::settleNothing: return settled_.any() && !session_.planning();
    case Act::layByHand:
      return j != nullptr && !estimate_ && shown_ == Shown::boards && !session_.planning();
    case Act::curves:
      return session_.planning() || (sheet_ && session_.planned(sheet_->plan.id) != nullptr);
    case Act::partLabels:
    case Act::cutSheets: return sheet_ && !sheet_->boards.empty() && !session_.planning();
    case Act::sawAsPlanned: return sheet_ && sheet_->unsawn() > 0 && !session_.planning();
    case Act::price:
    case Act::takeLines: return j != nullptr && !session_.planning();
    case Act::twoPlans: return plans_ > 1 && !session_.planning();
    case Act::panels: return panels_.any() && !session_.planning();
    case Act::estimate:
    case Act::quote: return estimate_.has_value() && !session_.planning();
    default: return false;
  }
}

void JobsPlace::carryOut(Act act) {
  switch (act) {
    case Act::takeJob: takeJob(); break;
    case Act::newJob: askFirstPart(); break;
    case Act::pasteParts: pasteParts(); break;
    case Act::nextJob: {
      const Job* j = job();
      showJob(jobs_[(static_cast<std::size_t>(j - jobs_.data()) + 1) % jobs_.size()].id);
      break;
    }
    case Act::plan: {
      band_.close();
      session_.plan(chosen_, settled_.choices(trust_), seconds_, 1);
      break;
    }
    case Act::stop: session_.stop(); break;
    case Act::trustUnseen: setTrust(!trust_); break;
    case Act::lockBoard: settle(Settled::locked); break;
    case Act::pinBoard: settle(Settled::pinned); break;
    case Act::keepOutBoard: settle(Settled::keptOut); break;
    case Act::settleNothing:
      settled_.clear();
      showSettled();
      emit said("The next plan chooses freely.", false);
      break;
    case Act::layByHand: openLaying(!layingOpen_); break;
    case Act::curves:
      head_.setCurves(!head_.curvesOpen());
      lay();
      break;
    case Act::cutSheets: cutSheets(); break;
    case Act::partLabels: partLabels(); break;
    case Act::sawAsPlanned: askSaw(); break;
    case Act::price: turnTo(shown_ == Shown::price ? Shown::boards : Shown::price); break;
    case Act::panels: turnTo(shown_ == Shown::panels ? Shown::boards : Shown::panels); break;
    case Act::twoPlans: turnTo(shown_ == Shown::twoPlans ? Shown::boards : Shown::twoPlans); break;
    case Act::estimate: writeEstimate(pdfPath("Estimate", " estimate")); break;
    case Act::quote: askQuote(); break;
    case Act::takeLines:
      takeLines(
          QFileDialog::getOpenFileName(this, "Take in other lines", QString(), "Lines (*.csv)"));
      break;
    default: break;
  }
}

void JobsPlace::setTrust(bool trust) {
  trust_ = trust;
  actions_.at(Act::trustUnseen)
      ->setText(trust_ ? QString("Unseen faces trusted") : QString(row(Act::trustUnseen).name));
  emit said(trust_ ? "The next plan takes faces nobody has looked at for clear."
                   : "The next plan puts hidden parts alone on faces nobody has looked at.",
            false);
}

const OpenedBoard* JobsPlace::chosenBoard() const {
  if (!sheet_ || view_.current() < 0) return nullptr;
  const OpenedBoard& board = sheet_->boards[static_cast<std::size_t>(view_.current())];
  return board.sawn ? nullptr : &board;
}

void JobsPlace::settle(Settled settled) {
  const OpenedBoard* board = chosenBoard();
  if (board == nullptr) return;
  settled_.toggle(board->cutting, settled);
  showSettled();
  const QString now = word(settled_.of(board->board.id));
  emit said(now.isEmpty() ? QString("%1 is free for the next plan.").arg(tagText(board->board))
                          : QString("%1: %2 in the next plan.").arg(tagText(board->board), now),
            false);
}

bool JobsPlace::find(const QString& text) {
  const TagReading reading = readTag(text.toStdString());
  const bool sure = reading.verdict == TagReading::Verdict::right ||
                    reading.verdict == TagReading::Verdict::noCheck;
  if (!sheet_ || !sure) return false;
  const std::optional<Board> wears = session_.book().read().boardByTag(reading.code);
  if (!wears) return false;
  for (std::size_t i = 0; i < sheet_->boards.size(); ++i) {
    if (sheet_->boards[i].board.id == wears->id) {
      view_.setCurrent(static_cast<int>(i));
      view_.setFocus(Qt::OtherFocusReason);
      return true;
    }
  }
  return false;
}

std::vector<QWidget*> JobsPlace::areas() const {
  auto* self = const_cast<JobsPlace*>(this);
  return {&self->parts_, &self->head_, &self->shownArea()};
}

QWidget& JobsPlace::shownArea() {
  if (estimate_) return price_;
  if (shown_ == Shown::twoPlans) return beside_;
  if (shown_ == Shown::panels) return panels_;
  return view_;
}

void JobsPlace::turnTo(Shown shown) {
  shown_ = shown;
  readJob();
  shownArea().setFocus();
}

void JobsPlace::readBeside() {
  const Job* j = job();
  plans_ = 0;
  if (j != nullptr) {
    session_.attempt([&] {
      const store::Snapshot now = session_.book().read();
      plans_ = now.plans(j->id).size();
      if (shown_ != Shown::twoPlans || plans_ < 2) return;
      const auto& [unit, sign] = std::pair(session_.facts().unit, session_.facts().sign);
      besideModel_.setTable(desk::sideBySide(desk::plansBeside(now, *j, unit), unit, sign));
    });
  }
  if (shown_ == Shown::twoPlans && plans_ < 2) shown_ = Shown::boards;
}

void JobsPlace::takeJob() {
  const QString path =
      QFileDialog::getOpenFileName(this, "Take in a job", QString(), "Parts (*.csv)");
  if (path.isEmpty()) return;
  session_.attempt([&] {
    Job added;
    exchange::ReadingRules rules = session_.readingRules();
    const QFileInfo file(path);
    const QString sizes = file.dir().filePath(file.completeBaseName() + "-sizes.csv");
    if (QFileInfo::exists(sizes)) {
      added.sizes = exchange::readSizes(exchange::readCsvFile(sizes.toStdString()), rules).rows;
      for (const NamedSize& size : added.sizes) rules.sizes.push_back(size.name);
    }
    const auto taken = exchange::readParts(exchange::readCsvFile(path.toStdString()), rules);
    added.name = file.completeBaseName().toStdString();
    added.parts = taken.rows;
    chosen_ = desk::addJob(session_.book(), added, session_.hand());
    for (const std::string& warning : taken.warnings) emit said(q(warning), false);
  });
}

void JobsPlace::cutSheets() {
  const QString path = QFileDialog::getSaveFileName(
      this, "Cut sheets", q(sheet_->job.name) + ".pdf", "Portable document (*.pdf)");
  if (path.isEmpty()) return;
  session_.attempt([&] {
    std::vector<Board> boards;
    for (const OpenedBoard& b : sheet_->boards) boards.push_back(b.board);
    pages::CutSheetFacts facts;
    facts.sentence = sheet_->sentence;
    facts.planned = QDate::currentDate().toString("d MMM yyyy").toStdString();
    facts.unit = session_.facts().unit;
    facts.sign = session_.facts().sign;
    facts.ownSpecies = session_.book().read().ownSpecies();
    std::vector<std::string> notes;
    for (const QString& caution : cautionsOf(*sheet_)) notes.push_back(caution.toStdString());
    std::vector<pages::Page> pages{
        pages::planSummary(sheet_->plan, boards, sheet_->job, sheet_->shop, facts, notes)};
    for (pages::Page& page :
         pages::cutSheets(sheet_->plan, boards, sheet_->job, sheet_->shop, facts)) {
      pages.push_back(std::move(page));
    }
    for (pages::Page& page :
         pages::glueUpSheets(sheet_->plan, boards, sheet_->job, sheet_->shop, facts)) {
      pages.push_back(std::move(page));
    }
    pages::writePdf(pages, path.toStdString(), q(sheet_->job.name));
    emit said(QString("%1 sheets written to %2").arg(pages.size()).arg(path), false);
  });
}

void JobsPlace::partLabels() {
  const QString path = QFileDialog::getSaveFileName(
      this, "Part labels", q(sheet_->job.name) + " labels.pdf", "Portable document (*.pdf)");
  if (!path.isEmpty()) writePartLabels(path);
}

void JobsPlace::writePartLabels(const QString& path) {
  session_.attempt([&] {
    std::vector<Board> boards;
    for (const OpenedBoard& b : sheet_->boards) boards.push_back(b.board);
    const pages::LabelStock* stock = pages::findLabelStock("a4-3x8");
    std::vector<pages::Page> labels;
    for (const pages::PartLabel& label : pages::partLabels(sheet_->plan, boards, sheet_->job,
                                                           sheet_->shop, session_.facts().unit)) {
      labels.push_back(pages::partLabel(label, *stock));
    }
    pages::writePdf(pages::impose(labels, *stock), path.toStdString(), q(sheet_->job.name));
    emit said(QString("%1 part labels written to %2").arg(labels.size()).arg(path), false);
  });
}

void JobsPlace::askSaw() {
  const std::size_t count = sheet_->unsawn();
  std::size_t offcuts = 0;
  for (const OpenedBoard& b : sheet_->boards) {
    if (b.sawn) continue;
    offcuts += static_cast<std::size_t>(
        std::count_if(b.cutting.pieces.begin(), b.cutting.pieces.end(),
                      [](const Piece& p) { return p.kind == PieceKind::offcut; }));
  }
  QString what = count == 1 ? QString("1 board") : QString("%1 boards").arg(count);
  what += " as sawn as drawn";
  if (offcuts == 1) what += ", and 1 offcut as kept with a tag of its own";
  if (offcuts > 1) what += QString(", and %1 offcuts as kept with tags of their own").arg(offcuts);
  const QString sentence =
      QString("Record %1? Undo takes it back while nothing stands on it.").arg(what);
  band_.ask(sentence, "Record as sawn", [this] {
    session_.attempt([this] { desk::sawAsPlanned(session_.book(), chosen_, {}, session_.hand()); });
  });
}

QRect JobsPlace::boardsHead() const { return {view_.x(), view_.y() - 32, view_.width(), 32}; }

void JobsPlace::lay() {
  const bool none = jobs_.empty();
  for (QWidget* w : std::initializer_list<QWidget*>{&parts_, &head_}) w->setVisible(!none);
  for (QWidget* w : std::initializer_list<QWidget*>{&view_, &price_, &beside_, &panels_}) {
    w->setVisible(!none && w == &shownArea());
  }
  take_.setVisible(none);
  choice_.setVisible(jobs_.size() > 1);
  const bool wide = width() >= wideFrom;
  facts_.setVisible(!none && wide);
  naming_.setVisible(firstPart_ || !pasted_.empty());
  naming_.setGeometry(0, height() - SaidLine::barHeight - 8, width(), SaidLine::barHeight + 8);
  naming_.raise();
  if (none) {
    laying_.setVisible(false);
    band_.setGeometry(0, 0, width(), 0);
    take_.setGeometry((width() - 268) / 2, height() / 2 + 40, 268, 40);
    update();
    return;
  }
  const int left = partsWidth(), side = wide ? 24 : 16;
  choice_.setGeometry(side - 4, 12, left - 2 * side + 8, 34);
  parts_.setWide(wide);
  // Whole rows only.
  const int rows = (height() - 46 - 54 - PartsView::headHeight) / parts_.partHeight();
  parts_.setGeometry(side, 46, left - 2 * side,
                     PartsView::headHeight + std::max(1, rows) * parts_.partHeight());
  const int right = wide ? 536 : 0;
  const int middle = width() - left - right - 1;
  head_.setGeometry(left + 1, 0, middle, 144);
  head_.setGeometry(left + 1, 0, middle, head_.wantedHeight());
  int y = head_.height();
  const int bandHeight = band_.isHidden() ? 0 : band_.heightFor(middle);
  band_.setGeometry(left + 1, y, middle, bandHeight);
  y += bandHeight + 1 + 32;
  laying_.setVisible(layingOpen_ && &shownArea() == &view_);
  const int foot = laying_.isVisibleTo(this) ? SaidLine::barHeight + 8 : 0;
  laying_.setGeometry(left + 1, height() - foot, middle, SaidLine::barHeight);
  view_.setGeometry(left + 1, y, middle, height() - y - foot);
  panels_.setGeometry(left + 1, y - 32, middle, height() - y + 32);
  price_.setGeometry(left + 1, y - 32, middle, height() - y + 32);
  // No wider and no higher than its rows, so that the figures stand beside each other.
  const std::vector<int> columns = besideModel_.widths(420);
  beside_.setGeometry(
      left + 21, y, std::min(middle - 41, std::accumulate(columns.begin(), columns.end(), 2)),
      std::min(height() - y,
               SheetTable::headHeight + besideModel_.rowCount() * SheetTable::rowHeight + 2));
  beside_.setWidths(columns);
  facts_.setGeometry(width() - right, 0, right, height());
  update();
}

void JobsPlace::resizeEvent(QResizeEvent*) { lay(); }

void JobsPlace::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  const Job* j = job();
  if (j == nullptr) {
    drawText(painter, width() / 2.0, height() / 2.0 - 20, "No jobs yet", 30, true, c.ink,
             Qt::AlignHCenter);
    drawText(painter, width() / 2.0, height() / 2.0 + 14,
             "A job is a list of parts: part, count, length, width, thickness, species. Type them "
             "(Ctrl+N), paste them from a spreadsheet (Ctrl+V), or take in a CSV file.",
             14, false, c.ink, Qt::AlignHCenter);
    return;
  }
  const int left = partsWidth(), side = width() >= wideFrom ? 24 : 16;
  if (jobs_.size() == 1) {
    const QString name = elided(q(j->name), 22, true, left - 2 * side - 120);
    drawText(painter, side, 34, name, 22, true, c.ink);
    const int x = side + textWidth(name, 22, true) + 16;
    if (!j->customer.empty()) {
      drawText(painter, x, 34, elided("for " + q(j->customer), 13, false, left - side - x), 13,
               false, c.soft);
    }
  }
  const int foot = height() - 44;
  drawRule(painter, side, foot - 7, left - side, foot - 7, c.rule);
  drawAsksLegend(painter, side, foot, 14, c);
  drawText(painter, side, foot + 34, "A on top, B below, front edge left.", 12, false, c.soft);
  QString placed;
  QColor tone = c.ink;
  if (sheet_) {
    const std::size_t bad = sheet_->plan.shorts.size(), waits = sheet_->plan.waiting.size();
    if (bad == 0 && waits == 0) {
      placed = QString("✓ All %1 parts placed.").arg(j->parts.size());
      tone = c.good;
    } else {
      QStringList said;
      if (bad > 0) said += QString("%1 short").arg(bad);
      if (waits > 0) said += QString("%1 waiting").arg(waits);
      placed = "! " + said.join(", ");
      tone = c.caution;
    }
  }
  drawText(painter, left - side, foot + 34, placed, 13, false, tone, Qt::AlignRight);
  drawRule(painter, left, 0, left, height(), c.edge);
  drawRule(painter, left, head_.height(), left + 1 + head_.width(), head_.height(), c.edge);
  if (estimate_ || shown_ == Shown::panels) return;
  if (shown_ == Shown::twoPlans) {
    drawText(painter, boardsHead().left() + 20, boardsHead().top() + 21,
             q(besideModel_.table().title), 14, true, c.ink);
    return;
  }
  if (!sheet_) {
    if (!session_.planning()) {
      drawText(painter, left + 21, boardsHead().top() + 21,
               "Ctrl+Enter finds boards and cuts for these parts.", 13, false, c.soft);
    }
    return;
  }
  const QRect head = boardsHead();
  const double line = head.top() + 21;
  const QString opened = sheet_->boards.empty() ? QString("No board opened")
                         : sheet_->boards.size() == 1
                             ? QString("1 board opened")
                             : QString("%1 boards opened").arg(sheet_->boards.size());
  drawText(painter, head.left() + 20, line, opened, 14, true, c.ink);
  if (sheet_->boards.empty()) return;
  QString against;
  if (session_.planning()) {
    against = "plan kept before";
  } else if (settled_.any()) {
    against = settled_.words();
  } else if (sheet_->plan.handRule > sheet_->plan.total()) {
    const auto& sign = session_.facts().sign;
    against =
        q(text(sheet_->plan.handRule - sheet_->plan.total(), sign)) + " less than the hand rule";
    if (sheet_->plan.carefulHand > sheet_->plan.total()) {
      against += ", " + q(text(sheet_->plan.carefulHand - sheet_->plan.total(), sign)) +
                 " less than a careful hand";
    }
  }
  const int from = head.left() + 20 + textWidth(opened, 14, true) + 24;
  // The scale bar: a foot, or 25 cm, in four fields.
  const bool inches = session_.facts().unit == Unit::inches;
  const double foot_ = (inches ? 12 : 250 / 25.4) * view_.scale();
  const double x = head.right() - 24 - foot_ - 34;
  drawText(painter, from, line, elided(against, 12, false, static_cast<int>(x) - from - 12), 12,
           false, c.soft);
  for (int i = 0; i < 4; ++i) {
    const QRectF field(x + i * foot_ / 4, head.top() + 12, foot_ / 4, 4);
    painter.setPen(QPen(c.ink, 1));
    painter.setBrush(i % 2 == 0 ? c.ink : c.sheet);
    painter.drawRect(field);
  }
  drawText(painter, x + foot_ + 6, head.top() + 18, inches ? "1 ft" : "25 cm", 11, false, c.soft);
}

}  // namespace flitch::desktop
