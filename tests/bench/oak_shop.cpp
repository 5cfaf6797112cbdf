#include "tests/bench/oak_shop.h"

#include <map>
#include <stdexcept>

namespace flitch::bench {
namespace {

using optimizer::Stock;
using optimizer::Tick;
using optimizer::Worth;

constexpr Tick dataUnit = inch / 4;
constexpr Worth price = 6 * dollar;  // a board foot

const std::map<std::string, Worth> permille{{"FAS", 1000}, {"F1F", 950}, {"SEL", 950},
                                            {"1C", 650},   {"2AC", 450}, {"3AC", 300}};

Stock stockOf(const Instance& board, const std::vector<PartKind>& kinds) {
  Stock stock;
  stock.profile = optimizer::Profile::rectangle(board.length * dataUnit, board.width * dataUnit);
  setPrice(stock, price * permille.at(board.grade) / 1000);
  for (const Instance::Defect& defect : board.defects) {
    const optimizer::Rect& r = defect.where;
    const bool isSound = defect.type == "SOUND_KNOT" || defect.type == "STAIN";
    addMark(stock, {r.x * dataUnit, r.y * dataUnit, r.dx * dataUnit, r.dy * dataUnit},
            defect.onBack ? MarkOn::faceB : MarkOn::faceA, isSound);
  }
  for (const PartKind& kind : kinds) stock.itemClass.push_back(kind.cls);
  return stock;
}

}  // namespace

optimizer::Problem oakShop(const std::vector<Instance>& boards, const ShopSize& size,
                           std::uint64_t seed) {
  std::vector<const Instance*> graded;
  for (const Instance& board : boards)
    if (permille.count(board.grade) > 0) graded.push_back(&board);
  const int all = static_cast<int>(graded.size());
  if (size.boards > all)
    throw std::invalid_argument("there are " + std::to_string(all) + " graded boards");
  optimizer::Draw draw(seed);
  optimizer::Problem problem = emptyShop();
  const std::vector<PartKind> kinds = addParts(draw, problem, size, {price}, false);
  for (int b = 0; b < size.boards; ++b) {
    std::swap(graded[static_cast<std::size_t>(b)],
              graded[static_cast<std::size_t>(draw(b, all - 1))]);
    problem.stock.push_back(stockOf(*graded[static_cast<std::size_t>(b)], kinds));
  }
  return problem;
}

}  // namespace flitch::bench
