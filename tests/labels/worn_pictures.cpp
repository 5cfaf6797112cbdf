#include "tests/labels/worn_pictures.h"

#include <QPainter>
#include <QTransform>
#include <algorithm>
#include <cmath>

#include "labels/picture_reader.h"
#include "labels/tag_page.h"
#include "tests/labels/sample_boards.h"

namespace flitch::test {
namespace {

double somewhere(std::mt19937& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

/// The label on a bench under a perspective: each corner moved by up to `slant` of its size.
QImage onBench(const QImage& label, std::mt19937& random, double degrees, double scale,
               double slant) {
  const double w = label.width() * scale, h = label.height() * scale;
  const double side = 1.35 * std::hypot(w, h);
  const QTransform turn = QTransform().translate(side / 2, side / 2).rotate(degrees);
  QPolygonF from, to;
  for (const auto& [x, y] : {std::pair(0, 0), std::pair(1, 0), std::pair(1, 1), std::pair(0, 1)}) {
    from << QPointF(x * label.width(), y * label.height());
    const QPointF at((x - 0.5) * w, (y - 0.5) * h);
    const double reach = slant * std::min(w, h);
    to << turn.map(at) +
              QPointF(somewhere(random, -reach, reach), somewhere(random, -reach, reach));
  }
  QTransform perspective;
  QTransform::quadToQuad(from, to, perspective);
  QImage bench(static_cast<int>(side), static_cast<int>(side), QImage::Format_RGB32);
  bench.fill(qRgb(150, 140, 125));
  QPainter painter(&bench);
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  painter.setTransform(perspective);
  painter.drawImage(0, 0, label);
  painter.end();
  return bench.convertToFormat(QImage::Format_Grayscale8);
}

/// Three passes of a box along rows and columns come near to a Gaussian of this deviation.
QImage blurred(const QImage& grey, double deviation) {
  const int reach = std::max(
      1, static_cast<int>(std::lround((std::sqrt(4 * deviation * deviation + 1) - 1) / 2)));
  QImage now = grey;
  const auto pass = [&](bool rows) {
    QImage next(now.size(), QImage::Format_Grayscale8);
    const int outer = rows ? now.height() : now.width(), inner = rows ? now.width() : now.height();
    const auto at = [&](const QImage& image, int o, int i) {
      return rows ? image.constScanLine(o)[i] : image.constScanLine(i)[o];
    };
    for (int o = 0; o < outer; ++o) {
      int sum = 0;
      for (int i = -reach; i <= reach; ++i) sum += at(now, o, std::clamp(i, 0, inner - 1));
      for (int i = 0; i < inner; ++i) {
        (rows ? next.scanLine(o)[i] : next.scanLine(i)[o]) =
            static_cast<uchar>(sum / (2 * reach + 1));
        sum += at(now, o, std::min(i + reach + 1, inner - 1)) - at(now, o, std::max(i - reach, 0));
      }
    }
    now = next;
  };
  for (int n = 0; n < 3; ++n)
    for (const bool rows : {true, false}) pass(rows);
  return now;
}

template <class Change>
QImage changed(QImage grey, const Change& change) {
  for (int y = 0; y < grey.height(); ++y)
    for (int x = 0; x < grey.width(); ++x)
      grey.scanLine(y)[x] = static_cast<uchar>(
          std::clamp(change(static_cast<double>(grey.scanLine(y)[x])), 0.0, 255.0));
  return grey;
}

}  // namespace

const char* word(Wear wear) {
  switch (wear) {
    case Wear::none: return "as printed";
    case Wear::turned: return "turned 0 to 360";
    case Wear::scaled: return "scale 0.6 to 2.5";
    case Wear::blurred: return "blur 0.5 to 1.5 px";
    case Wear::noisy: return "noise 8 to 25";
    case Wear::faint: return "contrast 20 to 50 %";
    case Wear::slanted: return "perspective to 12 %";
    case Wear::all: return "all, half as much";
  }
  return "";
}

WornPicture wornPicture(std::mt19937& random, const pages::LabelStock& stock, int dpi, Wear wear) {
  Board board = sampleBoards(static_cast<unsigned>(random()), 1).front();
  board.kind = BoardKind::plank;
  const auto has = [&](Wear one) { return wear == one || wear == Wear::all; };
  const double share = wear == Wear::all ? 0.5 : 1;
  const double degrees = wear == Wear::none ? 0 : somewhere(random, 0, 360);
  const double scale = !has(Wear::scaled)  ? 1
                       : wear == Wear::all ? somewhere(random, 0.9, 1.8)
                                           : somewhere(random, 0.6, 2.5);
  const QImage label = pages::toImage(pages::boardTag(board, stock, Unit::inches), dpi);
  QImage picture = onBench(label, random, degrees, scale, has(Wear::slanted) ? 0.12 * share : 0);
  if (has(Wear::blurred)) picture = blurred(picture, somewhere(random, 0.5, 1.5) * share);
  if (has(Wear::faint)) {
    const double contrast = 1 - share + share * somewhere(random, 0.2, 0.5);
    const double light = somewhere(random, 80, 170);
    picture = changed(picture, [&](double grey) { return light + (grey - 128) * contrast; });
  }
  if (has(Wear::noisy)) {
    std::normal_distribution<double> noise(0, somewhere(random, 8, 25) * share);
    picture = changed(picture, [&](double grey) { return grey + noise(random); });
  }
  return {symbolText(*board.tag), stock.name, dpi, wear, picture};
}

Outcome outcome(const WornPicture& worn) {
  Outcome came = Outcome::unread;
  for (const pages::Found& found : pages::decode(worn.picture)) {
    if (found.text == worn.code) {
      if (came == Outcome::unread) came = Outcome::read;
    } else if (readTag(found.text).verdict == TagReading::Verdict::right) {
      came = Outcome::wrong;
    }
  }
  return came;
}

}  // namespace flitch::test
