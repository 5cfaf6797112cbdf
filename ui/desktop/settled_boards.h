#pragma once
#include <QString>
#include <optional>
#include <vector>

#include "inventory/records/cut_plan.h"

namespace flitch::desktop {

/// What the maker settles about a board for the next plan of a job.
enum class Settled { nothing, locked, pinned, keptOut };
/// "locked", "must be used", "kept out"; empty for nothing.
[[nodiscard]] QString word(Settled settled);

/// The maker's eye on the boards of one job: starts from what its newest plan was made with.
class SettledBoards {
 public:
  /// Boards that a plan made again left alone are not the maker's choice and are passed over.
  void read(const Choices& choices);
  [[nodiscard]] Settled of(BoardId board) const;
  /// Settles a board so, or nothing about it when it is settled so already. A lock keeps `cutting`.
  void toggle(const Cutting& cutting, Settled settled);
  /// A blank laid by hand, in place of `before` where that is one.
  void lay(const LaidByHand& laid, const std::optional<LaidByHand>& before);
  void takeUp(const LaidByHand& laid);
  [[nodiscard]] const std::vector<LaidByHand>& laid() const { return choices_.laid; }
  void clear();
  /// Lets go what cannot stay since the job asks for something else; returns how much that is.
  std::size_t letGo(const Job& before, const Job& now);
  [[nodiscard]] bool any() const;
  /// With all else that the newest plan was made with.
  [[nodiscard]] Choices choices(bool trustUnseen) const;
  /// "2 locked, 1 kept out"; empty for nothing.
  [[nodiscard]] QString words() const;

 private:
  Choices choices_;
};

}  // namespace flitch::desktop
