#include <QFile>
#include <catch2/catch.hpp>

#include "tests/desktop/drive.h"

using namespace flitch;
using namespace flitch::desktop;

namespace {

JobId jobOf(const Driven& d) { return d.book().jobs().front().id; }

QString fileOf(const Driven& d, const QString& name, const QByteArray& text) {
  const QString path = d.folder.filePath(name);
  QFile file(path);
  REQUIRE(file.open(QIODevice::WriteOnly));
  file.write(text);
  return path;
}

}  // namespace

TEST_CASE("Ctrl+E shows what a job costs, planned or not, and its boards again") {
  Driven d;
  d.key(Qt::Key_3, Qt::ControlModifier);
  d.key(Qt::Key_E, Qt::ControlModifier);
  const PriceView& price = d.window->jobs().price();
  REQUIRE(price.isVisible());
  CHECK(price.sum().contains("bought today"));
  CHECK(price.accessibleDescription().contains("No plan is kept"));
  CHECK(price.table().title == "Estimate");
  const std::size_t before = price.table().rows.size();
  d.window->jobs().takeLines(
      fileOf(d, "lines.csv", "what,name,count,price\nhardware,cup pull,4,3.25\nhours,work,2,\n"));
  CHECK(d.book().jobLines(jobOf(d)).size() == 2);
  CHECK(price.table().rows.size() == before + 2);
  // 4 x $3.25, 15 % on it, two hours at $60.
  CHECK(price.sum().startsWith("$134.95"));
  d.key(Qt::Key_E, Qt::ControlModifier);
  CHECK_FALSE(price.isVisible());
}

TEST_CASE("An estimate is written for the shop, a quote asks first, is written and kept") {
  Driven d;
  d.window->jobs().setSeconds(2);
  d.key(Qt::Key_3, Qt::ControlModifier);
  QSignalSpy ended(&d.window->session(), &Session::planEnded);
  d.key(Qt::Key_Return, Qt::ControlModifier);
  REQUIRE((!ended.isEmpty() || ended.wait(30'000)));
  CHECK_FALSE(d.window->jobs().can(Act::quote));
  d.key(Qt::Key_E, Qt::ControlModifier);
  REQUIRE(d.window->jobs().can(Act::quote));
  const QString estimate = d.folder.filePath("estimate.pdf"),
                quote = d.folder.filePath("quote.pdf");
  d.window->jobs().writeEstimate(estimate);
  CHECK(QFile::exists(estimate));
  CHECK(d.book().quotes(jobOf(d)).empty());
  d.key(Qt::Key_T, Qt::ControlModifier);
  CHECK(d.book().quotes(jobOf(d)).empty());
  d.window->jobs().writeQuote(quote);
  CHECK(QFile::exists(quote));
  const std::vector<Quote> given = d.book().quotes(jobOf(d));
  REQUIRE(given.size() == 1);
  CHECK(given[0].price.raw() % 10'000 == 0);
}
