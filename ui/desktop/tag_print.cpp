#include "ui/desktop/tag_print.h"

#include <QFileDialog>
#include <QPageLayout>
#include <QPainter>
#include <QPrintDialog>
#include <QSignalBlocker>
#include <algorithm>

#include "labels/label_stock.h"

namespace flitch::desktop {
namespace {

constexpr int labelsWidth = 248;

int number(const Field& field, int most) {
  bool right = false;
  const int typed = field.text().trimmed().toInt(&right);
  return right && typed >= 1 && typed <= most ? typed : 0;
}

}  // namespace

PagePreview::PagePreview(const Look& look, QWidget* parent) : QWidget(parent), look_(look) {
  setAccessibleName("The sheet as it will be printed");
}

void PagePreview::setPage(pages::Page page, int symbolDpi) {
  page_ = std::move(page);
  symbolDpi_ = symbolDpi;
  update();
}

void PagePreview::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), look_.colours().ground);
  if (page_.mm.isEmpty()) return;
  const int dpi =
      std::max(1, static_cast<int>(25.4 * std::min((width() - 16) / page_.mm.width(),
                                                   (height() - 16) / page_.mm.height())));
  const QSizeF size = page_.mm * dpi / 25.4;
  const QPointF at((width() - size.width()) / 2, (height() - size.height()) / 2);
  painter.fillRect(QRectF(at, size), Qt::white);
  painter.translate(at);
  painter.setClipRect(QRectF(QPointF(), size));
  painter.setRenderHint(QPainter::Antialiasing);
  pages::paint(page_, painter, dpi, pages::paperTheme(), symbolDpi_);
}

TagPrint::TagPrint(Session& session, const Look& look, std::vector<Board> boards,
                   const TagPaper& paper, QWidget* parent)
    : QDialog(parent),
      session_(session),
      look_(look),
      boards_(std::move(boards)),
      stocks_(pages::labelStocks(session.book().read().labelPapers())),
      printers_(session.book().read().printers()),
      paper_(paper),
      stock_(look, "Label stock", "", this),
      printer_(look, "Printer", "", this),
      startAt_(look, "First label", "1", "", this),
      copies_(look, "Copies", "1", "", this),
      printAction_("Print …", this),
      pdfAction_("Write as PDF", this),
      nextAction_("Next sheet", this),
      closeAction_("Close", this),
      print_(look, &printAction_, this),
      pdf_(look, &pdfAction_, this),
      next_(look, &nextAction_, this),
      close_(look, &closeAction_, this),
      preview_(look, this) {
  setWindowTitle("Print tags");
  setPalette(look.palette());
  resize(900, 620);
  print_.setPrimary(true);
  {
    const QSignalBlocker quiet(&stock_), still(&printer_);
    for (const pages::LabelStock& one : stocks_) stock_.addItem(q(one.name));
    printer_.addItem("as it is");
    for (const PrinterAlignment& one : printers_) printer_.addItem(q(one.name));
    stock_.setCurrentText(paper_.stock);
    printer_.setCurrentText(paper_.printer);
  }
  startAt_.setText(QString::number(paper_.startAt));
  copies_.setText(QString::number(paper_.copies));
  for (Choice* choice : {&stock_, &printer_}) {
    connect(choice, &QComboBox::activated, this, &TagPrint::read);
  }
  for (Field* field : {&startAt_, &copies_}) {
    connect(field, &QLineEdit::textChanged, this, &TagPrint::read);
  }
  connect(&printAction_, &QAction::triggered, this, &TagPrint::askPrinter);
  connect(&pdfAction_, &QAction::triggered, this, &TagPrint::askPath);
  connect(&nextAction_, &QAction::triggered, this, [this] { showSheet(sheet_ + 1); });
  connect(&closeAction_, &QAction::triggered, this, &QDialog::accept);
  read();
}

const pages::LabelStock& TagPrint::stock() const {
  return stocks_[static_cast<std::size_t>(std::max(0, stock_.currentIndex()))];
}

void TagPrint::read() {
  paper_.stock = stock_.currentText();
  paper_.printer = printer_.currentIndex() > 0 ? printer_.currentText() : QString();
  constexpr int mostCopies = 99;
  const int first = number(startAt_, stock().perPage()), copies = number(copies_, mostCopies);
  startAt_.setTrouble(first == 0);
  copies_.setTrouble(copies == 0);
  const bool right = first > 0 && copies > 0;
  if (right) {
    paper_.startAt = first;
    paper_.copies = copies;
  }
  for (QAction* action : {&printAction_, &pdfAction_}) action->setEnabled(right);
  sheets_ = sheets();
  nextAction_.setEnabled(sheets_.size() > 1);
  showSheet(0);
}

std::vector<pages::Page> TagPrint::sheets() const {
  std::vector<pages::Page> labels;
  for (const Board& board : boards_) {
    if (board.tag) labels.push_back(pages::boardTag(board, stock(), session_.facts().unit));
  }
  std::vector<pages::Page> all = pages::impose(labels, stock(), paper_.startAt, paper_.copies);
  const auto printer = std::find_if(printers_.begin(), printers_.end(),
                                    [&](const auto& one) { return q(one.name) == paper_.printer; });
  return printer == printers_.end() ? all : pages::aligned(std::move(all), *printer);
}

void TagPrint::showSheet(int sheet) {
  if (sheets_.empty()) return;
  sheet_ = sheet % static_cast<int>(sheets_.size());
  preview_.setPage(sheets_[static_cast<std::size_t>(sheet_)], printerDpi());
  update();
}

void TagPrint::used() {
  printed_ = true;
  const auto labels = std::count_if(boards_.begin(), boards_.end(),
                                    [](const Board& board) { return board.tag.has_value(); });
  const int last = paper_.startAt - 1 + static_cast<int>(labels) * paper_.copies;
  paper_.startAt = last % stock().perPage() + 1;
  paper_.copies = 1;
}

void TagPrint::writePdf(const QString& path) {
  if (session_.attempt([&] { pages::writePdf(sheets_, path.toStdString(), "Tags"); })) used();
}

void TagPrint::printOn(QPrinter& printer) {
  const auto setPage = [&](const pages::Page& page) {
    printer.setPageLayout({QPageSize(page.mm, QPageSize::Millimeter), QPageLayout::Portrait,
                           QMarginsF(), QPageLayout::Millimeter});
  };
  printer.setFullPage(true);
  setPage(sheets_.front());
  QPainter painter;
  const bool done = session_.attempt([&] {
    if (!painter.begin(&printer)) {
      throw Refusal("cannot-print", Complaint{"", "The printer does not take the tags", "",
                                              "a printer that is on, or PDF"});
    }
    for (std::size_t sheet = 0; sheet < sheets_.size(); ++sheet) {
      if (sheet > 0) {
        setPage(sheets_[sheet]);
        printer.newPage();
      }
      pages::paint(sheets_[sheet], painter, printer.resolution(), pages::paperTheme(),
                   printerDpi());
    }
    painter.end();
  });
  if (done) used();
}

void TagPrint::askPrinter() {
  QPrinter printer(QPrinter::HighResolution);
  QPrintDialog dialog(&printer, this);
  if (dialog.exec() != QDialog::Accepted) return;
  printOn(printer);
  if (printed_) accept();
}

void TagPrint::askPath() {
  const QString path =
      QFileDialog::getSaveFileName(this, "Tags", "tags.pdf", "Portable document (*.pdf)");
  if (path.isEmpty()) return;
  writePdf(path);
  if (printed_) accept();
}

void TagPrint::resizeEvent(QResizeEvent*) {
  const int wide = labelsWidth - 32;
  stock_.setGeometry(16, 38, wide, 30);
  startAt_.setGeometry(16, 96, (wide - 8) / 2, 28);
  copies_.setGeometry(16 + (wide + 8) / 2, 96, (wide - 8) / 2, 28);
  printer_.setGeometry(16, 152, wide, 30);
  int y = height() - 44;
  for (Button* button : {&close_, &pdf_, &print_, &next_}) {
    button->setGeometry(16, y, wide, 30);
    y -= 38;
  }
  preview_.setGeometry(labelsWidth, 0, width() - labelsWidth, height());
}

void TagPrint::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  for (const QWidget* each :
       std::initializer_list<const QWidget*>{&stock_, &startAt_, &copies_, &printer_}) {
    drawText(painter, each->x(), each->y() - 6, each->accessibleName(), 12, false, c.soft);
  }
  painter.setPen(c.soft);
  painter.setFont(typeface(12));
  painter.drawText(
      QRect(16, 196, labelsWidth - 32, 140), Qt::TextWordWrap,
      QString("Sheet %1 of %2.  ").arg(sheet_ + 1).arg(sheets_.size()) + q(stock().care));
}

}  // namespace flitch::desktop
