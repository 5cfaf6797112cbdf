#include "ui/desktop/written_file.h"

#include <QSaveFile>

#include "inventory/exchange/csv.h"

namespace flitch::desktop {

void writeRows(const Table& table, const QString& path) {
  QSaveFile file(path);
  const std::string bytes = exchange::writeCsv(table);
  const auto size = static_cast<qint64>(bytes.size());
  if (!file.open(QIODevice::WriteOnly) || file.write(bytes.data(), size) != size ||
      !file.commit()) {
    throw Refusal("cannot-write", Complaint{"", path.toStdString() + " cannot be written",
                                            path.toStdString(), "a path in a folder to write in"});
  }
}

}  // namespace flitch::desktop
