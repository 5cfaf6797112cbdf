#pragma once
#include <QAbstractScrollArea>

#include "inventory/desk/invoice_sheet.h"
#include "ui/desktop/cell_editor.h"

namespace flitch::desktop {

/// What the invoice asks and claims, a line each, under the tally: freight, tax, surfacing,
/// discount, boards of a kind, the total. Enter goes on over the cells that such a line has.
class InvoiceGrid : public QAbstractScrollArea {
  Q_OBJECT
 public:
  InvoiceGrid(const Look& look, Unit unit, QWidget* parent);
  /// The lines typed and how they were read; an empty line follows them.
  void setInvoice(const std::vector<desk::TypedInvoice>* lines, const desk::ReadInvoice* read);
  void goTo(int line, desk::InvoiceCell cell);
  [[nodiscard]] int line() const { return line_; }
  [[nodiscard]] CellEditor& editor() { return editor_; }
  [[nodiscard]] bool typing() const { return editor_.hasFocus(); }
  /// What is wrong with the line at hand; empty: nothing.
  [[nodiscard]] QString fault() const;

 signals:
  void typed(int line, desk::InvoiceCell cell, const QString& text);
  void left();
  void moved();  ///< another cell is at hand

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;

 private:
  struct Column {
    const char* title;
    int share;  ///< of the width, per cent
    bool right = false;
  };
  static constexpr int rowHeight = 28, headHeight = 26;
  [[nodiscard]] std::array<Column, desk::invoiceCells> columns() const;
  [[nodiscard]] QRect boxOf(int line, desk::InvoiceCell cell) const;
  [[nodiscard]] int lines() const;
  [[nodiscard]] QString textAt(int line, desk::InvoiceCell cell) const;
  [[nodiscard]] bool faulty(int line, desk::InvoiceCell cell) const;
  void commit();
  void goOn();
  void step(int way);
  void place();

  const Look& look_;
  Unit unit_;
  const std::vector<desk::TypedInvoice>* typed_ = nullptr;
  const desk::ReadInvoice* read_ = nullptr;
  int line_ = 0;
  desk::InvoiceCell cell_ = desk::InvoiceCell::what;
  CellEditor editor_;
};

}  // namespace flitch::desktop
