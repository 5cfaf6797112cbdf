#include "tests/house/arrows.h"

#include <algorithm>
#include <cctype>
#include <fstream>
#include <regex>
#include <sstream>

namespace flitch::house {
namespace {

namespace fs = std::filesystem;

bool has(const std::vector<std::string>& list, std::string_view what) {
  return std::find(list.begin(), list.end(), what) != list.end();
}

bool lies(std::string_view file, std::string_view folder) {
  return file.size() > folder.size() && file.starts_with(folder) && file[folder.size()] == '/';
}

const Room* roomOf(const House& house, std::string_view file) {
  const Room* best = nullptr;
  for (const Room& room : house.rooms) {
    if (lies(file, room.folder) && (!best || room.folder.size() > best->folder.size())) {
      best = &room;
    }
  }
  return best;
}

/// Why `what` may not be included by `file`; empty when it may.
std::string reservedFault(const House& house, std::string_view file, std::string_view what) {
  for (const Reserved& reserved : house.reserved) {
    if (reserved.what != what) continue;
    std::string places;
    for (const std::string& place : reserved.onlyIn) {
      if (place == file || (place.ends_with('/') && file.starts_with(place))) return {};
      places += (places.empty() ? "" : ", ") + place;
    }
    return reserved.what + " is for " + places + " alone";
  }
  return {};
}

std::string fault(const House& house, const Room& room, const std::string& file, bool angle,
                  const std::string& header, const fs::path& root, const fs::path& qtHeaders) {
  if (angle) {
    const std::string library = outsideLibrary(header, qtHeaders);
    if (library.empty()) return "<" + header + "> belongs to no library the house knows";
    if (!has(room.outside, library)) return room.folder + " may not use " + library;
    return reservedFault(house, file, library);
  }
  if (header.ends_with(".moc")) return {};
  if (!fs::exists(root / header)) {
    return "\"" + header + "\" is no path from the top of the repository";
  }
  const Room* theirs = roomOf(house, header);
  if (!theirs) return "\"" + header + "\" lies in no room";
  if (theirs->folder != room.folder && !has(room.folders, theirs->folder)) {
    return room.folder + " may not include " + theirs->folder;
  }
  return reservedFault(house, file, header);
}

/// The CMake name a library from outside is linked by -> the name includes use.
std::string linkedLibrary(std::string_view name) {
  static const std::map<std::string, std::string, std::less<>> names{
      {"Boost::headers", "Boost"},    {"PkgConfig::CLP", "COIN"},
      {"Threads::Threads", "std"},    {"nlohmann_json::nlohmann_json", "JSON"},
      {"ZXing::ZXing", "ZXing"},      {"CLI11::CLI11", "CLI11"},
      {"SQLite::SQLite3", "SQLite"},  {"Qt6::Core", "Qt Core"},
      {"Qt6::Gui", "Qt Gui"},         {"Qt6::Sql", "Qt Sql"},
      {"Qt6::Widgets", "Qt Widgets"}, {"Qt6::PrintSupport", "Qt PrintSupport"},
      {"Qt6::Svg", "Qt Svg"},
  };
  const auto found = names.find(name);
  return found == names.end() ? std::string() : found->second;
}

}  // namespace

House theHouse() {
  const std::vector<std::string> wood{"inventory/wood"};
  const std::vector<std::string> records{"inventory/wood", "inventory/records"};
  const std::vector<std::string> all{
      "optimizer",          "inventory/wood",  "inventory/records", "inventory/exchange",
      "inventory/planning", "inventory/store", "inventory/desk",    "labels"};
  House house;
  house.rooms = {
      {"optimizer", {"flitchbook_Optimizer"}, {}, {"std", "Boost", "COIN"}},
      {"inventory/wood", {"flitchbook_Wood"}, {}, {"std"}},
      {"inventory/records", {"flitchbook_Records"}, wood, {"std"}},
      {"inventory/exchange", {"flitchbook_Exchange"}, records, {"std", "JSON", "JSON names"}},
      {"inventory/planning",
       {"flitchbook_Planning"},
       {"inventory/wood", "inventory/records", "optimizer"},
       {"std"}},
      {"inventory/store",
       {"flitchbook_Store"},
       {"inventory/wood", "inventory/records", "inventory/exchange"},
       {"std", "POSIX", "SQLite", "Qt Core", "Qt Sql"}},
      {"inventory/desk",
       {"flitchbook_Desk"},
       {"inventory/wood", "inventory/records", "inventory/exchange", "inventory/planning",
        "inventory/store", "optimizer"},
       {"std", "Qt Core"}},
      {"labels", {"flitchbook_Labels"}, records, {"std", "Qt Core", "Qt Gui", "ZXing"}},
      {"labels/reader",
       {"flitch-reader"},
       {"inventory/wood", "inventory/records", "labels"},
       {"std", "POSIX", "Qt Core", "Qt Gui", "ZXing"}},
      {"ui/cli",
       {"flitch", "flitchbook_Arguments"},
       all,
       {"std", "POSIX", "JSON", "JSON names", "CLI11", "Qt Core", "Qt Gui"}},
      {"ui/desktop",
       {"flitchbook_Desktop", "flitchbook"},
       all,
       {"std", "Qt Core", "Qt Gui", "Qt Widgets", "Qt PrintSupport", "Qt Svg"}},
  };
  house.reserved = {
      {"inventory/store/writer.h", {"inventory/store/", "inventory/desk/"}},
      {"JSON", {"inventory/exchange/json.cpp", "inventory/exchange/json_settings.cpp"}},
      {"CLI11",
       {"ui/cli/arguments.cpp", "ui/cli/paper_arguments.cpp", "ui/cli/price_arguments.cpp",
        "ui/cli/wood_arguments.cpp"}},
  };
  return house;
}

std::string outsideLibrary(std::string_view header, const fs::path& qtHeaders) {
  static const std::vector<std::pair<std::string_view, std::string_view>> beginnings{
      {"boost/", "Boost"},   {"nlohmann/json_fwd.hpp", "JSON names"},
      {"nlohmann/", "JSON"}, {"CLI/", "CLI11"},
      {"ZXing/", "ZXing"},   {"sqlite3.h", "SQLite"},
      {"Clp", "COIN"},       {"Osi", "COIN"},
      {"Cgl", "COIN"},       {"Coin", "COIN"},
      {"sys/", "POSIX"},     {"unistd.h", "POSIX"},
      {"fcntl.h", "POSIX"},  {"signal.h", "POSIX"},
      {"pwd.h", "POSIX"},
  };
  for (const auto& [beginning, library] : beginnings) {
    if (header.starts_with(beginning)) return std::string(library);
  }
  if (header.size() > 1 && header[0] == 'Q') {
    const std::size_t slash = header.find('/');
    if (slash != std::string_view::npos) return "Qt " + std::string(header.substr(2, slash - 2));
    for (const std::string module : {"Core", "Gui", "Widgets", "Sql", "PrintSupport", "Svg", "Test",
                                     "Concurrent", "Network", "SvgWidgets", "OpenGL", "Xml"}) {
      if (fs::exists(qtHeaders / ("Qt" + module) / header)) return "Qt " + module;
    }
    return {};
  }
  const bool plain = std::all_of(header.begin(), header.end(), [](char c) {
    return std::islower(static_cast<unsigned char>(c)) || c == '_';
  });
  return plain ? "std" : std::string();
}

std::vector<std::string> includeFaults(const House& house, const fs::path& root,
                                       const fs::path& qtHeaders) {
  static const std::regex include(R"rx(^\s*#\s*include\s*([<"])([^>"]+)[>"])rx");
  std::vector<std::string> faults;
  std::vector<fs::path> files;
  for (const std::string top : {"optimizer", "inventory", "labels", "ui"}) {
    if (!fs::exists(root / top)) continue;
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(root / top)) {
      const std::string ending = entry.path().extension().string();
      if (ending == ".h" || ending == ".cpp") files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  for (const fs::path& path : files) {
    const std::string file = fs::relative(path, root).generic_string();
    const Room* room = roomOf(house, file);
    if (!room) {
      faults.push_back(file + ":1: lies in no room");
      continue;
    }
    std::ifstream in(path);
    std::string text;
    for (int line = 1; std::getline(in, text); ++line) {
      std::smatch match;
      if (!std::regex_search(text, match, include)) continue;
      const std::string why = fault(house, *room, file, match[1] == "<", match[2], root, qtHeaders);
      if (!why.empty()) faults.push_back(file + ":" + std::to_string(line) + ": " + why);
    }
  }
  return faults;
}

Links readLinks(const fs::path& file) {
  Links links;
  std::ifstream in(file);
  std::string line;
  while (std::getline(in, line)) {
    std::istringstream words(line);
    std::string target;
    if (!(words >> target)) continue;
    target.pop_back();  // the colon
    std::vector<std::string>& linked = links[target];
    // "::@(...)" only says in which folder the next name was written.
    for (std::string word; words >> word;) {
      if (!word.starts_with("::@")) linked.push_back(word);
    }
  }
  return links;
}

std::vector<std::string> linkFaults(const House& house, const Links& links,
                                    const std::vector<std::string>& mayLack) {
  std::vector<std::string> faults;
  std::map<std::string, const Room*> byTarget;
  for (const Room& room : house.rooms) {
    for (const std::string& target : room.targets) {
      byTarget[target] = &room;
      // A library is named by its alias as well: Flitchbook::Wood.
      const std::string ours = "flitchbook_";
      if (target.starts_with(ours)) byTarget["Flitchbook::" + target.substr(ours.size())] = &room;
      if (!links.contains(target) && !has(mayLack, target)) {
        faults.push_back(target + ": no such target");
      }
    }
  }
  for (const auto& [target, names] : links) {
    const auto found = byTarget.find(target);
    if (found == byTarget.end()) {
      faults.push_back(target + ": no room has this target");
      continue;
    }
    const Room& room = *found->second;
    for (const std::string& name : names) {
      if (name == "flitchbook_warnings") continue;
      if (const auto theirs = byTarget.find(name); theirs != byTarget.end()) {
        const std::string& folder = theirs->second->folder;
        if (folder != room.folder && !has(room.folders, folder)) {
          faults.push_back(target + ": may not link " + name);
        }
        continue;
      }
      const std::string library = linkedLibrary(name);
      if (library.empty() || !has(room.outside, library)) {
        faults.push_back(target + ": may not link " + name);
      }
    }
  }
  return faults;
}

std::string linkLine(std::string_view ninja, std::string_view program) {
  const std::string head = "\nbuild bin/" + std::string(program) + ":";
  const std::size_t rule = ninja.find(head);
  if (rule == std::string_view::npos) return {};
  const std::string_view block = ninja.substr(rule, ninja.find("\n\n", rule) - rule);
  const std::string_view key = "LINK_LIBRARIES = ";
  const std::size_t at = block.find(key);
  if (at == std::string_view::npos) return {};
  return std::string(block.substr(at + key.size(), block.find('\n', at) - at - key.size()));
}

}  // namespace flitch::house
