#include "ui/desktop/glue_view.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>

#include "inventory/desk/jobs.h"
#include "inventory/records/plan_check.h"
#include "labels/board_drawing.h"
#include "ui/desktop/laid_photos.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {

constexpr int glueMargin = 24, glueTop = 84, glueFoot = 64, besidePanel = 210;

double inchesOf(Length length) { return static_cast<double>(length.nm()) / 25'400'000.0; }

/// The blank lies tag end right as it goes into the panel.
bool turnedRound(const Piece& blank) {
  return (blank.faceUp == Face::a) == (blank.frontEdge == Edge::far);
}

}  // namespace

GlueView::GlueView(Session& session, const Look& look, QWidget* parent)
    : QWidget(parent), session_(session), look_(look) {
  setAccessibleName("Panels, stave by stave");
  setFocusPolicy(Qt::StrongFocus);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void GlueView::setSheet(const PlanSheet* sheet) {
  sheet_ = sheet;
  const PlanId now = sheet == nullptr ? PlanId{} : sheet->plan.id;
  if (now != of_ || sheet == nullptr) {
    before_.clear();
    photos_.clear();
    plan_ = sheet == nullptr ? CutPlan{} : sheet->plan;
  }
  of_ = now;
  readPanels();
}

void GlueView::readPanels() {
  panels_.clear();
  // Once a board is sawn its staves are what they are.
  if (sheet_ != nullptr && sheet_->unsawn() == sheet_->boards.size()) {
    panels_ = glueUpsOf(plan_);
    std::erase_if(panels_, [](const GlueUp& up) { return up.kind != LayupKind::stave; });
  }
  panel_ = panels_.empty() ? 0 : std::min(panel_, panels_.size() - 1);
  describe();
  update();
}

const Board* GlueView::boardOf(BoardId id) const {
  for (const OpenedBoard& opened : sheet_->boards) {
    if (opened.board.id == id) return &opened.board;
  }
  return nullptr;
}

const Part& GlueView::part() const {
  const auto& parts = sheet_->job.parts;
  return *std::find_if(parts.begin(), parts.end(),
                       [&](const Part& p) { return p.line == panels_[panel_].line; });
}

std::vector<GlueView::Row> GlueView::rows() const {
  std::vector<Row> all;
  if (panels_.empty()) return all;
  Length high;
  for (const auto& section : panels_[panel_].sections) {
    for (const Glued& stave : section) {
      all.push_back({stave, {}});
      high += stave.layup.gives;
    }
  }
  const double scale = std::min((width() - 2 * glueMargin - besidePanel) / inchesOf(part().length),
                                (height() - glueTop - glueFoot) / inchesOf(high));
  double y = glueTop + inchesOf(high) * scale;
  for (Row& row : all) {
    const double tall = inchesOf(row.stave.layup.gives) * scale;
    y -= tall;
    row.box = {glueMargin, y, inchesOf(part().length) * scale, tall};
  }
  return all;
}

StavePlace GlueView::chosen() const {
  const GlueUp& up = panels_[panel_];
  int place = slot_;
  for (const auto& section : up.sections) {
    for (const Glued& stave : section) {
      if (--place == 0) return {up.line, up.copy, stave.layup.slot};
    }
  }
  return {up.line, up.copy, 0};
}

bool GlueView::attempt(CutPlan next) {
  if (next == plan_) return false;
  bool right = false;
  session_.attempt([&] {
    PlanRequest request = desk::request(session_.book(), sheet_->job.id, next.choices);
    request.shop = sheet_->shop;
    const std::vector<Fault> faults = check(next, request);
    right = faults.empty();
    if (!right) emit said("It cannot lie so: " + q(faults.front().sentence) + ".", true);
  });
  if (!right) return false;
  before_.push_back(std::move(plan_));
  plan_ = std::move(next);
  readPanels();
  emit changedOrKept();
  return true;
}

void GlueView::takeBack() {
  if (before_.empty()) return;
  plan_ = std::move(before_.back());
  before_.pop_back();
  readPanels();
  emit changedOrKept();
}

void GlueView::keep() {
  if (before_.empty()) return;
  const bool kept = session_.attempt([&] {
    planning::PlanResult result;
    result.plan = plan_;
    result.plan.id = {};
    result.request = desk::request(session_.book(), sheet_->job.id, plan_.choices);
    result.request.shop = sheet_->shop;
    const bool held = std::all_of(
        result.request.boards.begin(), result.request.boards.end(), [&](const Board& board) {
          const bool cut = std::any_of(plan_.cuttings.begin(), plan_.cuttings.end(),
                                       [&](const Cutting& c) { return c.board == board.id; });
          return !cut || board.reservedFor == sheet_->job.id;
        });
    desk::keep(session_.book(), result, held, session_.hand());
  });
  if (!kept) return;
  before_.clear();
  session_.look();
  emit said("The staves are kept as they lie.", false);
  emit changedOrKept();
}

void GlueView::choose(int place) {
  slot_ = std::clamp(place, 1, std::max(1, static_cast<int>(rows().size())));
  describe();
  update();
}

void GlueView::move(int to) {
  if (to < 1 || to > static_cast<int>(rows().size()) || to == slot_) return;
  const int there = rows()[static_cast<std::size_t>(to) - 1].stave.layup.slot;
  if (attempt(staveMoved(plan_, chosen(), there))) choose(to);
}

void GlueView::turnTo(std::size_t panel) {
  if (panel >= panels_.size()) return;
  panel_ = panel;
  choose(1);
}

void GlueView::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape) {
    emit leaveWanted();
    return;
  }
  if (panels_.empty()) return QWidget::keyPressEvent(event);
  const bool moves = event->modifiers().testFlag(Qt::ShiftModifier);
  switch (event->key()) {
    // Up the screen is away from the front edge.
    case Qt::Key_Up: moves ? move(slot_ + 1) : choose(slot_ + 1); break;
    case Qt::Key_Down: moves ? move(slot_ - 1) : choose(slot_ - 1); break;
    case Qt::Key_PageDown: turnTo(panel_ + 1); break;
    case Qt::Key_PageUp:
      if (panel_ > 0) turnTo(panel_ - 1);
      break;
    case Qt::Key_F: attempt(staveTurned(plan_, chosen(), StaveTurn::over)); break;
    case Qt::Key_E: attempt(staveTurned(plan_, chosen(), StaveTurn::endForEnd)); break;
    case Qt::Key_Return:
    case Qt::Key_Enter: keep(); break;
    default: QWidget::keyPressEvent(event);
  }
}

int GlueView::placeAt(QPointF at) const {
  const std::vector<Row> all = rows();
  for (std::size_t r = 0; r < all.size(); ++r) {
    if (all[r].box.contains(at)) return static_cast<int>(r) + 1;
  }
  return 0;
}

void GlueView::mousePressEvent(QMouseEvent* event) {
  setFocus(Qt::MouseFocusReason);
  if (const int place = placeAt(event->position()); place > 0) choose(place);
}

void GlueView::mouseReleaseEvent(QMouseEvent* event) {
  if (const int place = placeAt(event->position()); place > 0) move(place);
}

void GlueView::describe() {
  if (panels_.empty()) {
    setAccessibleDescription("No panel of staves that is still to be sawn.");
    return;
  }
  const std::vector<Row> all = rows();
  slot_ = std::clamp(slot_, 1, static_cast<int>(all.size()));
  const Glued& stave = all[static_cast<std::size_t>(slot_) - 1].stave;
  const Board* board = boardOf(stave.board);
  setAccessibleDescription(
      QString("%1 %2, stave %3 of %4 from the front edge: %5 of %6, face %7 up, section %8.")
          .arg(q(part().name))
          .arg(panels_[panel_].copy)
          .arg(slot_)
          .arg(all.size())
          .arg(q(handMark(stave.blank.line, stave.blank.copy)),
               board == nullptr ? QString() : tagText(*board),
               stave.blank.faceUp == Face::a ? "A" : "B")
          .arg(stave.layup.section));
}

const std::array<QImage, 2>& GlueView::photosOf(const Board& board) {
  auto known = photos_.find(board.id);
  if (known == photos_.end()) {
    known = photos_.emplace(board.id, laidPhotos(session_.book().read(), board)).first;
  }
  return known->second;
}

void GlueView::paintStave(QPainter& painter, const Row& row, bool chosen) {
  const Colours& c = look_.colours();
  const Board* board = boardOf(row.stave.board);
  if (board == nullptr) return;
  const Piece& blank = row.stave.blank;
  const auto& theme = look_.wood(board->species);
  painter.save();
  painter.setClipRect(row.box);
  painter.fillRect(row.box, theme.of(pages::Tone::wood));
  if (!row.stave.layup.turned) {
    pages::BoardLook look;
    look.scale = row.box.width() / inchesOf(part().length) / windowDpi;
    look.letters = false;
    look.tag = false;
    look.cuts = false;
    look.pixel = toMm(1);
    look.photos = photosOf(*board);
    const pages::BoardView view(*board, blank.faceUp, {0, 0}, look);
    const QRectF lies = view.page(blank.at).normalized();
    pages::Page page;
    page.mm = view.size();
    page.ink = pages::drawFace(*board, blank.faceUp, {0, 0}, look);
    painter.translate(row.box.center());
    if (turnedRound(blank)) painter.rotate(180);
    painter.translate(-QPointF(toPixels(lies.center().x()), toPixels(lies.center().y())));
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    pages::paint(page, painter, windowDpi, theme);
  }
  painter.restore();
  painter.setPen(QPen(chosen ? c.blue : c.ink, chosen ? 3 : 1));
  painter.setBrush(Qt::NoBrush);
  painter.drawRect(row.box.adjusted(0.5, 0.5, -0.5, -0.5));
  const QString words = q(handMark(blank.line, blank.copy)) + "  " + tagText(*board) +
                        (row.stave.layup.turned    ? QString("  on its side")
                         : blank.faceUp == Face::a ? QString("  A up")
                                                   : QString("  B up")) +
                        (turnedRound(blank) ? "  tag end right" : "  tag end left");
  if (row.box.height() < 16) return;
  const QRectF patch(row.box.x() + 8, row.box.center().y() - 10, textWidth(words, 12, true) + 12,
                     20);
  painter.fillRect(patch, c.sheet);
  drawText(painter, patch.x() + 6, row.box.center().y() + 4, words, 12, true,
           chosen ? c.blue : c.ink);
}

void GlueView::paintSections(QPainter& painter, const std::vector<Row>& rows) const {
  const Colours& c = look_.colours();
  const double x = rows.front().box.right() + 10;
  for (const auto& section : panels_[panel_].sections) {
    double top = height(), foot = 0;
    Length wide;
    const int number = section.front().layup.section;
    for (const Row& row : rows) {
      if (row.stave.layup.section != number) continue;
      top = std::min(top, row.box.top());
      foot = std::max(foot, row.box.bottom());
      wide += row.stave.layup.gives;
    }
    painter.setPen(QPen(c.soft, 1));
    painter.drawPolyline(
        QPolygonF({{x, top + 3}, {x + 6, top + 3}, {x + 6, foot - 3}, {x, foot - 3}}));
    const QString name = number > 0 ? QString("section %1").arg(number) : QString("not glued");
    drawText(painter, x + 16, (top + foot) / 2, name, 13, true, c.ink);
    drawText(painter, x + 16, (top + foot) / 2 + 17, shortText(wide, session_.facts().unit), 12,
             false, c.soft);
  }
}

void GlueView::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  if (panels_.empty()) {
    drawText(painter, glueMargin, 36, "No panel of staves that is still to be sawn.", 14, true,
             c.ink);
    return;
  }
  const Unit unit = session_.facts().unit;
  const QString name = q(partLetter(part().line)) + " " + q(part().name) +
                       (part().wanted() > 1 ? QString(" %1").arg(panels_[panel_].copy) : QString());
  drawText(painter, glueMargin, 32, elided(name, 20, true, width() - 2 * glueMargin - 160), 20,
           true, c.ink);
  drawText(painter, width() - glueMargin, 32,
           QString("panel %1 of %2").arg(panel_ + 1).arg(panels_.size()), 13, false, c.soft,
           Qt::AlignRight);
  drawText(painter, glueMargin, 52,
           shortText(part().length, unit) + " × " + shortText(part().width, unit) + " × " +
               shortText(part().thickness, unit) + ", face A up, the front edge below",
           12, false, c.soft);
  const std::vector<Row> all = rows();
  for (std::size_t r = 0; r < all.size(); ++r) {
    if (static_cast<int>(r) + 1 != slot_) paintStave(painter, all[r], false);
  }
  paintStave(painter, all[static_cast<std::size_t>(slot_) - 1], hasFocus());
  paintSections(painter, all);
  drawText(painter, glueMargin, all.front().box.bottom() + 16, "front edge", 11, false, c.soft);
  const QString keys =
      "Up, Down a stave · with Shift it moves · F its other face · E end for end · PageDown the "
      "next panel";
  drawText(painter, glueMargin, height() - 26, elided(keys, 12, false, width() - 2 * glueMargin),
           12, false, c.soft);
  if (changed()) {
    drawText(painter, glueMargin, height() - 8, "Changed: Enter keeps it, Ctrl+Z takes it back.",
             12, true, c.ink);
  }
}

}  // namespace flitch::desktop
