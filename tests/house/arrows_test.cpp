#include "tests/house/arrows.h"

#include <unistd.h>

#include <catch2/catch.hpp>
#include <fstream>
#include <sstream>
#include <string>

namespace {

using namespace flitch::house;
namespace fs = std::filesystem;

std::string together(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

/// A repository of a few files, gone at the end.
class MadeUp {
 public:
  MadeUp() : root_(fs::temp_directory_path() / ("house-" + std::to_string(::getpid()))) {
    fs::remove_all(root_);
    write("inventory/wood/length.h", "#include <string>\n");
    write("inventory/records/board.h", "#include \"inventory/wood/length.h\"\n");
    write("inventory/store/writer.h", "#include <QString>\n");
    write("inventory/desk/saw.cpp", "#include \"inventory/store/writer.h\"\n");
    write("optimizer/solve.cpp", "#include <boost/graph/dijkstra_shortest_paths.hpp>\n");
    write("ui/desktop/window.cpp", "#include <QLabel>\n");
  }
  ~MadeUp() { fs::remove_all(root_); }
  MadeUp(const MadeUp&) = delete;
  MadeUp& operator=(const MadeUp&) = delete;

  void write(const std::string& file, const std::string& text) const {
    fs::create_directories((root_ / file).parent_path());
    std::ofstream(root_ / file) << text;
  }
  [[nodiscard]] std::string faults() const {
    return together(includeFaults(theHouse(), root_, FLITCHBOOK_QT_HEADERS));
  }

 private:
  fs::path root_;
};

TEST_CASE("every include follows the arrows") {
  CHECK(together(includeFaults(theHouse(), FLITCHBOOK_SOURCE, FLITCHBOOK_QT_HEADERS)) == "");
}

TEST_CASE("every link follows the arrows") {
  const Links links = readLinks(FLITCHBOOK_LINKS);
  CHECK(links.size() >= theHouse().rooms.size() - 1);
  // The sanitizer builds leave the window out.
  CHECK(together(linkFaults(theHouse(), links, {"flitchbook_Desktop", "flitchbook"})) == "");
}

TEST_CASE("the libraries that know no Qt bring none to the link line") {
  std::ifstream in(FLITCHBOOK_NINJA);
  std::ostringstream ninja;
  ninja << in.rdbuf();
  for (const std::string library : {"Optimizer", "Wood", "Records", "Exchange", "Planning"}) {
    const std::string line = linkLine(ninja.str(), "only_" + library);
    INFO(library << ": " << line);
    CHECK(line.find("libflitchbook_" + library + ".a") != std::string::npos);
    CHECK(line.find("Qt6") == std::string::npos);
  }
  const std::string flitch = linkLine(ninja.str(), "flitch");
  INFO(flitch);
  CHECK(flitch.find("Qt6Sql") != std::string::npos);
  CHECK(flitch.find("Qt6Widgets") == std::string::npos);
}

TEST_CASE("a made-up house without fault has none") { CHECK(MadeUp().faults() == ""); }

TEST_CASE("each bad include of a made-up house is one fault, with its place") {
  struct Bad {
    const char *file, *text, *fault;
  };
  const Bad bad = GENERATE(
      Bad{"inventory/wood/split.cpp", "#include <vector>\n#include <QString>\n",
          "inventory/wood/split.cpp:2: inventory/wood may not use Qt Core\n"},
      Bad{"optimizer/bound.cpp", "#include <QtCore/QtGlobal>\n",
          "optimizer/bound.cpp:1: optimizer may not use Qt Core\n"},
      Bad{"optimizer/bound.cpp", "#include \"inventory/wood/length.h\"\n",
          "optimizer/bound.cpp:1: optimizer may not include inventory/wood\n"},
      Bad{"inventory/wood/split.cpp", "  #  include \"inventory/records/board.h\"\n",
          "inventory/wood/split.cpp:1: inventory/wood may not include inventory/records\n"},
      Bad{"ui/cli/main.cpp", "#include \"inventory/store/writer.h\"\n",
          "ui/cli/main.cpp:1: inventory/store/writer.h is for inventory/store/, inventory/desk/ "
          "alone\n"},
      Bad{"ui/cli/main.cpp", "#include <CLI/CLI.hpp>\n",
          "ui/cli/main.cpp:1: CLI11 is for ui/cli/arguments.cpp, ui/cli/paper_arguments.cpp, "
          "ui/cli/price_arguments.cpp, ui/cli/wood_arguments.cpp "
          "alone\n"},
      Bad{"inventory/exchange/csv.cpp", "#include <nlohmann/json.hpp>\n",
          "inventory/exchange/csv.cpp:1: JSON is for inventory/exchange/json.cpp, "
          "inventory/exchange/json_settings.cpp alone\n"},
      Bad{"labels/page.cpp", "#include <QWidget>\n",
          "labels/page.cpp:1: labels may not use Qt Widgets\n"},
      Bad{"inventory/records/board.cpp", "#include \"board.h\"\n",
          "inventory/records/board.cpp:1: \"board.h\" is no path from the top of the "
          "repository\n"},
      Bad{"inventory/records/board.cpp", "#include <libxml/tree.h>\n",
          "inventory/records/board.cpp:1: <libxml/tree.h> belongs to no library the house "
          "knows\n"},
      Bad{"inventory/attic/box.h", "", "inventory/attic/box.h:1: lies in no room\n"});
  const MadeUp house;
  house.write(bad.file, bad.text);
  CHECK(house.faults() == bad.fault);
}

TEST_CASE("a link against the arrows, an unknown target and a missing one are faults") {
  House house = theHouse();
  house.rooms.resize(3);  // optimizer, wood, records
  Links links{{"flitchbook_Optimizer", {"Boost::headers", "PkgConfig::CLP", "flitchbook_warnings"}},
              {"flitchbook_Wood", {}},
              {"flitchbook_Records", {"Flitchbook::Wood"}}};
  CHECK(together(linkFaults(house, links, {})) == "");

  SECTION("Qt in the optimizer") {
    links["flitchbook_Optimizer"].push_back("Qt6::Core");
    CHECK(together(linkFaults(house, links, {})) ==
          "flitchbook_Optimizer: may not link Qt6::Core\n");
  }
  SECTION("an arrow turned") {
    links["flitchbook_Wood"].push_back("Flitchbook::Records");
    CHECK(together(linkFaults(house, links, {})) ==
          "flitchbook_Wood: may not link Flitchbook::Records\n");
  }
  SECTION("a target nobody drew") {
    links["flitchbook_Attic"];
    CHECK(together(linkFaults(house, links, {})) == "flitchbook_Attic: no room has this target\n");
  }
  SECTION("a target gone") {
    links.erase("flitchbook_Wood");
    CHECK(together(linkFaults(house, links, {})) == "flitchbook_Wood: no such target\n");
    CHECK(linkFaults(house, links, {"flitchbook_Wood"}).empty());
  }
}

TEST_CASE("a link line is found in a Ninja file") {
  const std::string ninja =
      "\nbuild bin/test_wood: CXX_EXECUTABLE_LINKER__test_wood a.o\n"
      "  FLAGS = -O2\n  LINK_LIBRARIES = libwood.a  -lm\n  OBJECT_DIR = x\n\n"
      "build bin/flitch: CXX_EXECUTABLE_LINKER__flitch b.o\n  LINK_LIBRARIES = libQt6Core.so\n\n";
  CHECK(linkLine(ninja, "test_wood") == "libwood.a  -lm");
  CHECK(linkLine(ninja, "flitch") == "libQt6Core.so");
  CHECK(linkLine(ninja, "test_records") == "");
}

}  // namespace
