#include "ui/desktop/settled_boards.h"

#include <QStringList>
#include <algorithm>

#include "inventory/records/choices.h"

namespace flitch::desktop {

QString word(Settled settled) {
  switch (settled) {
    case Settled::nothing: return {};
    case Settled::locked: return "locked";
    case Settled::pinned: return "must be used";
    case Settled::keptOut: return "kept out";
  }
  return {};
}

void SettledBoards::read(const Choices& choices) {
  choices_ = choices;
  std::erase_if(choices_.locks, [](const Lock& lock) { return !lock.byEye; });
  std::erase_if(choices_.wishes, [](const Wish& wish) { return wish.byItself; });
}

Settled SettledBoards::of(BoardId board) const {
  if (lockOn(choices_, board) != nullptr) return Settled::locked;
  if (isPinned(choices_, board)) return Settled::pinned;
  if (isKeptOut(choices_, board)) return Settled::keptOut;
  return Settled::nothing;
}

void SettledBoards::toggle(const Cutting& cutting, Settled settled) {
  const BoardId board = cutting.board;
  const bool off = of(board) == settled;
  std::erase(choices_.pins, board);
  std::erase(choices_.keptOut, board);
  std::erase_if(choices_.locks, [&](const Lock& lock) { return lock.cutting.board == board; });
  if (off) return;
  if (settled == Settled::locked) choices_.locks.push_back({cutting});
  if (settled == Settled::pinned) choices_.pins.push_back(board);
  if (settled == Settled::keptOut) choices_.keptOut.push_back(board);
}

void SettledBoards::lay(const LaidByHand& laid, const std::optional<LaidByHand>& before) {
  if (before) takeUp(*before);
  choices_.laid.push_back(laid);
}

void SettledBoards::takeUp(const LaidByHand& laid) {
  const auto at = std::find(choices_.laid.begin(), choices_.laid.end(), laid);
  if (at != choices_.laid.end()) choices_.laid.erase(at);
}

void SettledBoards::clear() { choices_ = {}; }

std::size_t SettledBoards::letGo(const Job& before, const Job& now) {
  const std::size_t had = choices_.locks.size() + choices_.laid.size();
  choices_ = stillWanted(choices_, before, now);
  return had - choices_.locks.size() - choices_.laid.size();
}

bool SettledBoards::any() const { return !(choices(false) == Choices{}); }

Choices SettledBoards::choices(bool trustUnseen) const {
  Choices choices = choices_;
  choices.trustUnseen = trustUnseen;
  return choices;
}

QString SettledBoards::words() const {
  QStringList words;
  const auto add = [&](std::size_t count, const QString& what) {
    if (count > 0) words += QString("%1 %2").arg(count).arg(what);
  };
  add(choices_.locks.size(), word(Settled::locked));
  add(choices_.pins.size(), word(Settled::pinned));
  add(choices_.keptOut.size(), word(Settled::keptOut));
  add(choices_.laid.size(), "laid by hand");
  for (const Wish& wish : choices_.wishes) words += QString::fromStdString(wish.words);
  return words.join(", ");
}

}  // namespace flitch::desktop
