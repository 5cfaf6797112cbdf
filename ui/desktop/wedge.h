#pragma once
#include <QElapsedTimer>
#include <QKeyEvent>
#include <QTimer>
#include <QWidget>
#include <vector>

namespace flitch::desktop {

/// Tells a scanner that types from a hand, wherever the focus is. A burst that begins like a code
/// is held back until it is clear what it is: a scanned code never reaches a field, a list or a
/// single key of the drawing; what a hand typed goes on to where it was meant, in order. Watches
/// the keys of the window that owns it.
class Wedge : public QObject {
  Q_OBJECT
 public:
  explicit Wedge(QWidget* window);

  static constexpr int gap = 35;      ///< ms a scanner takes at most from one character to the next
  static constexpr int silence = 60;  ///< ms after which a burst is over
  static constexpr std::size_t shortest = 5;  ///< characters of a burst

  bool eventFilter(QObject* watched, QEvent* event) override;

 signals:
  /// A code with the shape of a tag; its check character may be wrong.
  void scanned(const QString& code);

 private:
  struct Key {
    int key;
    Qt::KeyboardModifiers modifiers;
    QString text;
  };
  [[nodiscard]] bool goesOn(const QKeyEvent& event) const;
  [[nodiscard]] bool isCode() const;
  void take(const QKeyEvent& event);
  void end();
  void handOn();
  void pass(const Key& key);

  QWidget* window_;
  std::vector<Key> held_;
  QString burst_;
  QElapsedTimer since_;
  QTimer over_;
  bool passing_ = false;  ///< what is handed on is not held again
};

}  // namespace flitch::desktop
