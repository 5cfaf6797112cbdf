#pragma once
#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace flitch::house {

/// A folder of the program: which other folders it may include, and which libraries from outside.
struct Room {
  std::string folder;  ///< "inventory/store"; the longest that fits a file is its room
  std::vector<std::string> targets;  ///< CMake targets built from it, "flitchbook_Store"
  std::vector<std::string> folders;  ///< besides its own
  std::vector<std::string> outside;  ///< names that outsideLibrary() gives
};

/// Something that only these files (or folders, ending in a slash) may include.
struct Reserved {
  std::string what;  ///< a header of the project, or a name that outsideLibrary() gives
  std::vector<std::string> onlyIn;
};

struct House {
  std::vector<Room> rooms;
  std::vector<Reserved> reserved;
};

/// The arrows of the house as DEVELOPERS.md draws them.
[[nodiscard]] House theHouse();

/// Which library a header in angle brackets belongs to: "std", "POSIX", "Boost", "COIN", "JSON",
/// "JSON names", "CLI11", "ZXing", "SQLite", "Qt Core" (the module whose folder in `qtHeaders` has
/// it); empty when unknown.
[[nodiscard]] std::string outsideLibrary(std::string_view header,
                                         const std::filesystem::path& qtHeaders);

/// Faults of all includes in `rooms` below `root`, each "file:line: why"; none when all is well.
[[nodiscard]] std::vector<std::string> includeFaults(const House& house,
                                                     const std::filesystem::path& root,
                                                     const std::filesystem::path& qtHeaders);

/// Target -> what it links directly, by CMake name.
using Links = std::map<std::string, std::vector<std::string>>;
/// Reads lines "target: name name".
[[nodiscard]] Links readLinks(const std::filesystem::path& file);
/// Faults of the link graph: an arrow that the rooms do not allow, a target no room knows, a
/// target that is missing (except those in `mayLack`).
[[nodiscard]] std::vector<std::string> linkFaults(const House& house, const Links& links,
                                                  const std::vector<std::string>& mayLack);

/// What the linker is given for a program, from the text of build.ninja; empty when it is not
/// there.
[[nodiscard]] std::string linkLine(std::string_view ninja, std::string_view program);

}  // namespace flitch::house
