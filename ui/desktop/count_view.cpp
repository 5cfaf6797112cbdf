#include "ui/desktop/count_view.h"

#include <QApplication>
#include <QPainter>
#include <algorithm>
#include <charconv>

#include "inventory/desk/names.h"
#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {

constexpr const char* countWords = "T0042-F · 42 · not T0042-F · untagged 2 · drop";
constexpr int countMargin = 24, columnGap = 24, headTop = 76, listTop = 100, countFoot = 116;
constexpr int mostUntagged = 9'999;

int piecesOf(std::string_view figure) {
  int pieces = 0;
  const auto read = std::from_chars(figure.data(), figure.data() + figure.size(), pieces);
  if (read.ec != std::errc{} || read.ptr != figure.data() + figure.size() || pieces < 0 ||
      pieces > mostUntagged) {
    throw Unreadable(inBackticks(figure) + " is no number of pieces", shortened(figure),
                     "0 to " + std::to_string(mostUntagged));
  }
  return pieces;
}

Table emptyList(bool withReason) {
  Table table;
  table.columns = {{"tag", "tag", false}};
  if (withReason) table.columns.push_back({"found", "by the book", false});
  table.columns.push_back({"species", "species", false});
  table.columns.push_back({"nominal", "quarters", true});
  if (!withReason) table.columns.push_back({"size", "size", false});
  return table;
}

Table boardList(const std::vector<Board>& boards, Unit unit) {
  Table table = emptyList(false);
  for (const Board& board : boards) {
    table.rows.push_back(
        {board.tagText(), board.species, text(board.nominal), sizeText(board, unit)});
  }
  return table;
}

/// What lies there and should not, the reason beside each.
Table strangeList(const desk::Counted& counted, const store::Snapshot& now) {
  Table table = emptyList(true);
  const auto add = [&](const Board& board, std::string found) {
    table.rows.push_back({board.tagText(), std::move(found), board.species, text(board.nominal)});
  };
  for (const Board& board : counted.unexpected) {
    add(board, board.bay.empty() ? "in no bay" : "in " + board.bay);
  }
  for (const Board& board : counted.found) add(board, "missing");
  for (const Board& board : counted.gone) add(board, desk::wentText(now, board));
  for (const TagCode tag : counted.blank) {
    table.rows.push_back({text(tag), std::string("a blank tag"), {}, {}});
  }
  return table;
}

QString headOf(const QString& what, int boards) {
  return boards == 0 ? what : QString("%1: %2").arg(what).arg(boards);
}

}  // namespace

CountWords readCountWords(const std::string& text) {
  const std::string written = plain(text);
  const std::size_t blank = written.find(' ');
  const std::string verb = written.substr(0, blank);
  const std::string_view all = trimmed(text);
  const std::string_view rest =
      blank == std::string::npos ? std::string_view{} : trimmed(all.substr(verb.size()));
  CountWords words;
  if (written == "drop") {
    words.what = CountWords::What::drop;
  } else if (verb == "untagged" && !rest.empty()) {
    words.what = CountWords::What::untagged;
    words.untagged = piecesOf(rest);
  } else if (verb == "not" && !rest.empty()) {
    words.what = CountWords::What::takeOut;
    words.code = rest;
  } else if (!all.empty()) {
    words.code = all;
  } else {
    throw Unreadable("Nothing was said", "", countWords);
  }
  return words;
}

CountView::List::List(const Look& look, const Session& session, const QString& name,
                      QWidget* parent)
    : model(session.facts().unit, session.facts().sign, parent), table(look, name, parent) {
  table.setModel(&model);
  table.setSortingEnabled(false);
}

CountView::CountView(Session& session, const Look& look, QWidget* parent)
    : QWidget(parent),
      session_(session),
      look_(look),
      missing_(look, session, "Still to be seen", this),
      here_(look, session, "Here", this),
      strange_(look, session, "Not expected", this),
      line_(look, this) {
  setAccessibleName("Count a bay");
  setFocusProxy(&line_);
  for (List* list : {&missing_, &here_, &strange_}) {
    connect(&list->table, &SheetTable::entered, this,
            [this] { line_.setFocus(Qt::TabFocusReason); });
    connect(&list->table, &SheetTable::left, this, [this] { line_.setFocus(Qt::TabFocusReason); });
  }
  connect(&line_, &SaidLine::edited, this, &CountView::read);
  connect(&line_, &SaidLine::entered, this, &CountView::enter);
  connect(&line_, &SaidLine::left, this, [this](int way) {
    if (way > 0 && canPost()) {
      missing_.table.setFocus(Qt::TabFocusReason);
    } else {
      emit leaveWanted();
    }
  });
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
  fill();
}

desk::Counted CountView::comparedTo(const std::vector<std::string>& codes) const {
  // What a number without its check character means is shown before it is taken.
  return desk::compare(session_.book().read(), counted_.bay, codes, counted_.untagged, true,
                       session_.facts().unit);
}

void CountView::refresh() {
  if (canPost()) {
    std::vector<std::string> known;
    for (std::string& code : codes_) {
      try {
        static_cast<void>(comparedTo({code}));
        known.push_back(std::move(code));
      } catch (const Refusal& refusal) {
        emit said(q(refusal.complaints().front().sentence) + ".", true);
      }
    }
    codes_ = std::move(known);
  }
  compareAgain();
}

void CountView::compareAgain() {
  if (canPost()) {
    try {
      counted_ = comparedTo(codes_);
    } catch (const Refusal& refusal) {  // the bay itself is gone
      emit said(q(refusal.complaints().front().sentence) + ".", true);
      drop();
      return;
    }
  }
  fill();
  read();
  emit changed();
}

void CountView::start(const std::string& bay) {
  counted_.bay = desk::bayNamed(session_.book().read(), bay);
  compareAgain();
}

void CountView::add(const std::string& code) {
  const TagReading reading = readTag(code);
  const bool ofBay =
      reading.verdict == TagReading::Verdict::right && reading.code.kind == TagKind::bay;
  if (ofBay) {
    const std::string bay = desk::bayNamed(session_.book().read(), code);
    if (bay == counted_.bay) return;
    throw Refusal("counting", Complaint{"", counted_.bay + " is being counted, not " + bay, bay,
                                        "Ctrl+Enter posts it, drop gives it up"});
  }
  std::vector<std::string> codes = codes_;
  codes.push_back(code);
  counted_ = comparedTo(codes);
  codes_ = std::move(codes);
  compareAgain();
}

void CountView::takeOut(const std::string& code) {
  const TagReading out = readTag(code);
  const auto same = [&](const std::string& each) { return readTag(each).code == out.code; };
  const bool readable =
      out.verdict == TagReading::Verdict::right || out.verdict == TagReading::Verdict::noCheck;
  if (!readable || std::erase_if(codes_, same) == 0) {
    throw Refusal("not-scanned", Complaint{"", "\"" + code + "\" was not scanned here", code,
                                           "a tag of these lists"});
  }
  compareAgain();
}

void CountView::setUntagged(int pieces) {
  counted_.untagged = pieces;
  compareAgain();
}

void CountView::drop() {
  counted_ = {};
  codes_.clear();
  fill();
  read();
  emit changed();
}

void CountView::takeBack() {
  if (codes_.empty()) {
    drop();
    return;
  }
  codes_.pop_back();
  compareAgain();
}

void CountView::take(const QString& code) {
  try {
    const std::string text = code.toStdString();
    canPost() ? add(text) : start(text);
    emit said(codes_.empty() ? "Counting bay " + q(counted_.bay) : boardText(text), false);
  } catch (const Refusal& refusal) {
    // Whoever scans looks at the boards.
    QApplication::beep();
    const Complaint& first = refusal.complaints().front();
    emit said(q(first.sentence) + ". Accepted: " + q(first.accepted) + ".", true);
  }
}

QString CountView::boardText(const std::string& code) const {
  const TagReading reading = readTag(code);
  if (session_.book().read().tagReserved(reading.code)) return q(text(reading.code));
  const Board board = desk::boardNamed(session_.book().read(), code);
  return q(board.tagText() + ", " + board.species + " " + text(board.nominal) + ", " +
           sizeText(board, session_.facts().unit));
}

void CountView::read() {
  const QString typed = line_.typed();
  if (typed.isEmpty()) {
    line_.tell(canPost() ? QString() : QString("the bay's name, or its tag"), false);
    return;
  }
  try {
    if (!canPost()) {
      line_.tell("Bay " + q(desk::bayNamed(session_.book().read(), typed.toStdString())), false);
      return;
    }
    const CountWords words = readCountWords(typed.toStdString());
    switch (words.what) {
      case CountWords::What::code: line_.tell(boardText(words.code) + ": here", false); break;
      case CountWords::What::takeOut:
        line_.tell(boardText(words.code) + ": not here", false);
        break;
      case CountWords::What::untagged:
        line_.tell(QString("%1 without a tag in all").arg(words.untagged), false);
        break;
      case CountWords::What::drop:
        line_.tell("This count is given up; the book stays as it is.", false);
        break;
    }
  } catch (const Unreadable& error) {
    line_.tell(error);
  } catch (const Refusal& refusal) {
    line_.tell(refusal);
  }
}

void CountView::enter() {
  if (line_.typed().isEmpty() || line_.trouble()) return;
  const std::string typed = line_.typed().toStdString();
  line_.setTyped("");
  const bool done = session_.attempt([&] {
    if (!canPost()) {
      start(typed);
      return;
    }
    const CountWords words = readCountWords(typed);
    switch (words.what) {
      case CountWords::What::code: add(words.code); break;
      case CountWords::What::takeOut: takeOut(words.code); break;
      case CountWords::What::untagged: setUntagged(words.untagged); break;
      case CountWords::What::drop: drop(); break;
    }
  });
  if (!done) line_.setTyped(q(typed));
  read();
}

void CountView::post() {
  desk::Counted posted;
  const bool kept = session_.attempt([&] {
    posted = desk::count(session_.book(), counted_.bay, codes_, counted_.untagged, true,
                         session_.hand());
  });
  if (!kept) return;
  drop();
  session_.look();
  emit said(QString("Bay %1 is counted: %2 here, %3 missing, %4 not expected.")
                .arg(q(posted.bay))
                .arg(posted.seen.size())
                .arg(posted.missing.size())
                .arg(posted.unexpected.size() + posted.found.size()),
            false);
}

void CountView::fill() {
  const Unit unit = session_.facts().unit;
  missing_.model.setTable(boardList(counted_.missing, unit));
  here_.model.setTable(boardList(counted_.seen, unit));
  strange_.model.setTable(strangeList(counted_, session_.book().read()));
  here_.table.scrollToBottom();
  strange_.table.scrollToBottom();
  line_.setAbout(canPost() ? "Board of the bay" : "Bay to count", canPost() ? "T0042-F" : "B3",
                 QString(countWords));
  line_.setTitle(canPost() ? "Here in " + q(counted_.bay) : QString("Which bay?"));
  resizeEvent(nullptr);
  update();
}

void CountView::resizeEvent(QResizeEvent*) {
  const int wide = (std::min(width(), 1'640) - 2 * countMargin - 2 * columnGap) / 3;
  const int room = std::max(0, height() - listTop - countFoot);
  int x = countMargin;
  for (List* list : {&missing_, &here_, &strange_}) {
    const int rows = list->model.rowCount();
    list->table.setGeometry(
        x, listTop, wide,
        std::min(room, SheetTable::headHeight + rows * SheetTable::rowHeight + 2));
    list->table.setWidths(list->model.widths(wide));
    list->table.setVisible(canPost() && rows > 0);
    x += wide + columnGap;
  }
  line_.setGeometry(0, height() - countFoot + 12, width(), SaidLine::barHeight);
}

void CountView::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  drawText(painter, countMargin, 32,
           canPost() ? "Count of bay " + q(counted_.bay) : QString("Count a bay"), 20, true, c.ink);
  const QString how = canPost()
                          ? QString(
                                "Scan every tag that lies here, in any order. What is still to "
                                "be seen when the count is posted is missing.")
                          : QString("Scan the bay's tag, or type its name.");
  drawText(painter, countMargin, 52, elided(how, 12, false, width() - 2 * countMargin), 12, false,
           c.soft);
  if (canPost()) {
    struct Head {
      const List& list;
      const char *name, *none;
    };
    for (const Head& head : {Head{missing_, "Still to be seen", "every board of it was seen"},
                             Head{here_, "Here", "no board scanned yet"},
                             Head{strange_, "Not expected", "nothing that is not of this bay"}}) {
      const int x = head.list.table.x(), rows = head.list.model.rowCount();
      drawText(painter, x, headTop + 12, headOf(head.name, rows), 14, true, c.ink);
      if (rows == 0) drawText(painter, x, listTop + 20, head.none, 12, false, c.soft);
    }
  }
  QString foot = canPost()
                     ? "Ctrl+Enter posts the count · Ctrl+Z takes the newest back · Esc shows "
                       "the boards, the count stays"
                     : "Enter starts · Esc shows the boards again";
  if (counted_.untagged > 0) foot = QString("%1 without a tag · ").arg(counted_.untagged) + foot;
  drawText(painter, countMargin, height() - countFoot + 12 + SaidLine::barHeight + 24, foot, 12,
           false, c.soft);
}

}  // namespace flitch::desktop
