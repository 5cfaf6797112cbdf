#pragma once
#include "ui/desktop/said_line.h"

namespace flitch::desktop {

/// The line over the keys of the saw, in which a maker says what went otherwise.
class SawLine : public SaidLine {
  Q_OBJECT
 public:
  /// Of the board at the saw, or of parts that it and others gave.
  enum class About { otherwise, spoiled };

  SawLine(const Look& look, QWidget* parent);
  /// Shows what was typed and takes the keys; `word` is set behind it where it does not end so.
  void begin(About about, const QString& typed, const QString& word);
  /// Shows what was typed of the board without taking the keys.
  void showTyped(const QString& typed);
  [[nodiscard]] About about() const { return about_; }

 private:
  void turnTo(About about);
  About about_ = About::otherwise;
};

}  // namespace flitch::desktop
