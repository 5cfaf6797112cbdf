#include "labels/tally_paper.h"

#include <catch2/catch.hpp>

#include "tests/labels/words_on.h"

using namespace flitch;
using namespace flitch::pages;

namespace {

std::vector<TagCode> roll(std::int64_t from, std::size_t count) {
  std::vector<TagCode> tags;
  for (std::int64_t serial = from; tags.size() < count; ++serial)
    if (issuable(TagKind::board, serial)) tags.push_back({TagKind::board, serial});
  return tags;
}

}  // namespace

TEST_CASE("a tally sheet has every number of the roll once, in order, twenty to a sheet") {
  const std::vector<TagCode> tags = roll(148, 45);
  for (const Unit unit : {Unit::inches, Unit::millimetres}) {
    const std::vector<Page> pages = tallyPaper(tags, unit);
    REQUIRE(pages.size() == 3);
    std::size_t next = 0;
    for (const Page& page : pages) {
      CHECK(page.mm == QSizeF(210, 297));
      test::checkTexts(page);
      for (const Text& said : test::texts(page)) {
        if (!said.bold || said.text.size() != 7 || said.text[0] != 'T' || said.text[5] != '-')
          continue;
        REQUIRE(next < tags.size());
        CHECK(said.text.toStdString() == text(tags[next++]));
      }
    }
    CHECK(next == tags.size());
    CHECK(test::shown(pages, "looked") == 3 + 3);  // a column's head and the line that explains it
    CHECK(test::shown(pages, "feet-inches") == (unit == Unit::inches ? 3 : 0));
    CHECK(test::shown({pages.back()}, "3 of 3") == 1);
  }
  CHECK(tallyPaper({}, Unit::inches).empty());
}

TEST_CASE("long serials keep clear of the cells of a tally sheet") {
  for (const Page& page : tallyPaper(roll(98'765'432, 20), Unit::inches)) test::checkTexts(page);
}
