#include "tests/labels/outside_readers.h"

#include <QDir>
#include <QProcess>
#include <QTemporaryDir>
#include <catch2/catch.hpp>

namespace flitch::test {

QStringList run(const QString& program, const QStringList& arguments) {
  QProcess process;
  process.start(program, arguments);
  INFO(program.toStdString());
  REQUIRE(process.waitForFinished(120'000));
  REQUIRE(process.exitStatus() == QProcess::NormalExit);
  return QString::fromUtf8(process.readAllStandardOutput()).split('\n', Qt::SkipEmptyParts);
}

QStringList zbar(const QString& picture) {
  QStringList lines = run("zbarimg", {"--nodbus", "-q", picture});
  lines.sort();
  return lines;
}

QStringList dmtx(const QString& picture) {
  return run("dmtxread", {"--newline", "--milliseconds=5000", picture});
}

std::vector<QImage> renderPdf(const QString& pdf, int dpi) {
  const QTemporaryDir folder;
  REQUIRE(folder.isValid());
  (void)run("pdftoppm", {"-r", QString::number(dpi), "-mono", pdf, folder.filePath("page")});
  std::vector<QImage> pages;
  for (const QString& name : QDir(folder.path()).entryList({"page*"}, QDir::Files, QDir::Name))
    pages.emplace_back(folder.filePath(name));
  return pages;
}

}  // namespace flitch::test
