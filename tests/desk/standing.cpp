#include "tests/desk/standing.h"

#include <string>

namespace flitch::desk::sample {

namespace {

/// FNV-1a, 64 bit.
void mix(std::uint64_t& hash, const std::string& bytes) {
  for (const char byte : bytes + "\n") {
    hash ^= static_cast<unsigned char>(byte);
    hash *= 1'099'511'628'211U;
  }
}

constexpr std::uint64_t start = 14'695'981'039'346'656'037U;

std::string numbers(std::initializer_list<std::int64_t> values) {
  std::string text;
  for (const std::int64_t value : values) text += std::to_string(value) + " ";
  return text;
}

}  // namespace

std::uint64_t standing(const store::Snapshot& snapshot, EntryId until) {
  std::uint64_t hash = start;
  for (const store::EntryLine& line : snapshot.entries(1 << 20)) {
    if (line.id > until) continue;
    mix(hash, std::to_string(line.id.value) + line.at + line.event + line.note);
  }
  for (const auto& [board, balance] : snapshot.balancesAt(until)) {
    mix(hash, numbers({board.value, balance.volume.value, balance.cost.raw()}));
  }
  return hash;
}

std::uint64_t shopNumber(const store::Snapshot& snapshot) {
  std::uint64_t hash = start;
  for (const Board& board : snapshot.rack()) {
    mix(hash, (board.tag ? text(*board.tag) : "") + board.bay + board.reservedName + board.note);
    mix(hash, numbers({board.id.value, board.wood.value, board.cost.raw(), board.keptBack}));
    for (const Defect& d : board.defects) {
      mix(hash, d.kind + numbers({static_cast<int>(d.face), d.where.x.nm(), d.where.y.nm(),
                                  d.where.dx.nm(), d.where.dy.nm()}));
    }
  }
  for (const Job& job : snapshot.jobs()) {
    mix(hash, job.name);
    for (const auto& [line, copies] : snapshot.made(job.id)) {
      for (const int copy : copies) mix(hash, numbers({line, copy}));
    }
  }
  return hash;
}

}  // namespace flitch::desk::sample
