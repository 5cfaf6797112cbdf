#include <QDir>
#include <QFileInfo>
#include <QProcess>
#include <QTemporaryDir>
#include <catch2/catch.hpp>

#include "tests/desktop/drive.h"

using namespace flitch;
using namespace flitch::desktop;

// On a display of its own, since keys and focus go through a window system there.
TEST_CASE("A day at the truck, ended by a power cut: every line that was committed is there") {
  const QTemporaryDir folder;
  const std::string path = (folder.path() + "/shop.flitch").toStdString();
  // Pictures can be kept to be looked at.
  const QString kept = qEnvironmentVariable("FLITCHBOOK_PICTURES");
  const QString pictures = kept.isEmpty() ? folder.path() + "/pictures" : kept;
  sample::makeEmptyBook(path);
  QProcess day;
  QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
  environment.insert("QT_QPA_PLATFORM", "xcb");
  day.setProcessEnvironment(environment);
  day.setProcessChannelMode(QProcess::MergedChannels);
  day.start("xvfb-run",
            {"-a", "-s", "-screen 0 1600x1000x24", QString(FLITCHBOOK_BIN) + "/truckday",
             QString::fromStdString(path), pictures});
  REQUIRE(day.waitForFinished(100'000));
  INFO(day.readAll().toStdString());
  CHECK(day.exitCode() == 128 + 9);

  Look look;
  const std::unique_ptr<Window> again = openWindow(path, look);
  const std::vector<Board> rack = again->session().book().read().rack();
  REQUIRE(rack.size() == 40);
  int quick = 0;
  Money paid, price;
  for (const Board& board : rack) {
    quick += board.defects.size() == 2;
    CHECK(board.supplier == "Hallan Sawmill");
    CHECK(board.unitPrice == Money::tenThousandths(82'000));
    paid += board.cost;
    price += board.price;
  }
  CHECK(quick == 6);
  CHECK(rack[6].defects.size() == 1);
  CHECK(rack[6].defects[0].kind == "sound knot");
  CHECK(price > Money::units(40));
  CHECK(paid == price + Money::units(40));  // the freight
  CHECK(QFileInfo(pictures + "/tags.pdf").size() > 10'000);
  const desk::TallySheet& sheet = again->deliveries().sheet();
  CHECK(sheet.supplier == "Vannerlo Hardwoods");
  REQUIRE(sheet.lines.size() == 4);
  CHECK(again->deliveries().read().figures.size() == 3);
  CHECK(sheet.lines[3].at(desk::TallyCell::length) == "8-4");  // its Enter was pressed
  CHECK(sheet.lines[3].at(desk::TallyCell::width).empty());    // this one's was not
  CHECK(again->session().book().check().empty());
  CHECK(QDir(pictures).entryList({"*.png"}).size() == 6);
}
