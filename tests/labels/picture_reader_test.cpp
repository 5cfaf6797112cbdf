#include "labels/picture_reader.h"

#include <QDir>
#include <QFile>
#include <QPainter>
#include <QTemporaryDir>
#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>

#include "inventory/records/refusal.h"
#include "labels/symbol.h"
#include "labels/tag_page.h"
#include "tests/labels/sample_boards.h"

using namespace flitch;
using namespace flitch::pages;

namespace {

QImage tagPicture(const Board& board, int dpi = 203) {
  return toImage(boardTag(board, *findLabelStock("roll-100x50"), Unit::inches), dpi);
}

/// As a photograph has it: turned about its middle on a grey bench.
QImage turned(const QImage& picture, double degrees) {
  const int side = static_cast<int>(1.3 * std::max(picture.width(), picture.height()));
  QImage bench(side, side, QImage::Format_RGB32);
  bench.fill(qRgb(205, 200, 190));
  QPainter painter(&bench);
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  painter.translate(side / 2.0, side / 2.0);
  painter.rotate(degrees);
  painter.drawImage(QPointF(-picture.width() / 2.0, -picture.height() / 2.0), picture);
  painter.end();
  return bench;
}

std::vector<std::string> texts(const std::vector<Found>& found, const std::string& format) {
  std::vector<std::string> all;
  for (const Found& one : found)
    if (one.format == format) all.push_back(one.text);
  return all;
}

/// CRC-32 as PNG chunks carry it (ISO/IEC 15948, annex D), big endian.
QByteArray checksum(const QByteArray& bytes) {
  std::uint32_t crc = 0xffffffffu;
  for (const char byte : bytes) {
    crc ^= static_cast<unsigned char>(byte);
    for (int bit = 0; bit < 8; ++bit) crc = (crc >> 1) ^ ((crc & 1) != 0 ? 0xedb88320u : 0u);
  }
  crc = ~crc;
  QByteArray result;
  for (int shift = 24; shift >= 0; shift -= 8) result.append(static_cast<char>(crc >> shift));
  return result;
}

QImage barsOnly(const std::string& text) {
  return toImage({{90, 60}, {Symbol{Symbol::Kind::code128, text, QRectF(15, 15, 60, 28)}}}, 203);
}

}  // namespace

TEST_CASE("a tag is read however the picture is turned") {
  const Board board = test::mapChestBoard();
  const QImage tag = tagPicture(board);
  for (int degrees = 0; degrees < 360; degrees += 15) {
    INFO(degrees);
    CHECK(texts(decode(turned(tag, degrees)), "QRCode") == std::vector<std::string>{"T0042F"});
  }
}

TEST_CASE("bars alone are read however the picture is turned") {
  const QImage bars = barsOnly("T0042F");
  for (int degrees = 0; degrees < 360; degrees += 15) {
    INFO(degrees);
    CHECK(texts(decode(turned(bars, degrees)), "Code128") == std::vector<std::string>{"T0042F"});
  }
}

TEST_CASE("all tags of a full sheet are read from one picture, top to bottom, without repeats") {
  const LabelStock& stock = *findLabelStock("a4-3x8");
  std::vector<Page> labels;
  std::vector<std::string> codes;
  for (std::int64_t serial = 41; labels.size() < 24; ++serial) {
    if (!issuable(TagKind::board, serial)) continue;
    Board board = test::mapChestBoard();
    board.tag = TagCode{TagKind::board, serial};
    labels.push_back(boardTag(board, stock, Unit::inches));
    codes.push_back(symbolText(*board.tag));
  }
  const auto found = decode(toImage(impose(labels, stock)[0], 203));
  std::vector<std::string> squares = texts(found, "QRCode"), bars = texts(found, "Code128");
  CHECK(squares.front() == codes[0]);
  std::sort(squares.begin(), squares.end());
  std::sort(bars.begin(), bars.end());
  std::sort(codes.begin(), codes.end());
  CHECK(squares == codes);
  CHECK(bars == codes);
}

TEST_CASE("two symbols of the same text do not stop the reader") {
  const QImage one = barsOnly("T0042F");
  QImage two(one.width(), one.height() * 2, QImage::Format_RGB32);
  QPainter painter(&two);
  painter.drawImage(0, 0, one);
  painter.drawImage(0, one.height(), one);
  painter.end();
  CHECK(texts(decode(two), "Code128") == std::vector<std::string>{"T0042F"});
}

TEST_CASE("a picture without symbols gives none") {
  QImage plain(400, 300, QImage::Format_Grayscale8);
  plain.fill(180);
  CHECK(decode(plain).empty());
  CHECK(decode(QImage()).empty());
}

TEST_CASE("pictures good and bad are read through the child, each with its own answer") {
  const QTemporaryDir folder;
  const auto path = [&](const char* name) { return folder.filePath(name).toStdString(); };
  const QImage tag = tagPicture(test::mapChestBoard());
  REQUIRE(tag.save(folder.filePath("good.png")));
  REQUIRE(tag.save(folder.filePath("photo.jpg")));
  REQUIRE(tag.save(folder.filePath("wrong-extension.txt"), "PNG"));
  QFile good(folder.filePath("good.png"));
  REQUIRE(good.open(QIODevice::ReadOnly));
  const QByteArray bytes = good.readAll();
  const auto write = [&](const char* name, const QByteArray& content) {
    QFile file(folder.filePath(name));
    REQUIRE(file.open(QIODevice::WriteOnly));
    file.write(content);
  };
  write("truncated.png", bytes.left(bytes.size() / 2));
  write("text.png", "These are no pixels.\n");
  write("empty.png", "");
  // A small PNG that says it is 50 000 x 50 000.
  QByteArray huge = bytes;
  huge.replace(16, 8, QByteArray::fromHex("0000c3500000c350"));
  huge.replace(29, 4, checksum(huge.mid(12, 17)));
  write("huge.png", huge);
  write("huge.pgm", "P5 20000 20000 255\nx");
  QImage blank(300, 200, QImage::Format_Grayscale8);
  blank.fill(255);
  REQUIRE(blank.save(folder.filePath("blank.png")));

  const std::vector<const char*> names{
      "good.png", "truncated.png", "text.png",  "empty.png",           "huge.png",
      "huge.pgm", "missing.png",   "photo.jpg", "wrong-extension.txt", "blank.png"};
  std::vector<std::string> paths;
  for (const char* name : names) paths.push_back(path(name));
  paths.push_back(folder.path().toStdString());
  const auto readings = readPictures(paths);
  REQUIRE(readings.size() == paths.size());
  for (std::size_t at = 0; at < paths.size(); ++at) {
    INFO(paths[at] << ": " << readings[at].trouble);
    CHECK(readings[at].path == paths[at]);
    const std::string name = at < names.size() ? names[at] : "folder";
    if (name == "good.png" || name == "photo.jpg" || name == "wrong-extension.txt") {
      CHECK(readings[at].trouble.empty());
      CHECK(texts(readings[at].found, "QRCode") == std::vector<std::string>{"T0042F"});
      CHECK(texts(readings[at].found, "Code128") == std::vector<std::string>{"T0042F"});
    } else if (name == "blank.png") {
      CHECK(readings[at].trouble.empty());
      CHECK(readings[at].found.empty());
    } else {
      CHECK(readings[at].found.empty());
      CHECK(readings[at].trouble.size() > 10);
      CHECK(readings[at].trouble.back() == '.');
    }
  }
  for (const std::size_t vast : {4u, 5u})
    CHECK(readings[vast].trouble.find("megapixels") != std::string::npos);
  CHECK(readPictures({}).empty());
}

TEST_CASE("a child that dies over one picture costs that picture only") {
  const QTemporaryDir folder;
  const QString child = folder.filePath("child");
  QFile script(child);
  REQUIRE(script.open(QIODevice::WriteOnly));
  script.write(
      "#!/bin/sh\n"
      "while read path; do case $path in\n"
      "deadly*) kill -ABRT $$;;\n"
      "garbled*) echo 'not JSON';;\n"
      "*) echo '{\"found\": [{\"text\": \"T0042F\", \"format\": \"QRCode\"}], \"trouble\": "
      "\"\"}';;\n"
      "esac; done\n");
  script.close();
  REQUIRE(script.setPermissions(QFile::ReadOwner | QFile::WriteOwner | QFile::ExeOwner));
  const auto readings = readPictures({"first", "deadly", "second", "garbled", "deadly", "third"},
                                     child.toStdString());
  REQUIRE(readings.size() == 6);
  for (const std::size_t good : {0u, 2u, 5u}) {
    CHECK(readings[good].trouble.empty());
    CHECK(readings[good].found.size() == 1);
  }
  for (const std::size_t lost : {1u, 3u, 4u}) {
    CHECK(readings[lost].found.empty());
    CHECK(readings[lost].trouble.find("came to an end") != std::string::npos);
  }
  CHECK(readPictures({"a\nb"}, child.toStdString())[0].trouble.size() > 10);
}

TEST_CASE("a missing reader program is refused by name") {
  CHECK_THROWS_AS(readPictures({"x.png"}, "/no-such-folder/flitch-reader"), Refusal);
}
