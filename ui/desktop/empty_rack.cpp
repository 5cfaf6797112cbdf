#include "ui/desktop/empty_rack.h"

#include <QPainter>
#include <vector>

#include "inventory/desk/jobs.h"

namespace flitch::desktop {
namespace {

/// A question and the settings that its answer sets: one figure for all, or one each, parted by x.
struct Question {
  const char* words;
  std::vector<std::string> keys;
  bool oneFigure;
};
const std::array<Question, 5>& questions() {
  static const std::array<Question, 5> all{{
      {"The planer takes", {"planer-width"}, true},
      {"The jointer takes", {"jointer-width"}, true},
      {"The saw's kerf", {"crosscut-kerf", "rip-kerf"}, true},
      {"Off each rough end", {"end-trim"}, true},
      {"Offcuts kept from", {"offcut-length", "offcut-width"}, false},
  }};
  return all;
}
constexpr int answerWidth = 128, answerGap = 10;

}  // namespace

EmptyRack::EmptyRack(Session& session, const Look& look, const Actions& actions, QWidget* parent)
    : QWidget(parent),
      session_(session),
      look_(look),
      tally_(look, actions.at(Act::takeTally), this),
      open_(look, actions.at(Act::openBook), this, "Open another book") {
  tally_.setPrimary(true);
  setFocusProxy(&tally_);
  setAccessibleName("Nothing on the rack yet");
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
  for (std::size_t q = 0; q < count; ++q) {
    answers_[q] = new Field(look, questions()[q].words, "", "", this);
    connect(answers_[q], &QLineEdit::editingFinished, this, [this, q] { keep(q); });
    connect(answers_[q], &QLineEdit::returnPressed, this, [this, q] {
      (q + 1 < count ? static_cast<QWidget*>(answers_[q + 1]) : &tally_)->setFocus();
    });
    connect(answers_[q], &Field::left, this, [this, q] {
      answers_[q]->setModified(false);
      tally_.setFocus();
      refresh();
    });
  }
  refresh();
}

void EmptyRack::refresh() {
  const ShopProfile shop = session_.book().read().shop();
  for (std::size_t q = 0; q < count; ++q) {
    if (answers_[q]->hasFocus()) continue;  // being typed
    const Question& question = questions()[q];
    QStringList figures;
    for (const std::string& key : question.keys) {
      figures << QString::fromStdString(desk::settingNamed(key).get(shop, session_.facts().unit));
    }
    if (question.oneFigure && figures.front() == figures.back()) figures = {figures.front()};
    const QString text = figures.join(question.oneFigure ? ", " : " x ");
    answers_[q]->setText(text);
    answers_[q]->setTrouble(false);
  }
}

void EmptyRack::keep(std::size_t asked) {
  Field& field = *answers_[asked];
  if (!field.isModified()) return;
  field.setModified(false);
  const Question& question = questions()[asked];
  const QStringList figures =
      question.oneFigure ? QStringList(field.text())
                         : field.text().split('x', Qt::KeepEmptyParts, Qt::CaseInsensitive);
  std::vector<desk::SettingValue> values;
  for (std::size_t k = 0; k < question.keys.size(); ++k) {
    const auto at = question.oneFigure ? 0 : static_cast<qsizetype>(k);
    values.emplace_back(question.keys[k],
                        at < figures.size() ? figures[at].trimmed().toStdString() : std::string());
  }
  const bool kept =
      session_.attempt([&] { desk::setShop(session_.book(), values, session_.hand()); });
  field.setTrouble(!kept);
}

int EmptyRack::middle() const { return std::min(height() / 2, height() - 292); }

void EmptyRack::resizeEvent(QResizeEvent*) {
  const int wide = static_cast<int>(count) * (answerWidth + answerGap) - answerGap;
  for (std::size_t q = 0; q < count; ++q) {
    answers_[q]->setGeometry((width() - wide) / 2 + static_cast<int>(q) * (answerWidth + answerGap),
                             middle() + 256, answerWidth, 28);
  }
  const int first = 268, second = 228, top = middle() + 113;
  const int x = (width() - first - second - 12) / 2;
  tally_.setGeometry(x, top, first, 40);
  open_.setGeometry(x + first + 12, top, second, 40);
}

void EmptyRack::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  const double centre = width() / 2.0, x0 = centre - 340, x1 = centre + 340;
  const double top = middle() - 171;
  const double foot = top + 26 + 3 * 44;
  painter.setRenderHint(QPainter::Antialiasing);
  for (int i = 0; i < 3; ++i) {
    const double y = top + 26 + i * 44;
    QPen board(c.edge, 1.2);
    board.setDashPattern({12, 3, 3, 3, 3, 3});
    painter.setPen(board);
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(QRectF(x0 + 40, y, x1 - x0 - 80, 22));
    painter.setPen(QPen(c.edge, 1.2));
    painter.setBrush(c.sheet);
    for (double x : {x0 + 110, x1 - 150}) {
      const QRectF bearer(x, y + 22, 40, 22);
      painter.drawRect(bearer);
      painter.drawLine(bearer.topLeft(), bearer.bottomRight());
      painter.drawLine(bearer.bottomLeft(), bearer.topRight());
    }
  }
  painter.setPen(QPen(c.ink, 1.6));
  painter.setBrush(c.oak);
  for (double x : {x0, x1 - 14}) painter.drawRect(QRectF(x, top - 6, 14, foot - top + 20));
  painter.drawRect(QRectF(x0, foot, x1 - x0, 14));

  const double line = middle() + 51;
  drawText(painter, centre, line, "Nothing on the rack yet", 30, true, c.ink, Qt::AlignHCenter);
  drawText(
      painter, centre, line + 34,
      "Boards come onto the rack with a delivery: tally them, print their tags, and they lie here.",
      14, false, c.ink, Qt::AlignHCenter);
  drawText(
      painter, centre, line + 134,
      "Have tagged boards already? Scan any tag. It is looked for in this book, and you are told "
      "if it is not there.",
      13, false, c.soft, Qt::AlignHCenter);

  drawText(painter, centre, line + 170,
           "Five figures of your shop; all others have a default with its source.", 13, true, c.ink,
           Qt::AlignHCenter);
  for (std::size_t q = 0; q < count; ++q) {
    drawText(painter, answers_[q]->x(), answers_[q]->y() - 7, questions()[q].words, 12, false,
             c.soft);
  }
}

}  // namespace flitch::desktop
