#include <QFile>
#include <QPainter>
#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/desk/photos.h"
#include "labels/tag_page.h"
#include "tests/desktop/drive.h"

using namespace flitch;
using namespace flitch::desktop;

namespace {

/// A picture of these boards' tags, side by side on a bench.
QString tagPicture(const Driven& d, const std::vector<Board>& boards, const QString& name) {
  QImage bench(900 * static_cast<int>(boards.size()), 600, QImage::Format_RGB32);
  bench.fill(QColor(200, 190, 170));
  QPainter painter(&bench);
  const pages::LabelStock& stock = *pages::findLabelStock("roll-100x50");
  int x = 40;
  for (const Board& board : boards) {
    painter.drawImage(x, 60, pages::toImage(pages::boardTag(board, stock, Unit::inches), 203));
    x += 900;
  }
  painter.end();
  const QString path = d.folder.path() + "/" + name;
  REQUIRE(bench.save(path));
  return path;
}

}  // namespace

TEST_CASE("A picture with one tag opens its board, with several, all are told") {
  const Driven d;
  const std::vector<Board> rack = d.book().rack();
  d.window->toPlace(Act::toDeliveries);
  d.window->readPictures({tagPicture(d, {rack[2]}, "one.png")});
  CHECK(d.window->titleBlock().last().contains(q(text(*rack[2].tag))));
  CHECK(d.window->rack().isVisible());
  d.window->readPictures({tagPicture(d, {rack[1], rack[4]}, "two.png")});
  for (const std::size_t n : {1u, 4u})
    CHECK(d.window->band().sentence().contains(q(text(*rack[n].tag))));
  CHECK(d.window->band().sentence().contains("2 codes"));
}

TEST_CASE("While a bay is counted every tag of a dropped picture counts") {
  const Driven d;
  const std::vector<Board> rack = d.book().rack();
  d.window->toPlace(Act::toRack);
  d.window->trigger(Act::countBay);
  d.window->rack().takeCode(q(rack[1].bay));
  d.window->readPictures({tagPicture(d, {rack[1], rack[4]}, "two.png")});
  const desk::Counted& counted = d.named<CountView>("Count a bay")->counted();
  std::vector<BoardId> seen;
  for (const auto* boards : {&counted.seen, &counted.unexpected}) {
    for (const Board& board : *boards) seen.push_back(board.id);
  }
  std::sort(seen.begin(), seen.end());
  CHECK(seen == std::vector{rack[1].id, rack[4].id});
  d.window->readPictures({tagPicture(d, {rack[3]}, "one.png")});
  CHECK(counted.seen.size() + counted.unexpected.size() == 3);
}

TEST_CASE("A bad picture that is dropped gets a sentence and opens nothing") {
  const Driven d;
  QFile file(d.folder.path() + "/bad.jpg");
  REQUIRE(file.open(QIODevice::WriteOnly));
  file.write("no picture");
  file.close();
  d.window->readPictures({file.fileName()});
  CHECK(d.window->band().sentence().contains("bad.jpg"));
  CHECK(d.window->band().sentence().contains("not a picture"));
}

TEST_CASE("A photo of the chosen board is kept, and lies under its marks once it is placed") {
  const Driven d;
  const Board board = d.book().rack().front();
  d.window->toPlace(Act::toRack);
  d.window->rack().open(board.id);
  QImage photo(1000, 300, QImage::Format_RGB32);
  photo.fill(QColor(20, 200, 40));
  const QString path = d.folder.path() + "/bench.png";
  REQUIRE(photo.save(path));
  d.window->rack().keepPhotos({path});
  const std::vector<Photo> photos = d.book().photos(board.id);
  REQUIRE(photos.size() == 1);
  CHECK(photos[0].fileName == "bench.png");
  CHECK(photos[0].width == 1000);
  d.window->rack().keepPhotos({path});
  CHECK(d.window->band().sentence().contains("in the book already"));
  const auto greens = [&] {
    const QImage drawn = d.window->rack().grab().toImage();
    int count = 0;
    for (int y = 0; y < drawn.height(); y += 4)
      for (int x = 0; x < drawn.width(); x += 4) {
        const QColor colour = drawn.pixelColor(x, y);
        count += colour.green() > 150 && colour.red() < 90 && colour.blue() < 110;
      }
    return count;
  };
  CHECK(greens() < 20);
  desk::placePhoto(d.window->session().book(), photos[0].id, Face::a,
                   {{{10'000, 290'000}, {990'000, 290'000}, {990'000, 10'000}, {10'000, 10'000}}},
                   d.window->session().hand());
  d.window->session().look();
  CHECK(greens() > 200);
}
