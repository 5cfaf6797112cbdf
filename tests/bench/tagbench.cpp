#include <QElapsedTimer>
#include <QGuiApplication>
#include <cstdlib>
#include <iomanip>
#include <iostream>
#include <map>

#include "tests/labels/worn_pictures.h"

/// tagbench [PICTURES] [SEED]: reads so many pictures (1000) of tags over all label stocks, 203 and
/// 300 dpi and every kind of wear, and prints the share read of each. Exit 1: a board would have
/// been opened that was not in the picture.
int main(int argc, char** argv) {
  using namespace flitch;
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  const QGuiApplication app(argc, argv);
  const int pictures = argc > 1 ? std::atoi(argv[1]) : 1000;
  std::mt19937 random(argc > 2 ? static_cast<unsigned>(std::atoi(argv[2])) : 1u);
  struct Rate {
    int tried = 0, read = 0;
  };
  std::map<std::pair<test::Wear, int>, Rate> rates;
  std::map<std::string, Rate> byStock;
  int wrong = 0;
  QElapsedTimer since;
  since.start();
  const auto& stocks = pages::labelStocks();
  for (int n = 0; n < pictures; ++n) {
    const auto at = static_cast<std::size_t>(n);
    const test::Wear wear = test::wears[at % std::size(test::wears)];
    const std::size_t turn = at / std::size(test::wears);
    const pages::LabelStock& stock = stocks[turn % stocks.size()];
    const int dpi = turn / stocks.size() % 2 == 0 ? 203 : 300;
    const test::WornPicture worn = test::wornPicture(random, stock, dpi, wear);
    const test::Outcome came = test::outcome(worn);
    if (came == test::Outcome::wrong) {
      ++wrong;
      std::cout << "wrong: " << worn.code << " " << worn.stock << " " << word(wear) << "\n";
    }
    for (Rate* rate : {&rates[{wear, dpi}], &byStock[stock.name]}) {
      ++rate->tried;
      rate->read += came == test::Outcome::read;
    }
  }
  const auto line = [](const std::string& what, const Rate& rate) {
    std::cout << std::left << std::setw(30) << what << std::right << std::setw(5) << rate.read
              << " of " << std::setw(4) << rate.tried << std::setw(8) << std::fixed
              << std::setprecision(1) << 100.0 * rate.read / std::max(1, rate.tried) << " %\n";
  };
  for (const auto& [kind, rate] : rates)
    line(std::string(word(kind.first)) + ", " + std::to_string(kind.second) + " dpi", rate);
  for (const auto& [stock, rate] : byStock) line(stock, rate);
  std::cout << pictures << " pictures, " << wrong << " wrong boards, "
            << since.elapsed() / std::max(1, pictures) << " ms a picture\n";
  return wrong == 0 ? 0 : 1;
}
