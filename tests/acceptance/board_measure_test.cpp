#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <numeric>
#include <set>

#include "inventory/exchange/csv.h"
#include "tests/acceptance/program.h"

using flitch::acceptance::Bench;
using flitch::exchange::CsvFile;
using flitch::exchange::readCsvFile;
using Json = nlohmann::json;

namespace {

/// The rows of the published examples, by column name.
std::vector<std::map<std::string, std::string>> published() {
  const CsvFile file =
      readCsvFile(std::string(FLITCHBOOK_SOURCE) + "/tests/wood/data/board_measure_examples.csv");
  std::vector<std::map<std::string, std::string>> rows;
  for (const auto& row : file.rows) {
    auto& cells = rows.emplace_back();
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      cells[file.head[i].text] = row.cells[i].text;
    }
  }
  return rows;
}

std::string upTo(const std::string& text, const std::string& word) {
  return text.substr(0, text.find(word));
}

int quartersOf(const std::string& thickness) {
  if (thickness == "any") return 4;
  if (thickness == "4 in timber") return 16;
  if (thickness == "2x4") return 8;
  if (thickness == "3/4 in") return 3;
  return std::stoi(thickness);  // 8/4
}

/// Billed feet of each board of a line, as `flitch receive` counts it.
std::vector<std::int64_t> billed(const Bench& bench, const std::string& rule, int quarters,
                                 const std::string& width, const std::string& length, int count) {
  // As spoken: a bare width is inches.
  const std::string bareWidth = upTo(width, " in");
  bench.write("t.csv", "species,quarters,width,length,count,price_per_bf\ncherry," +
                           std::to_string(quarters) + "," + bareWidth + "," + length + "," +
                           std::to_string(count) + ",1\n");
  const Json document =
      Json::parse(bench.flitch("receive t.csv --supplier Yard --rule " + rule + " --json").out);
  std::vector<std::int64_t> feet;
  for (const Json& board : document["boards"]) feet.push_back(board["billed_thousandths"]);
  return feet;
}

}  // namespace

// Sources stand in the rows themselves: AHEC's grading guide, restated trade rules, C. A. King
// 1911.
TEST_CASE("published boards are billed as published by flitch receive") {
  const Bench bench;
  bench.flitch("book create");
  std::set<std::string> done;
  for (auto row : published()) {
    const std::string id = row["id"];
    INFO(id << ", " << row["rule"] << ", " << row["source"]);
    const int quarters = quartersOf(row["thickness"] == "export tally" ? "any" : row["thickness"]);
    const std::string width = upTo(row["width"], " nominal");
    const std::string expected = row["expected"];
    // The bundle tally of exports gives a width and a length, no board feet.
    if (id == "BM07") continue;
    if (id == "BM16") {
      for (const std::string rule : {"surface", "volume", "tenths", "half-inch"}) {
        const auto layers = billed(bench, rule, quarters, width, "10", 12);
        CHECK(std::accumulate(layers.begin(), layers.end(), std::int64_t{0}) == 480'000);
      }
    } else if (id == "BM17") {
      for (const std::string each : {"8 3/4", "9 1/4"}) {
        CHECK(billed(bench, "surface", quarters, each, row["length"], 1).at(0) == 9000);
      }
    } else if (id == "BM18") {
      const auto pair = billed(bench, "surface", quarters, "8 1/2", row["length"], 2);
      CHECK(pair == std::vector<std::int64_t>{9000, 8000});
    } else if (row["unit"] == "SM") {
      const std::int64_t feet = billed(bench, "surface", quarters, width, row["length"], 1).at(0);
      CHECK(feet == 250 * quarters * std::stoll(expected));
    } else {
      const bool both = row["unit"] == "SM, BF";
      const bool surface = both || row["rule"] == "SM x thickness" || id == "BM19";
      const std::string figure = both ? expected.substr(expected.find(", ") + 2) : expected;
      const std::int64_t feet =
          billed(bench, surface ? "surface" : "volume", quarters, width, row["length"], 1).at(0);
      // Published to two places at most.
      CHECK(std::abs(static_cast<double>(feet) / 1000 - std::stod(figure)) < 0.005);
    }
    done.insert(id);
  }
  CHECK(done.size() == 22);
  CHECK(bench.flitch("book check").exitCode == 0);
}

// BM01 by each rule: 8/4, 6 1/4 in by 8 ft.
TEST_CASE("a supplier's rule is kept for the next load, the book's holds for the others") {
  const Bench bench;
  bench.flitch("book create --rule volume");
  bench.write("t.csv", "species,quarters,width,length,price_per_bf\nash,8/4,6 1/4,8,1\n");
  const auto billedBy = [&](const std::string& arguments) {
    const Json answer = Json::parse(bench.flitch("receive t.csv --json " + arguments).out);
    return answer["billed_thousandths"].get<std::int64_t>();
  };
  CHECK(billedBy("--supplier Yard") == 8333);
  CHECK(billedBy("--supplier Mill --rule half-inch") == 8667);  // 6 1/2 x 8 / 12 x 2
  CHECK(billedBy("--supplier Mill") == 8667);
  CHECK(billedBy("--supplier Kiln --rule gross-green") == 8520);  // 4 x 2 and 6.5 %
  CHECK(billedBy("--supplier Kiln") == 8520);
  CHECK(billedBy("--supplier Shed --rule tenths") == 8300);
  CHECK(billedBy("--supplier Yard") == 8333);
}
