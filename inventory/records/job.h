#pragma once
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/records/ids.h"
#include "inventory/wood/length.h"

namespace flitch {

/// What wood goes together: see sourcesOf().
enum class WoodFrom { anyBoards, oneLog, oneBoard, sisters };
/// "one log", "sisters"; empty for any boards.
[[nodiscard]] std::string_view word(WoodFrom from);
[[nodiscard]] std::optional<WoodFrom> woodFromNamed(std::string_view word);

/// A finished piece of a job. Length along the grain.
struct Part {
  int line = 0;  ///< 1, 2, ... ; its letter on sheets is partLetter(line)
  std::string name;
  int copies = 1;
  int spares = 0;
  Length length, width, thickness;
  /// Length, width and thickness as typed, where they are arithmetic; empty: a plain size.
  std::array<std::string, 3> typed;
  std::vector<std::string> species;  ///< in order of wish, at least one
  std::string faceA = "clear";       ///< names of demand rows
  std::string faceB = "sound";
  std::array<std::string, 2> edges{"sound", "sound"};  ///< front, back
  std::string recipe;           ///< as typed, several divided by bars; empty: by the shop's rule;
                                ///< see recipesOf()
  Length stavesFrom, stavesTo;  ///< widths of its staves as sawn; zero: the shop's
  int laminae = 0;              ///< to laminate it from; zero: as the stock's thickness gives
  std::string run;              ///< "along", "across 2,2,1": see runOf(); empty: none
  int setUps = 0;               ///< pieces more to set machines up with, numbered last; they may be
                                ///< of any wood that holds together
  bool leftLong = false;        ///< its last cut waits for the dry fit
  WoodFrom woodFrom = WoodFrom::anyBoards;  ///< all blanks of a copy, or of the group: for one
                                            ///< colour and figure
  /// Parts of one name here are a group: all their copies, set-up pieces apart, come together from
  /// what `woodFrom` says, which is alike for all of them. Empty: no group.
  std::string group;
  bool straight = false;  ///< of no steeper grain than the shop's straightGrain
  std::string note;
  [[nodiscard]] int wanted() const { return copies + spares + setUps; }
  [[nodiscard]] bool isSetUp(int copy) const { return copy > copies + spares; }
  friend bool operator==(const Part&, const Part&) = default;
};

/// A size that parts of the job may name: `width`, `2*rail + 1/2`.
struct NamedSize {
  std::string name;        ///< lower case: letters, digits, underscores, a letter first
  std::string expression;  ///< as typed
  Length value;            ///< what it comes to; of a plain number that many inches or mm
  friend bool operator==(const NamedSize&, const NamedSize&) = default;
};

struct Job {
  JobId id;
  std::string name;
  std::string customer;
  std::vector<NamedSize> sizes;  ///< as typed; in no order that matters
  std::vector<Part> parts;
  Version version;
  friend bool operator==(const Job&, const Job&) = default;
};

/// A, B, ... H, J, ... N, P, ... Z, AA, AB, ...: no I and no O.
[[nodiscard]] std::string partLetter(int line);
/// The two or three characters chalked on a blank: C1.
[[nodiscard]] std::string handMark(int line, int copy);

}  // namespace flitch
