#pragma once
#include <QWidget>

#include "inventory/records/refusal.h"
#include "inventory/wood/unreadable.h"
#include "ui/desktop/controls.h"

namespace flitch::desktop {

/// One line in which a maker says what happened; how it was understood stands beside it as it is
/// typed, until then what may be said.
class SaidLine : public QWidget {
  Q_OBJECT
 public:
  static constexpr int barHeight = 52;

  SaidLine(const Look& look, QWidget* parent);
  /// What the line is about, which is also its field's name; an example; all that may be said.
  void setAbout(const QString& title, const QString& example, const QString& words);
  void setTitle(const QString& title);
  void setTyped(const QString& typed);
  /// Ends the line with these words, as if they had been typed.
  void append(const QString& words);
  void tell(const QString& reading, bool trouble);
  /// What is wrong with what is typed, and what is taken.
  void tell(const Unreadable& error);
  void tell(const Refusal& refusal);
  [[nodiscard]] QString typed() const { return field_.text().trimmed(); }
  [[nodiscard]] const QString& reading() const { return reading_; }
  [[nodiscard]] bool trouble() const { return trouble_; }
  [[nodiscard]] bool typing() const { return field_.hasFocus(); }

 signals:
  void edited();
  void entered();
  void left(int steps);  ///< as Field::left

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  /// Takes the keys, at the end of what is typed.
  void takeKeys();

 private:
  const Look& look_;
  QString title_, words_, reading_;
  bool trouble_ = false;
  Field field_;
};

}  // namespace flitch::desktop
