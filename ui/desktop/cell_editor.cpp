#include "ui/desktop/cell_editor.h"

#include <QApplication>
#include <QClipboard>
#include <QKeyEvent>
#include <QPainter>

namespace flitch::desktop {

CellEditor::CellEditor(const Look& look, const QString& name, QWidget* viewport)
    : QLineEdit(viewport), look_(look) {
  setFrame(false);
  setFont(typeface(13, true));
  setAccessibleName(name);
  connect(&look_, &Look::changed, this, &CellEditor::takeLook);
  takeLook();
}

void CellEditor::takeLook() {
  const Colours& c = look_.colours();
  QPalette own = palette();
  // A cell that is not typed in looks like the others.
  own.setColor(QPalette::Base, hasFocus() ? c.field : QColor(Qt::transparent));
  own.setColor(QPalette::Text, c.ink);
  own.setColor(QPalette::Highlight, c.blue);
  own.setColor(QPalette::HighlightedText, c.sheet);
  setPalette(own);
}

bool CellEditor::event(QEvent* event) {
  if (event->type() != QEvent::KeyPress) return QLineEdit::event(event);
  const auto* key = static_cast<QKeyEvent*>(event);
  if (key->matches(QKeySequence::Paste)) {
    const QString text = QApplication::clipboard()->text();
    if (text.contains('\t') || text.trimmed().contains('\n')) {
      emit pasted(text);
      return true;
    }
  }
  const bool plain = key->modifiers() == Qt::NoModifier || key->modifiers() == Qt::KeypadModifier;
  switch (key->key()) {
    case Qt::Key_Return:
    case Qt::Key_Enter:
      if (!plain) break;
      emit goOn();
      return true;
    case Qt::Key_Up: emit moved(-1, 0); return true;
    case Qt::Key_Down: emit moved(1, 0); return true;
    case Qt::Key_Tab: emit moved(0, 1); return true;
    case Qt::Key_Backtab: emit moved(0, -1); return true;
    case Qt::Key_Escape: emit givenUp(); return true;
    default: break;
  }
  return QLineEdit::event(event);
}

void CellEditor::focusInEvent(QFocusEvent* event) {
  QLineEdit::focusInEvent(event);
  takeLook();
  parentWidget()->update();
}

void CellEditor::focusOutEvent(QFocusEvent* event) {
  QLineEdit::focusOutEvent(event);
  takeLook();
  emit focusLost();
  parentWidget()->update();
}

void drawCellFrame(QPainter& painter, const CellEditor& editor, bool trouble,
                   const Colours& colours) {
  painter.setPen(QPen(trouble ? colours.red : colours.blue, 2));
  painter.setBrush(colours.field);
  painter.drawRect(editor.geometry().adjusted(-3, -2, 3, 2));
}

}  // namespace flitch::desktop
