#include "labels/estimate_page.h"

#include <catch2/catch.hpp>

#include "labels/quote_page.h"
#include "tests/labels/words_on.h"

using namespace flitch;
using namespace flitch::pages;
using test::checkTexts;
using test::shown;

namespace {

Job chest() {
  Job job;
  job.name = "Map chest";
  job.customer = "the harbour archive of Wendlehaven";
  for (int line = 1; line <= 3; ++line) {
    Part part;
    part.line = line;
    part.name = "part " + std::to_string(line);
    job.parts.push_back(part);
  }
  return job;
}

Estimate estimateOfMany(int lines) {
  Estimate e;
  e.day = "2026-11-25";
  for (int i = 0; i < lines; ++i) {
    WoodLine line;
    line.species = "white oak";
    line.grade = "No. 1 Common";
    line.boards = 3;
    line.feet = {35'000};
    line.cost = {Money::units(264), Money::units(301)};
    e.wood.push_back(line);
  }
  e.boards = 22;
  e.offcuts = 6;
  e.kept = {Money::units(61), Money::units(70)};
  e.materials = {
      {"a hanging rail of brass, 2 of 96 in: 3 × 30 1/8 in, 1 × 20 in; 1 of 48 in: 1 × 47 in",
       "3 bars", Money::units(38)}};
  e.work = {{"joinery", "118 h", Money::units(5664)}};
  e.sum = {Money::units(7440), Money::units(7812)};
  e.parts = {{1, {1}, {Money::units(4), Money::units(5)}}};
  e.notes = {"No price in the table, taken at landed cost: ash 4/4."};
  return e;
}

}  // namespace

TEST_CASE("an estimate is for the shop: both sums, every line, on as many sheets as it takes") {
  const auto one = estimatePages(estimateOfMany(6), chest(), {"Best so far $1,199.40.", "$"});
  REQUIRE(one.size() == 1);
  CHECK(shown(one, "7,440.00") == 1);
  CHECK(shown(one, "7,812.00") == 1);
  CHECK(shown(one, "the shop only") == 1);
  CHECK(shown(one, "Waste is shared among the parts of a species") == 1);
  const auto many = estimatePages(estimateOfMany(60), chest(), {"", "$"});
  CHECK(many.size() > 2);
  for (const Page& page : one) checkTexts(page, 26);
  for (const Page& page : many) checkTexts(page, 26);
}

TEST_CASE("a quote shows its price and no costs") {
  Quote quote;
  quote.number = "Q 26-041";
  quote.givenOn = "2026-11-25";
  quote.validUntil = "2027-01-25";
  quote.title = "A map chest of eight drawers";
  quote.words =
      "Case 50 1/2 in wide, 37 1/4 in deep, 26 in high, with a top of 53 by 39, on a low "
      "base. Five wide shallow drawers for charts, three small ones above.\nOil finish.";
  quote.terms = "Not included: fitting to the wall.";
  quote.price = Money::units(7440);
  const auto pages = quotePages(quote, {"Ropewalk Joinery", "Harbour archive", "$", true});
  REQUIRE(pages.size() == 1);
  CHECK(shown(pages, "$7,440.00") == 1);
  CHECK(shown(pages, "Valid until 2027-01-25") == 1);
  CHECK(shown(pages, "Wood moves with the seasons") == 1);
  int money = 0;
  for (const Text& text : test::texts(pages[0])) money += text.text.contains('$') ? 1 : 0;
  CHECK(money == 1);
  checkTexts(pages[0], 26);
  for (int i = 0; i < 6; ++i) quote.words += "\n" + quote.words;
  const auto longer = quotePages(quote, {"Ropewalk Joinery", "Harbour archive", "$", false});
  CHECK(longer.size() > 1);
  for (const Page& page : longer) checkTexts(page, 26);
}
