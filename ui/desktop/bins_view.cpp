#include "ui/desktop/bins_view.h"

#include <QPainter>
#include <algorithm>
#include <numeric>

#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {

constexpr const char* binWords =
    "put 2 · used 1.5, Map chest · thrown 3, split · holds 4.5 · new cherry";
constexpr int binMargin = 24;  // as the line has

QString sayingOf(desk::BinWork work) {
  switch (work) {
    case desk::BinWork::put: return "%1 bf more in %2";
    case desk::BinWork::used: return "%1 bf of %2 used by hand";
    case desk::BinWork::thrown: return "%1 bf of %2 thrown away";
    case desk::BinWork::holds: return "%2 holds %1 bf now, all of it";
  }
  return {};
}

}  // namespace

BinLine readBinLine(const std::string& text) {
  const Unreadable unreadable(inBackticks(text) + " does not say what was done", shortened(text),
                              binWords);
  const std::string written = plain(text);
  const std::size_t blank = written.find(' ');
  if (blank == std::string::npos) throw unreadable;
  const std::string verb = written.substr(0, blank);
  const std::string_view rest = trimmed(std::string_view(written).substr(blank));
  BinLine line;
  if (verb == "new") {
    line.species = rest;
    return line;
  }
  if (verb == "put") {
    line.work = desk::BinWork::put;
  } else if (verb == "used") {
    line.work = desk::BinWork::used;
  } else if (verb == "thrown") {
    line.work = desk::BinWork::thrown;
  } else if (verb == "holds") {
    line.work = desk::BinWork::holds;
  } else {
    throw unreadable;
  }
  const std::size_t comma = rest.find(',');
  line.feet = parseFeet(trimmed(rest.substr(0, comma)));
  if (comma == std::string_view::npos) return line;
  // As typed, not folded: a job's name, or a reason in the maker's words.
  line.word = trimmed(std::string_view(text).substr(text.find(',') + 1));
  return line;
}

BinsView::BinsView(Session& session, const Look& look, QWidget* parent)
    : QWidget(parent),
      session_(session),
      look_(look),
      model_(session.facts().unit, session.facts().sign, this),
      table_(look, "Bins of untagged shorts", this),
      line_(look, this) {
  setAccessibleName("Bins of untagged shorts");
  setFocusProxy(&line_);
  line_.setAbout("What was done with the bin", "put 2", QString(binWords));
  table_.setModel(&model_);
  table_.setSortingEnabled(false);
  connect(table_.selectionModel(), &QItemSelectionModel::currentRowChanged, this, &BinsView::read);
  connect(&table_, &SheetTable::entered, this, [this] { line_.setFocus(Qt::TabFocusReason); });
  connect(&table_, &SheetTable::left, this, &BinsView::leaveWanted);
  connect(&line_, &SaidLine::edited, this, &BinsView::read);
  connect(&line_, &SaidLine::entered, this, &BinsView::keep);
  connect(&line_, &SaidLine::left, this, [this](int way) {
    if (way > 0) {
      table_.setFocus(Qt::TabFocusReason);
    } else {
      emit leaveWanted();
    }
  });
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void BinsView::refresh() {
  const store::Snapshot now = session_.book().read();
  const int row = std::max(0, table_.currentIndex().row());
  bins_ = now.bins();
  model_.setTable(desk::binTable(now));
  if (!bins_.empty()) {
    table_.setCurrentIndex(model_.index(std::min(row, static_cast<int>(bins_.size()) - 1), 0));
  }
  resizeEvent(nullptr);
  read();
}

const Bin* BinsView::chosen() const {
  const int row = table_.currentIndex().row();
  return row < 0 || row >= static_cast<int>(bins_.size()) ? nullptr
                                                          : &bins_[static_cast<std::size_t>(row)];
}

Feet BinsView::feet() const {
  CubicMillimetres wood;
  for (const Bin& bin : bins_) wood += bin.wood;
  return desk::estimatedFeet(wood);
}

int BinsView::lineTop() const {
  const int below = bins_.empty() ? 120 : table_.geometry().bottom() + 20;
  return std::min(below, height() - 116);
}

void BinsView::read() {
  if (line_.typed().isEmpty()) {
    line_.tell("", false);
    return;
  }
  try {
    const BinLine line = readBinLine(line_.typed().toStdString());
    const Bin* bin = chosen();
    if (!line.species.empty()) {
      line_.tell("A bin for shorts of " + q(line.species), false);
    } else if (bin == nullptr) {
      line_.tell("There is no bin yet: new cherry makes one.", true);
    } else {
      line_.tell(sayingOf(line.work).arg(q(text(line.feet)), q(bin->name)) +
                     (line.word.empty() ? QString() : ": " + q(line.word)),
                 false);
    }
  } catch (const Unreadable& error) {
    line_.tell(error);
  }
}

void BinsView::keep() {
  if (line_.trouble() || line_.typed().isEmpty()) return;
  const BinLine line = readBinLine(line_.typed().toStdString());
  const bool kept = session_.attempt([&] {
    if (!line.species.empty()) {
      desk::addBin(session_.book(), {{}, line.species + " shorts", line.species, "", {}},
                   session_.hand());
      return;
    }
    std::optional<JobId> job;
    std::string why = line.word;
    if (line.work == desk::BinWork::used) {
      const std::vector<Job> jobs = session_.book().read().jobs();
      const auto named = std::find_if(jobs.begin(), jobs.end(),
                                      [&](const Job& each) { return each.name == line.word; });
      if (named != jobs.end()) {
        job = named->id;
        why.clear();
      }
    }
    desk::changeBin(session_.book(), chosen()->id, line.work, line.feet, job, why, session_.hand());
  });
  if (!kept) return;
  line_.setTyped("");
  session_.look();
  refresh();
}

void BinsView::resizeEvent(QResizeEvent*) {
  const std::vector<int> columns = model_.widths(420);
  const int wide = std::accumulate(columns.begin(), columns.end(), 2);
  const int high = SheetTable::headHeight + model_.rowCount() * SheetTable::rowHeight + 2;
  table_.setGeometry(binMargin, 62, std::min(width() - 2 * binMargin, wide),
                     std::min(height() - 62 - 116, high));
  table_.setWidths(columns);
  table_.setVisible(!bins_.empty());
  line_.setGeometry(0, lineTop(), width(), SaidLine::barHeight);
}

void BinsView::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  drawText(painter, binMargin, 32, "Bins of untagged shorts", 20, true, c.ink);
  drawText(painter, binMargin, 52,
           elided(q(model_.table().note), 12, false, width() - 2 * binMargin), 12, false, c.soft);
  if (bins_.empty()) {
    drawText(painter, binMargin, 96, "There is no bin yet: new cherry makes one for its shorts.",
             14, true, c.ink);
  }
  drawText(painter, binMargin, lineTop() + SaidLine::barHeight + 24,
           "Enter keeps it · Esc shows the boards again", 12, false, c.soft);
}

}  // namespace flitch::desktop
