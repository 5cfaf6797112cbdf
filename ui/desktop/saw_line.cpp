#include "ui/desktop/saw_line.h"

#include "inventory/desk/saw_paper.h"

namespace flitch::desktop {

SawLine::SawLine(const Look& look, QWidget* parent) : SaidLine(look, parent) {
  turnTo(About::otherwise);
}

void SawLine::turnTo(About about) {
  about_ = about;
  if (about == About::otherwise) {
    setAbout("What went otherwise", "C2 lost", QString(desk::paperWords));
  } else {
    setAbout("Spoiled since", "hand marks, like C2",
             "their wood is lost; the next plan makes them again");
  }
}

void SawLine::begin(About about, const QString& typed, const QString& word) {
  turnTo(about);
  QStringList items = typed.split(',', Qt::SkipEmptyParts);
  const QString asked = word.section(',', -1).trimmed();
  const QString last = items.isEmpty() ? QString() : items.last().trimmed();
  // Begun before and left without a figure: begun anew.
  const bool bare = !asked.isEmpty() && last.compare(asked, Qt::CaseInsensitive) == 0;
  if (bare) items.removeLast();
  QString text = items.join(',');
  if (items.isEmpty() || bare || !last.startsWith(asked, Qt::CaseInsensitive)) {
    text += (text.isEmpty() ? "" : ", ") + word;
  }
  setTyped(text);
  takeKeys();
}

void SawLine::showTyped(const QString& typed) {
  turnTo(About::otherwise);
  if (this->typed() != typed) setTyped(typed);
}

}  // namespace flitch::desktop
