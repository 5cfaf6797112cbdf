#pragma once
#include <QDialog>
#include <QPrinter>
#include <vector>

#include "labels/tag_page.h"
#include "ui/desktop/controls.h"
#include "ui/desktop/session.h"

namespace flitch::desktop {

/// A page as it will be on paper, painted by the same painter.
class PagePreview : public QWidget {
  Q_OBJECT
 public:
  PagePreview(const Look& look, QWidget* parent);
  /// `symbolDpi`: whose dots the symbols lie on, as they will in print.
  void setPage(pages::Page page, int symbolDpi);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  const Look& look_;
  pages::Page page_;
  int symbolDpi_ = 0;
};

/// Which label stock, from which label of the first sheet, how many copies, on which printer.
struct TagPaper {
  QString stock = "a4-3x8", printer;
  int startAt = 1, copies = 1;
};

/// Before tags are printed: the paper, and the sheets as they will come out of the printer.
class TagPrint : public QDialog {
  Q_OBJECT
 public:
  TagPrint(Session& session, const Look& look, std::vector<Board> boards, const TagPaper& paper,
           QWidget* parent);
  /// Sheets as chosen, in the boards' order, moved as the printer needs.
  [[nodiscard]] std::vector<pages::Page> sheets() const;
  void writePdf(const QString& path);
  void printOn(QPrinter& printer);
  /// What is chosen; once printed, the first label left on the last sheet.
  [[nodiscard]] const TagPaper& paper() const { return paper_; }
  [[nodiscard]] bool printed() const { return printed_; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void read();
  void showSheet(int sheet);
  void used();
  void askPrinter();
  void askPath();
  [[nodiscard]] const pages::LabelStock& stock() const;
  /// Dots an inch of the printer the stock is for: of a roll, or of sheets (so of 600 and 1200).
  [[nodiscard]] int printerDpi() const { return stock().perPage() == 1 ? 203 : 300; }

  Session& session_;
  const Look& look_;
  std::vector<Board> boards_;
  std::vector<pages::LabelStock> stocks_;
  std::vector<PrinterAlignment> printers_;
  TagPaper paper_;
  bool printed_ = false;
  int sheet_ = 0;
  std::vector<pages::Page> sheets_;
  Choice stock_, printer_;
  Field startAt_, copies_;
  QAction printAction_, pdfAction_, nextAction_, closeAction_;
  Button print_, pdf_, next_, close_;
  PagePreview preview_;
};

}  // namespace flitch::desktop
