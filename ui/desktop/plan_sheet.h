#pragma once
#include <optional>
#include <string>
#include <vector>

#include "inventory/planning/plan_words.h"
#include "inventory/records/account.h"
#include "inventory/store/snapshot.h"

namespace flitch::desktop {

/// One board of a plan, with what its line says.
struct OpenedBoard {
  Board board;  ///< as it was before it was sawn
  Cutting cutting;
  bool sawn = false;
  int cuts = 0;          ///< numbered cuts
  int usedPermille = 0;  ///< blanks' share of the board's area
  Breakdown account;
};

/// The newest plan of a job as the window shows it.
struct PlanSheet {
  Job job;
  ShopProfile shop;
  CutPlan plan;
  std::vector<OpenedBoard> boards;
  Feet feet;
  Money offcuts;                 ///< worth of what is kept
  std::string sentence;          ///< the plain proof
  std::string why;               ///< why the planning ended
  planning::UnseenShare unseen;  ///< what it takes on trust
  /// What earlier sawing says to it: blanks to lose on unseen faces, how much to buy.
  std::vector<std::string> lessons;
  [[nodiscard]] std::size_t unsawn() const;
};
/// Reads the job's newest plan with its boards; none when the job was never planned. Throws Refusal
/// or StoreError as reading does.
[[nodiscard]] std::optional<PlanSheet> planSheet(const store::Snapshot& snapshot, JobId job,
                                                 const std::string& sign, Unit unit);

/// What a cutting of the plan is judged by: its job, shop and choices, without boards.
[[nodiscard]] PlanRequest requestOf(const PlanSheet& sheet, Unit unit);

}  // namespace flitch::desktop
