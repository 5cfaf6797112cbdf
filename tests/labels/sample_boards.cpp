#include "tests/labels/sample_boards.h"

#include <array>

namespace flitch::test {
namespace {

template <class List>
auto pick(std::mt19937& random, const List& list) {
  return list[std::uniform_int_distribution<std::size_t>(0, list.size() - 1)(random)];
}
std::int64_t between(std::mt19937& random, std::int64_t low, std::int64_t high) {
  return std::uniform_int_distribution<std::int64_t>(low, high)(random);
}

}  // namespace

std::vector<Board> sampleBoards(unsigned seed, int count) {
  const std::array<std::string, 6> species{
      "cherry",    "ash",
      "white oak", "quartersawn European sycamore, steamed and figured",
      "walnut",    "Macassar ebony (old stock from the harbour store)"};
  const std::array<std::string, 5> grades{"FAS", "1C", "FAS one face", "",
                                          "prime, second length, sapwood no defect"};
  const std::array<std::string, 4> bays{"B3", "K2", "", "loft above the finishing room"};
  const std::array<std::string, 3> suppliers{"Hallan Sawmill", "",
                                             "Upper Strand Timber and Veneer Company"};
  const std::array<Nominal, 5> nominals{Nominal::quarters(4), Nominal::quarters(5),
                                        Nominal::quarters(8), Nominal::quarters(16),
                                        Nominal::millimetres(27)};
  std::mt19937 random(seed);
  std::vector<Board> boards;
  for (int n = 0; n < count; ++n) {
    Board board;
    board.id = {n + 1};
    const std::int64_t after = between(random, 0, n % 5 == 4 ? 900'000'000 : 9'000);
    board.tag = TagCode{TagKind::board, nextIssuable(TagKind::board, after)};
    board.kind = n % 4 == 3 ? BoardKind::offcut : BoardKind::plank;
    board.species = pick(random, species);
    board.grade = pick(random, grades);
    board.nominal = pick(random, nominals);
    board.thickness = board.nominal.length() - Length::sixtyFourths(4);
    board.bay = pick(random, bays);
    board.supplier = pick(random, suppliers);
    const Length width = Length::sixtyFourths(between(random, 3 * 64, 24 * 64));
    const Length length = Length::sixtyFourths(between(random, 12 * 64, 200 * 64));
    const Length taper = Length::sixtyFourths(between(random, 0, 32));
    board.outline = {Outline::tapered(length, width, width - taper),
                     Outline::tapered(length, width, width - taper)};
    board.measuredFeet = {between(random, 300, 60'000)};
    boards.push_back(std::move(board));
  }
  return boards;
}

Board mapChestBoard() {
  Board board;
  board.id = {42};
  board.tag = TagCode{TagKind::board, 42};
  board.species = "cherry";
  board.grade = "FAS";
  board.nominal = Nominal::quarters(4);
  board.thickness = Length::sixtyFourths(68);
  board.measured = true;
  const Outline outline =
      Outline::tapered(Length::inches(126), Length::sixtyFourths(560), Length::sixtyFourths(528));
  board.outline = {outline, outline};
  board.looked = {Looked::planed, Looked::planed};
  const auto mark = [&](const char* kind, DefectFace face, std::int64_t x, std::int64_t y,
                        std::int64_t dx, std::int64_t dy) {
    board.defects.push_back({kind,
                             face,
                             {Length::sixtyFourths(x), Length::sixtyFourths(y),
                              Length::sixtyFourths(dx), Length::sixtyFourths(dy)}});
  };
  mark("sound knot", DefectFace::through, 16 * 64 + 56, 6 * 64, 2 * 64 + 16, 104);
  mark("check", DefectFace::through, 123 * 64, 4 * 64 + 16, 3 * 64, 40);
  mark("wane", DefectFace::a, 113 * 64, 8 * 64 - 8, 7 * 64, 48);
  mark("sound knot", DefectFace::b, 86 * 64, 2 * 64 + 16, 104, 80);
  mark("sapwood", DefectFace::b, 0, 7 * 64 + 48, 126 * 64, 64);
  board.warp.bow = Length::sixtyFourths(16);
  board.measuredFeet = {7'438};
  board.bay = "B3";
  board.supplier = "Hallan Sawmill";
  return board;
}

}  // namespace flitch::test
