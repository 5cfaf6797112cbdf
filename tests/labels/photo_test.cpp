#include "labels/photo.h"

#include <QDir>
#include <QFile>
#include <QPainter>
#include <QTemporaryDir>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "inventory/records/refusal.h"
#include "labels/photo_folder.h"
#include "labels/picture_reader.h"
#include "labels/tag_page.h"
#include "tests/labels/sample_boards.h"
#include "tests/labels/words_on.h"

using namespace flitch;
using namespace flitch::pages;

namespace {

double away(QPointF a, QPointF b) { return std::hypot(a.x() - b.x(), a.y() - b.y()); }

PhotoPoint pointAt(QPointF at) {
  return {std::llround(at.x() * 1000), std::llround(at.y() * 1000)};
}

/// Corners of a face as a camera held askew sees it, and valid.
PhotoCorners randomCorners(std::mt19937& random, Face face, double turn) {
  std::uniform_real_distribution<double> shake(-60, 60);
  const double w = 700, h = 160;
  const double near = face == Face::a ? h : -h;
  const QPointF square[]{{-w, near}, {w, near}, {w, -near}, {-w, -near}};
  PhotoCorners corners;
  for (std::size_t i = 0; i < 4; ++i) {
    const QPointF at = square[i] + QPointF(shake(random), shake(random));
    corners[i] = pointAt({1000 + at.x() * std::cos(turn) - at.y() * std::sin(turn),
                          1000 + at.x() * std::sin(turn) + at.y() * std::cos(turn)});
  }
  return corners;
}

/// The middle of what is dark in a square about a place.
QPointF darkNear(const QImage& picture, QPointF about, int reach) {
  double x = 0, y = 0, weight = 0;
  for (int row = -reach; row <= reach; ++row)
    for (int column = -reach; column <= reach; ++column) {
      const QPoint at(static_cast<int>(about.x()) + column, static_cast<int>(about.y()) + row);
      if (!picture.rect().contains(at)) continue;
      const double dark = 255 - qGray(picture.pixel(at));
      x += dark * (at.x() + 0.5);
      y += dark * (at.y() + 0.5);
      weight += dark;
    }
  return QPointF(x, y) / std::max(weight, 1.0);
}

/// A GIF of a size, by hand (GIF89a): a header, a descriptor, and an image that never comes.
QByteArray gif(int width, int height) {
  QByteArray bytes("GIF89a");
  const auto put = [&](int value) {
    bytes.append(static_cast<char>(value & 255)).append(static_cast<char>(value >> 8));
  };
  put(width);
  put(height);
  bytes.append("\x80\0\0\0\0\0\xff\xff\xff,\0\0\0\0", 14);
  put(width);
  put(height);
  bytes.append("\0\x02\x02\x44\x01\0;", 7);
  return bytes;
}

void write(const QString& path, const QByteArray& bytes) {
  QFile file(path);
  REQUIRE(file.open(QIODevice::WriteOnly));
  file.write(bytes);
}

QByteArray bytesOf(const QString& path) {
  QFile file(path);
  REQUIRE(file.open(QIODevice::ReadOnly));
  return file.readAll();
}

}  // namespace

TEST_CASE("the corners of a photo land on the board's corners within half a pixel") {
  std::mt19937 random(51);
  for (int n = 0; n < 500; ++n) {
    const Face face = n % 2 == 0 ? Face::a : Face::b;
    const PhotoCorners corners = randomCorners(random, face, n * 0.13);
    validate(corners, face, 2000, 2000);
    const QSize size(400 + n, 60 + n % 90);
    const QTransform lay = toScale(corners, face, size);
    const double near = face == Face::a ? size.height() : 0, far = size.height() - near;
    const QPointF wanted[]{
        {0, near}, {double(size.width()), near}, {double(size.width()), far}, {0, far}};
    for (std::size_t i = 0; i < 4; ++i) {
      const QPointF corner(double(corners[i].x) / 1000, double(corners[i].y) / 1000);
      INFO(n << " corner " << i);
      CHECK(away(lay.map(corner), wanted[i]) < 0.5);
    }
    // Along the near edge nothing leaves it.
    const QPointF middle = lay.map(
        QPointF(double(corners[0].x + corners[1].x), double(corners[0].y + corners[1].y)) / 2000);
    CHECK(std::abs(middle.y() - near) < 0.5);
  }
}

TEST_CASE("a spot on a face is found where it lies when its photo is laid to scale") {
  std::mt19937 random(52);
  std::uniform_real_distribution<double> part(0.1, 0.9);
  const QSize size(1200, 240);
  for (int n = 0; n < 30; ++n) {
    const Face face = n % 2 == 0 ? Face::a : Face::b;
    const PhotoCorners corners = randomCorners(random, face, n * 0.7);
    const QTransform back = toScale(corners, face, size).inverted();
    QImage photo(2000, 2000, QImage::Format_RGB32);
    photo.fill(Qt::white);
    const QPointF spot(part(random) * size.width(), part(random) * size.height());
    QPainter painter(&photo);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setTransform(back);
    painter.setBrush(Qt::black);
    painter.setPen(Qt::NoPen);
    painter.drawEllipse(spot, 8, 8);
    painter.end();
    const QImage laid = rectified(photo, corners, face, size);
    CHECK(laid.size() == size);
    INFO(n);
    CHECK(away(darkNear(laid, spot, 16), spot) < 0.5);
  }
}

TEST_CASE("a photo is read, scaled down, and says which tag it shows") {
  const QTemporaryDir folder;
  QImage photo(5000, 2500, QImage::Format_RGB32);
  photo.fill(QColor(180, 140, 100));
  const QImage tag =
      toImage(boardTag(test::mapChestBoard(), *findLabelStock("roll-100x50"), Unit::inches), 203);
  QPainter(&photo).drawImage(2000, 1000, tag);
  const QString path = folder.filePath("bench.jpg");
  REQUIRE(photo.save(path, "JPEG", 92));
  QImage clear(300, 200, QImage::Format_ARGB32);
  clear.fill(Qt::transparent);
  REQUIRE(clear.save(folder.filePath("clear.png")));
  const auto read = readPhotos({path.toStdString(), folder.filePath("clear.png").toStdString()});
  REQUIRE(read.size() == 2);
  INFO(read[0].reading.trouble);
  REQUIRE(read[0].reading.found.size() >= 1);
  CHECK(read[0].reading.found[0].text == "T0042F");
  CHECK(read[0].width == photoSide);
  CHECK(read[0].height == photoSide / 2);
  CHECK(read[0].sha256.size() == 64);
  const QImage kept = QImage::fromData(QByteArray::fromStdString(read[0].jpeg), "JPEG");
  CHECK(kept.size() == QSize(photoSide, photoSide / 2));
  const QImage ground = QImage::fromData(QByteArray::fromStdString(read[1].jpeg), "JPEG");
  CHECK(ground.size() == QSize(300, 200));
  CHECK(qGray(ground.pixel(150, 100)) > 250);
}

TEST_CASE("bad photos get a sentence each, and no picture") {
  const QTemporaryDir folder;
  QImage photo(800, 600, QImage::Format_RGB32);
  photo.fill(QColor(120, 90, 60));
  REQUIRE(photo.save(folder.filePath("whole.jpg"), "JPEG"));
  REQUIRE(photo.save(folder.filePath("whole.png")));
  const QByteArray jpeg = bytesOf(folder.filePath("whole.jpg"));
  const QByteArray png = bytesOf(folder.filePath("whole.png"));
  QByteArray vast = jpeg;
  // Start of frame: length, precision, then height and width (ITU-T T.81, B.2.2).
  const qsizetype frame = vast.indexOf("\xff\xc0");
  REQUIRE(frame > 0);
  vast.replace(frame + 5, 4, QByteArray::fromHex("ea60ea60"));
  struct Case {
    const char* name;
    QByteArray bytes;
    const char* says;
  };
  const Case cases[]{{"cut.jpg", jpeg.left(jpeg.size() * 2 / 3), "cut off"},
                     {"cut.png", png.left(png.size() / 2), "damaged"},
                     {"vast.jpg", vast, "megapixels"},
                     {"vast.gif", gif(60'000, 60'000), "megapixels"},
                     {"small.gif", gif(40, 40), "JPEG or PNG"},
                     {"words.jpg", "not a picture at all", "not a picture"},
                     {"empty.jpg", "", "not a picture"},
                     {"head.jpg", jpeg.left(3), "."}};
  std::vector<std::string> paths;
  for (const Case& one : cases) {
    write(folder.filePath(one.name), one.bytes);
    paths.push_back(folder.filePath(one.name).toStdString());
  }
  // The content counts, not the name.
  write(folder.filePath("jpeg-named.png"), jpeg);
  paths.push_back(folder.filePath("jpeg-named.png").toStdString());
  const auto read = readPhotos(paths);
  REQUIRE(read.size() == paths.size());
  for (std::size_t n = 0; n < std::size(cases); ++n) {
    INFO(cases[n].name << ": " << read[n].reading.trouble);
    CHECK(read[n].reading.trouble.find(cases[n].says) != std::string::npos);
    CHECK(read[n].jpeg.empty());
  }
  CHECK(read.back().reading.trouble.empty());
  CHECK(read.back().width == 800);
}

TEST_CASE("a watched folder hands out each whole photo once") {
  const QTemporaryDir folder;
  PhotoFolder watched(folder.path().toStdString());
  CHECK(watched.look().empty());
  write(folder.filePath("b.JPG"), "12");
  write(folder.filePath("a.png"), "1");
  write(folder.filePath("notes.txt"), "1");
  CHECK(watched.look().empty());  // they may still be coming
  write(folder.filePath("a.png"), "123");
  REQUIRE(watched.look().size() == 1);  // a.png grew meanwhile
  const auto later = watched.look();
  REQUIRE(later.size() == 1);
  CHECK(later[0].find("a.png") != std::string::npos);
  CHECK(watched.look().empty());
  write(folder.filePath("c.jpeg"), "1");
  CHECK(watched.lookOnce().size() == 1);
  CHECK(watched.lookOnce().empty());
  CHECK_THROWS_AS(PhotoFolder("/no-such-folder"), Refusal);
}

TEST_CASE("photos on paper lie two to a sheet with their captions") {
  QImage wide(1200, 200, QImage::Format_RGB32), tall(200, 1200, QImage::Format_RGB32);
  wide.fill(Qt::gray);
  tall.fill(Qt::gray);
  const auto pages =
      photoPages({{wide, "T0042-F, wet"}, {tall, "T0044-B, wet"}, {wide, "T0045-9, short footage"}},
                 "Claim on Quillmere");
  REQUIRE(pages.size() == 2);
  for (const Page& page : pages) {
    test::checkTexts(page);
    for (const Ink& ink : page.ink)
      if (const auto* picture = std::get_if<Picture>(&ink)) {
        CHECK(QRectF(QPointF(12, 12), QSizeF(186, 263)).contains(picture->box));
        CHECK(picture->box.width() / picture->box.height() ==
              Approx(double(picture->image.width()) / picture->image.height()).epsilon(0.01));
      }
  }
  CHECK(test::shown({pages[0]}, "T0044-B, wet") == 1);
  CHECK(photoPages({}, "Claim").empty());
}
