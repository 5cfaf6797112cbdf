#pragma once
#include <QWidget>

#include "ui/desktop/controls.h"

namespace flitch::desktop {

/// One line over the keys of the saw, in which a maker says what went otherwise; how it was
/// understood stands beside it as it is typed.
class SawLine : public QWidget {
  Q_OBJECT
 public:
  /// Of the board at the saw, or of parts that it and others gave.
  enum class About { otherwise, spoiled };
  static constexpr int barHeight = 52;

  SawLine(const Look& look, QWidget* parent);
  /// Shows what was typed and takes the keys; `word` is set behind it where it does not end so.
  void begin(About about, const QString& typed, const QString& word);
  /// Shows what was typed without taking the keys.
  void setTyped(const QString& typed);
  void tell(const QString& reading, bool trouble);
  /// Ends the line with these words, as if they had been typed.
  void append(const QString& words);
  [[nodiscard]] About about() const { return about_; }
  [[nodiscard]] QString typed() const { return field_.text().trimmed(); }
  [[nodiscard]] const QString& reading() const { return reading_; }
  [[nodiscard]] bool trouble() const { return trouble_; }
  [[nodiscard]] bool typing() const { return field_.hasFocus(); }

 signals:
  void edited();
  void entered();
  void left();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  [[nodiscard]] int fieldAt() const;
  void setAbout(About about);
  const Look& look_;
  About about_ = About::otherwise;
  QString reading_;
  bool trouble_ = false;
  Field field_;
};

}  // namespace flitch::desktop
