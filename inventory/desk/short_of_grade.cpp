#include "inventory/desk/short_of_grade.h"

#include <algorithm>
#include <tuple>

#include "inventory/desk/board_grade.h"
#include "inventory/wood/writing.h"

namespace flitch::desk {
namespace {

/// Units that a grade promises for each foot of surface measure (NHLA grading chart; F1F and
/// Selects of the better face). Below No. 3A: those of No. 3B.
int unitsPromised(Grade grade) {
  switch (grade) {
    case Grade::fas:
    case Grade::fasOneFace:
    case Grade::selects: return 10;
    case Grade::no1Common: return 8;
    case Grade::no2aCommon: return 6;
    case Grade::no3aCommon: return 4;
    case Grade::below: return 3;
  }
  return 3;
}

Money scaled(Money price, std::int64_t by, std::int64_t over) {
  return Money::tenThousandths(narrow(nearest(static_cast<Wide>(price.raw()) * by, over)));
}

/// A board of that grade whose price may be compared: the supplier's own first, then the newest.
const Board* pricedLike(const Board& board, Grade grade, const std::vector<Board>& known) {
  const Board* best = nullptr;
  const auto rank = [&](const Board& other) {
    return std::tuple(other.supplier == board.supplier, other.delivery.value, other.id.value);
  };
  for (const Board& other : known) {
    const bool comparable = other.species == board.species && other.nominal == board.nominal &&
                            other.billed > Feet{} && other.price > Money() &&
                            parseGrade(other.grade) == grade;
    if (comparable && (best == nullptr || rank(other) > rank(*best))) best = &other;
  }
  return best;
}

}  // namespace

Money ShortOfGrade::paid() const {
  Money sum;
  for (const ShortBoard& one : boards) sum += one.board.price;
  return sum;
}

Money ShortOfGrade::atStake() const {
  Money sum;
  for (const ShortBoard& one : boards) sum += one.atStake();
  return sum;
}

ShortOfGrade shortOfGrade(const std::vector<Board>& boards, const std::vector<Board>& known,
                          int decide) {
  ShortOfGrade result;
  for (const Board& board : boards) {
    const std::optional<Grade> paidAs = parseGrade(board.grade);
    if (!paidAs || board.price <= Money()) continue;
    // Whether it reaches a grade is asked, not how good the best set of cuttings is.
    const BoardGrade grade = gradeOf(board, {decide, 1});
    if (!grade.estimate || grade.estimate->grade <= *paidAs) continue;
    const Grade looksLike = grade.estimate->grade;
    if (*paidAs == Grade::fas && looksLike == Grade::fasOneFace) continue;
    if (!grade.estimate->exact) {
      ++result.undecided;
      continue;
    }
    ShortBoard& one = result.boards.emplace_back();
    one.board = board;
    one.paidAs = *paidAs;
    one.looksLike = looksLike;
    const Board* like = pricedLike(board, looksLike, known);
    one.byPrice = like != nullptr && board.billed > Feet{};
    one.worth = one.byPrice
                    ? scaled(like->price, board.billed.thousandths, like->billed.thousandths)
                    : scaled(board.price, unitsPromised(looksLike), unitsPromised(*paidAs));
  }
  return result;
}

std::string sentence(const ShortOfGrade& shorts, std::string_view sign) {
  if (shorts.boards.empty()) return {};
  const bool one = shorts.boards.size() == 1;
  return std::to_string(shorts.boards.size()) + (one ? " board looks" : " boards look") +
         " short of the grade paid, about " + text(shorts.atStake(), sign) +
         " at stake: an inspector decides";
}

Table shortTable(const ShortOfGrade& shorts, Unit unit) {
  Table table;
  table.title = "Short of the grade paid";
  table.columns = {{"tag", "tag", false},
                   {"species", "species", false},
                   {"nominal", "quarters", false},
                   {"size", "size", false},
                   {"supplier", "supplier", false},
                   {"paid_as", "paid as", false},
                   {"looks_like", "looks like", false},
                   {"billed_feet", "billed", true},
                   {"paid", "paid", true},
                   {"worth", "as that", true},
                   {"at_stake", "at stake", true},
                   {"by", "by", false}};
  for (const ShortBoard& one : shorts.boards) {
    const Board& b = one.board;
    table.rows.push_back({b.tag ? text(*b.tag) : std::string(), b.species, text(b.nominal),
                          sizeText(b, unit), b.supplier, std::string(word(one.paidAs)),
                          std::string(word(one.looksLike)), b.billed, b.price, one.worth,
                          one.atStake(),
                          std::string(one.byPrice ? "price in the book" : "clear wood promised")});
  }
  const auto count = std::to_string(shorts.boards.size());
  table.totals.resize(table.columns.size());
  table.totals[0] = count + (shorts.boards.size() == 1 ? " board" : " boards");
  table.totals[8] = shorts.paid();
  table.totals[10] = shorts.atStake();
  table.note = "Estimates: a licensed inspector decides.";
  if (shorts.undecided > 0) {
    table.note += " Not decided, the search ran out: " + std::to_string(shorts.undecided) + ".";
  }
  return table;
}

}  // namespace flitch::desk
