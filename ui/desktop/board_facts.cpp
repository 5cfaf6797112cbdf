#include "ui/desktop/board_facts.h"

#include <QPainter>

#include "ui/desktop/mark_bar.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {

BoardFacts::BoardFacts(const Look& look, Unit unit, const std::string& sign, QWidget* parent)
    : QWidget(parent), look_(look), unit_(unit), sign_(sign) {
  setAccessibleName("What the book says of the board");
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void BoardFacts::setBoard(const std::optional<Board>& board, const store::Snapshot& snapshot) {
  board_ = board;
  origin_.clear();
  family_.clear();
  if (board_) {
    const Board& b = *board_;
    const auto add = [](std::vector<Fact>& facts, const QString& name, const QString& value) {
      if (!value.isEmpty()) facts.push_back({name, value});
    };
    add(origin_, "Supplier", q(b.supplier));
    add(origin_, "Grade as bought", q(b.grade));
    add(origin_, "Billed", b.billed.thousandths > 0 ? q(text(b.billed)) + " bf" : QString());
    add(origin_, "Measured", q(text(b.measuredFeet)) + " bf");
    add(origin_, "Charged", b.price > Money{} ? q(text(b.price, sign_)) : QString());
    add(origin_, "Landed cost", q(text(b.cost, sign_)));
    if (!b.log.empty()) {
      add(origin_, "Log",
          q(b.log) + (b.placeInLog > 0 ? QString(", board %1").arg(b.placeInLog) : QString()));
    }
    for (const Reading& reading : b.readings) {
      add(origin_, "Moisture " + q(reading.takenOn),
          QString("%1 %, %2")
              .arg(reading.tenthsPercent / 10.0, 0, 'f', 1)
              .arg(q(std::string(word(reading.state)))));
    }
    add(origin_, "Bay", q(b.bay));
    add(origin_, "Set aside for", q(b.reservedName));
    add(origin_, "Note", q(b.note));
    BoardId up = b.parent;
    while (up) {
      const std::optional<Board> parent = snapshot.board(up);
      if (!parent) break;
      add(family_, parent->tag ? tagText(*parent) : QString("its board"),
          q(parent->species) + " " + q(text(parent->nominal)) + ", " + q(sizeText(*parent, unit_)));
      up = parent->parent;
    }
    if (b.parent) {
      add(family_, "It lay there",
          QString("%1 to %2 from the tag end")
              .arg(shortText(b.inParent.x, unit_), shortText(b.inParent.right(), unit_)));
    }
  }
  update();
}

void BoardFacts::setNotes(std::vector<BoardNote> notes) {
  notes_ = std::move(notes);
  update();
}

void BoardFacts::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  if (!board_) return;
  const int left = 16, half = (width() - 56) / 2;
  const auto heading = [&](int x, int& y, const QString& text) {
    drawText(painter, x, y + 18, text, 17, true, c.ink);
    y += 32;
    drawRule(painter, x, y - 1, x + half, y - 1, c.ink);
  };
  const auto line = [&](int x, int& y, const QString& name, const QString& value,
                        BoardNote::Tone tone = BoardNote::Tone::ink) {
    const bool caution = tone == BoardNote::Tone::caution;
    const QString shown = elided(caution ? "! " + value : value, 13, caution, half - 176);
    drawText(painter, x + 8, y + 18, elided(name, 13, false, 150), 13, false, c.soft);
    drawText(painter, x + 168, y + 18, shown, 13, caution,
             caution                         ? c.caution
             : tone == BoardNote::Tone::soft ? c.soft
                                             : c.ink);
    y += 27;
    drawRule(painter, x, y - 1, x + half, y - 1, c.rule);
  };
  int y = 8;
  heading(left, y, "Before it is opened");
  for (const BoardNote& note : notes_) line(left, y, note.name, note.value, note.tone);
  y += 24;
  heading(left, y, "Marks");
  if (board_->defects.empty()) {
    drawText(painter, left + 8, y + 18, "none", 13, false, c.soft);
  }
  for (const Defect& d : board_->defects) {
    if (y + 27 > height()) break;
    line(left, y, q(d.kind),
         QString("%1,  %2 from tag end,  %3 from near edge,  %4 × %5")
             .arg(q(std::string(word(d.face))), shortText(d.where.x + d.where.dx / 2, unit_),
                  shortText(d.where.y + d.where.dy / 2, unit_), shortText(d.where.dx, unit_),
                  shortText(d.where.dy, unit_)));
    if (const QString more = depthText(d, unit_); !more.isEmpty()) line(left, y, "", more);
  }
  const int right = left + half + 24;
  y = 8;
  heading(right, y, "In the book");
  for (const Fact& fact : origin_) line(right, y, fact.name, fact.value);
  if (family_.empty()) return;
  y += 24;
  heading(right, y, "Family");
  for (const Fact& fact : family_) line(right, y, fact.name, fact.value);
}

}  // namespace flitch::desktop
