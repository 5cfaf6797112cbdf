#include "labels/symbol.h"

#include <array>
#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <stdexcept>

using flitch::pages::Modules;

namespace {

/// Element widths of the symbol characters 0 to 105 and of the stop, bars and spaces in turn
/// (ISO/IEC 15417, table of symbol characters, as restated by public descriptions of Code 128).
constexpr std::array<const char*, 107> widths{
    "212222", "222122", "222221", "121223", "121322", "131222", "122213", "122312", "132212",
    "221213", "221312", "231212", "112232", "122132", "122231", "113222", "123122", "123221",
    "223211", "221132", "221231", "213212", "223112", "312131", "311222", "321122", "321221",
    "312212", "322112", "322211", "212123", "212321", "232121", "111323", "131123", "131321",
    "112313", "132113", "132311", "211313", "231113", "231311", "112133", "112331", "132131",
    "113123", "113321", "133121", "313121", "211331", "231131", "213113", "213311", "213131",
    "311123", "311321", "331121", "312113", "312311", "332111", "314111", "221411", "431111",
    "111224", "111422", "121124", "121421", "141122", "141221", "112214", "112412", "122114",
    "122411", "142112", "142211", "241211", "221114", "413111", "241112", "134111", "111242",
    "121142", "121241", "114212", "124112", "124211", "411212", "421112", "421211", "212141",
    "214121", "412121", "111143", "111341", "131141", "114113", "114311", "411113", "411311",
    "113141", "114131", "311141", "411131", "211412", "211214", "211232", "2331112"};

/// Values of the symbol characters, start first, stop last.
std::vector<int> valuesOf(const Modules& modules) {
  std::string elements;
  for (int column = 0; column < modules.columns;) {
    int end = column;
    while (end < modules.columns && modules.at(end, 0) == modules.at(column, 0)) ++end;
    elements += static_cast<char>('0' + end - column);
    column = end;
  }
  std::vector<int> values;
  for (std::size_t at = 0; at < elements.size();) {
    const std::size_t length = elements.size() - at == 7 ? 7 : 6;
    const std::string character = elements.substr(at, length);
    const auto found = std::find(widths.begin(), widths.end(), character);
    REQUIRE(found != widths.end());
    values.push_back(static_cast<int>(found - widths.begin()));
    at += length;
  }
  return values;
}

int checkOf(const std::vector<int>& startAndData) {
  int sum = startAndData.front();
  for (std::size_t at = 1; at < startAndData.size(); ++at)
    sum += static_cast<int>(at) * startAndData[at];
  return sum % 103;
}

/// Code sets B and C, as far as tag codes use them.
std::string textOf(const std::vector<int>& values) {
  REQUIRE(values.size() >= 4);
  REQUIRE((values.front() == 104 || values.front() == 105));
  char set = values.front() == 104 ? 'B' : 'C';
  std::string text;
  for (std::size_t at = 1; at + 2 < values.size(); ++at) {
    const int value = values[at];
    if (set == 'B' && value == 99)
      set = 'C';
    else if (set == 'C' && value == 100)
      set = 'B';
    else if (set == 'C') {
      REQUIRE(value < 100);
      text += {static_cast<char>('0' + value / 10), static_cast<char>('0' + value % 10)};
    } else {
      REQUIRE(value < 96);
      text += static_cast<char>(value + 32);
    }
  }
  return text;
}

struct Example {
  std::string set, data;
  std::vector<int> values;
  int sum = 0, check = 0;
};

std::vector<Example> publishedExamples() {
  std::ifstream file(FLITCHBOOK_TEST_DATA "/code128_check_examples.csv");
  REQUIRE(file.is_open());
  std::vector<Example> examples;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    std::istringstream cells(line);
    std::string id, values, sum, check;
    Example example;
    std::getline(cells, id, ',');
    std::getline(cells, example.set, ',');
    std::getline(cells, example.data, ',');
    std::getline(cells, values, ',');
    std::getline(cells, sum, ',');
    std::getline(cells, check, ',');
    std::istringstream numbers(values);
    for (int value = 0; numbers >> value;) example.values.push_back(value);
    example.sum = std::stoi(sum);
    example.check = std::stoi(check);
    examples.push_back(std::move(example));
  }
  return examples;
}

}  // namespace

TEST_CASE("the check rule of Code 128 agrees with the published examples") {
  const auto examples = publishedExamples();
  REQUIRE(examples.size() == 5);
  for (const Example& example : examples) {
    INFO(example.data);
    CHECK(example.sum % 103 == example.check);
    CHECK(checkOf(example.values) == example.check);
  }
}

TEST_CASE("code128 draws the symbol characters of the published examples") {
  int drawn = 0;
  for (const Example& example : publishedExamples()) {
    // The writer has no code set A; examples that need none are drawn exactly.
    if (example.set != "B" && example.set != "C") continue;
    INFO(example.data);
    std::vector<int> expected = example.values;
    expected.push_back(example.check);
    expected.push_back(106);
    CHECK(valuesOf(flitch::pages::code128(example.data)) == expected);
    ++drawn;
  }
  CHECK(drawn == 2);
}

TEST_CASE("code128 of tag codes has their text, the right check value and width") {
  for (const std::string text : {"T0042F", "T00017", "B00075", "P123456K", "T999999998X"}) {
    INFO(text);
    const Modules modules = flitch::pages::code128(text);
    const std::vector<int> values = valuesOf(modules);
    CHECK(textOf(values) == text);
    const std::vector<int> checked(values.begin(), values.end() - 2);
    CHECK(values[values.size() - 2] == checkOf(checked));
    CHECK(values.back() == 106);
    CHECK(modules.rows == 1);
    // 11 modules a character, 13 for the stop (ISO/IEC 15417).
    CHECK(modules.columns == 11 * static_cast<int>(values.size() - 1) + 13);
  }
}

TEST_CASE("qr of a tag code is version 1 with its three finder patterns") {
  const Modules modules = flitch::pages::qr("T0042F");
  REQUIRE(modules.columns == 21);
  REQUIRE(modules.rows == 21);
  const auto finder = [&](int left, int top) {
    for (int row = 0; row < 7; ++row)
      for (int column = 0; column < 7; ++column) {
        const bool rim = row == 0 || row == 6 || column == 0 || column == 6;
        const bool heart = row >= 2 && row <= 4 && column >= 2 && column <= 4;
        if (modules.at(left + column, top + row) != (rim || heart)) return false;
      }
    return true;
  };
  CHECK(finder(0, 0));
  CHECK(finder(14, 0));
  CHECK(finder(0, 14));
  // Level Q is 11 in the two format bits, masked with 10 (ISO/IEC 18004): 01 at row 8.
  CHECK_FALSE(modules.at(0, 8) == modules.at(1, 8));
}

TEST_CASE("symbols refuse what they cannot hold") {
  CHECK_THROWS_AS(flitch::pages::code128(""), std::invalid_argument);
  CHECK_THROWS_AS(flitch::pages::code128("Grüße"), std::invalid_argument);
  CHECK_THROWS_AS(flitch::pages::code128(std::string(81, 'A')), std::invalid_argument);
  CHECK_THROWS_AS(flitch::pages::qr(""), std::invalid_argument);
}
