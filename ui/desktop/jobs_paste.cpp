// A parts list pasted from a spreadsheet becomes a job.
#include <QApplication>
#include <QClipboard>
#include <algorithm>

#include "inventory/desk/jobs.h"
#include "inventory/exchange/columns.h"
#include "inventory/exchange/csv.h"
#include "inventory/wood/writing.h"
#include "ui/desktop/jobs_place.h"

namespace flitch::desktop {

void JobsPlace::pasteParts() {
  pasted_.clear();
  firstPart_ = false;
  session_.attempt([&] {
    const QByteArray text = QApplication::clipboard()->text().toUtf8();
    if (text.trimmed().isEmpty()) {
      throw Refusal("nothing-pasted",
                    Complaint{"", "There is no parts list on the clipboard", "",
                              "rows of a spreadsheet with a head: part, count, length, width, "
                              "thickness, species"});
    }
    auto taken = exchange::readParts(exchange::readCsv(text.toStdString(), "the clipboard"),
                                     session_.readingRules());
    for (const std::string& warning : taken.warnings) emit said(q(warning), false);
    pasted_ = std::move(taken.rows);
  });
  if (!pasted_.empty()) askName();
}

void JobsPlace::titleName() { naming_.setAbout("Name of the job", "Hutch, for whom", ""); }

void JobsPlace::askName() {
  QStringList names;
  int pieces = 0;
  for (const Part& part : pasted_) {
    names.push_back(q(part.name));
    pieces += part.wanted();
  }
  titleName();
  naming_.setTyped("");
  const QString parts =
      names.size() == 1 ? QString("1 part") : QString("%1 parts").arg(names.size());
  naming_.tell(QString("%1, %2: %3. Enter makes the job, Esc drops it.")
                   .arg(parts, pieces == 1 ? QString("1 piece") : QString("%1 pieces").arg(pieces))
                   .arg(names.join(", ")),
               false);
  lay();
  naming_.setFocus(Qt::OtherFocusReason);
}

void JobsPlace::dropPasted() {
  pasted_.clear();
  firstPart_ = false;
  lay();
  setFocus(Qt::OtherFocusReason);
}

void JobsPlace::namePasted() {
  const std::string typed = naming_.typed().toStdString();
  if (typed.empty()) return;
  const std::size_t comma = typed.find(',');
  Job added;
  added.name = trimmed(std::string_view(typed).substr(0, comma));
  if (comma != std::string::npos)
    added.customer = trimmed(std::string_view(typed).substr(comma + 1));
  added.parts = pasted_;
  JobId id;
  if (!session_.attempt([&] { id = desk::addJob(session_.book(), added, session_.hand()); }))
    return;
  pasted_.clear();
  session_.look();
  showJob(id);
  setFocus(Qt::OtherFocusReason);
}

}  // namespace flitch::desktop
