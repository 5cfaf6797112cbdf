#pragma once
#include <QWidget>
#include <array>

#include "ui/desktop/controls.h"
#include "ui/desktop/place.h"
#include "ui/desktop/session.h"

namespace flitch::desktop {

/// The rack of a new book: an empty bay in thin line, how boards come onto it, and the five figures
/// of the shop that no default can know. Each is kept as its field is left.
class EmptyRack : public QWidget {
  Q_OBJECT
 public:
  EmptyRack(Session& session, const Look& look, const Actions& actions, QWidget* parent);
  /// The figures as the book has them now.
  void refresh();

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  static constexpr std::size_t count = 5;
  void keep(std::size_t question);
  /// Height on which all is centred: half, or so that the last line still stands in the window.
  [[nodiscard]] int middle() const;

  Session& session_;
  const Look& look_;
  Button tally_, open_;
  std::array<Field*, count> answers_{};
};

}  // namespace flitch::desktop
