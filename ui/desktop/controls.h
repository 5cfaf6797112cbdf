#pragma once
#include <QAbstractButton>
#include <QAction>
#include <QComboBox>
#include <QHeaderView>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollBar>
#include <QTableView>

#include "ui/desktop/look.h"

namespace flitch::desktop {

/// A button that shows an action: its name, its key in soft ink, its sentence as tooltip.
class Button : public QPushButton {
  Q_OBJECT
 public:
  Button(const Look& look, QAction* action, QWidget* parent, const QString& label = {});
  /// The thing to do next: ink ground, bold.
  void setPrimary(bool primary);
  void setAction(QAction* action, const QString& label = {});
  /// Where room is short the key stands in the tooltip alone.
  void setKeyShown(bool shown);
  /// Says something else than the action's name; empty: its name.
  void setLabel(const QString& label);
  [[nodiscard]] QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  void take();
  [[nodiscard]] int keyWidth() const;
  const Look& look_;
  QAction* action_ = nullptr;
  QString label_;
  QString key_;
  bool primary_ = false;
  bool keyShown_ = true;
};

/// A button that is only its text (title block, place tabs, mark keys): painted by its owner's
/// rules, with a focus frame.
class TextButton : public QAbstractButton {
  Q_OBJECT
 public:
  TextButton(const Look& look, const QString& text, const QString& key, QWidget* parent);
  [[nodiscard]] QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  const Look& look_;
  QString key_;
};

/// A place in the top strip: its number, its name, a bar of 3 px over the one that is open.
class PlaceTab : public QAbstractButton {
  Q_OBJECT
 public:
  PlaceTab(const Look& look, int number, const QString& name, QWidget* parent);
  [[nodiscard]] QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  const Look& look_;
  int number_;
};

/// A key cap with the word of a kind of mark.
class MarkKey : public QAbstractButton {
  Q_OBJECT
 public:
  MarkKey(const Look& look, const QString& key, const QString& word, QWidget* parent);
  [[nodiscard]] QSize sizeHint() const override;
  static constexpr int letterWidth = 28;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  const Look& look_;
  QString key_;
};

/// One line of typing, with the key that leads here or what it clears at the right end.
class Field : public QLineEdit {
  Q_OBJECT
 public:
  Field(const Look& look, const QString& name, const QString& hint, const QString& key,
        QWidget* parent);
  /// Framed in red while what is typed cannot be read.
  void setTrouble(bool trouble);
  [[nodiscard]] bool trouble() const { return trouble_; }
  [[nodiscard]] QSize sizeHint() const override;

 signals:
  void left(int steps);  ///< Esc: one level out; Down: on

 protected:
  void paintEvent(QPaintEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  bool event(QEvent* event) override;

 private:
  void take();
  const Look& look_;
  QString key_;
  bool trouble_ = false;
};

/// One of a few, with a drawn triangle; `lead` is set bold before the choice.
class Choice : public QComboBox {
  Q_OBJECT
 public:
  Choice(const Look& look, const QString& name, const QString& lead, QWidget* parent);
  /// Set as a heading, 22 px bold, framed only in focus.
  void setHeading(bool heading);
  [[nodiscard]] QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void showPopup() override;

 private:
  const Look& look_;
  QString lead_;
  bool heading_ = false;
};

/// A thin upright scroll bar: a track and a thumb, no buttons.
class ThinBar : public QScrollBar {
  Q_OBJECT
 public:
  ThinBar(const Look& look, QWidget* parent);
  [[nodiscard]] QSize sizeHint() const override { return {10, 40}; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void mouseMoveEvent(QMouseEvent* event) override;

 private:
  [[nodiscard]] QRectF thumb() const;
  const Look& look_;
  double held_ = 0;  ///< where in the thumb the mouse holds it
};

/// What all tables of the window have in common: no frame, no grid, a thin bar, whole rows chosen
/// one at a time, nothing edited in its cell, left by Tab. Takes `head` over.
void setUpTable(QTableView& table, const Look& look, const QString& name, QHeaderView* head,
                int headHeight);

}  // namespace flitch::desktop
