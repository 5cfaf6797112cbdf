#pragma once
#include <QWidget>
#include <functional>

#include "ui/desktop/controls.h"

namespace flitch::desktop {

/// A band that stands where it is about: an error that stays until closed, a caution, or a question
/// with its answer. Never a dialog.
class Band : public QWidget {
  Q_OBJECT
 public:
  enum class Kind { error, caution, question };
  Band(const Look& look, QWidget* parent);

  void tell(Kind kind, const QString& sentence);
  /// `yes` is what the answer button says; Enter on it carries `work` out, Esc closes the band.
  void ask(const QString& sentence, const QString& yes, std::function<void()> work);
  /// Adds to the question a button that shows more and leaves it open.
  void offer(const QString& label, std::function<void()> show);
  void close();
  [[nodiscard]] const QString& sentence() const { return sentence_; }
  [[nodiscard]] int heightFor(int width) const;

 signals:
  void changed();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void lay();
  [[nodiscard]] int buttonsWidth() const;
  const Look& look_;
  Kind kind_ = Kind::error;
  QString sentence_;
  std::function<void()> work_, show_;
  QAction yesAction_, showAction_, closeAction_;
  Button yes_, showing_, close_;
};

}  // namespace flitch::desktop
