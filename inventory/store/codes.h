#pragma once
#include <array>
#include <cstddef>
#include <stdexcept>
#include <string>
#include <string_view>

#include "inventory/records/account.h"
#include "inventory/records/board.h"
#include "inventory/records/cut_plan.h"
#include "inventory/records/invoice.h"
#include "inventory/records/job_line.h"
#include "inventory/wood/measure.h"

namespace flitch::store {

/// The words in the columns, in the order of the enumerators. Apart from the words for people,
/// which may change: these may not.
template <class E>
inline constexpr std::array<std::string_view, 0> codes{};
template <>
inline constexpr std::array<std::string_view, 2> codes<Unit>{"inches", "millimetres"};
template <>
inline constexpr std::array<std::string_view, 5> codes<CountingRule>{"surface", "volume", "tenths",
                                                                     "half inch", "gross green"};
template <>
inline constexpr std::array<std::string_view, 5> codes<PriceBasis>{"foot", "each", "cubic metre",
                                                                   "running foot", "lot"};
template <>
inline constexpr std::array<std::string_view, 6> codes<InvoiceKind>{
    "freight", "tax", "surfacing", "discount", "other", "difference"};
template <>
inline constexpr std::array<std::string_view, 2> codes<Spread>{"feet", "value"};
template <>
inline constexpr std::array<std::string_view, 3> codes<Half>{"none", "up", "down"};
template <>
inline constexpr std::array<std::string_view, 3> codes<BoardKind>{"plank", "slab", "offcut"};
template <>
inline constexpr std::array<std::string_view, 2> codes<Face>{"A", "B"};
template <>
inline constexpr std::array<std::string_view, 2> codes<Edge>{"near", "far"};
template <>
inline constexpr std::array<std::string_view, 3> codes<Looked>{"no", "rough", "planed"};
template <>
inline constexpr std::array<std::string_view, 5> codes<DefectFace>{"A", "B", "through", "near",
                                                                   "far"};
template <>
inline constexpr std::array<std::string_view, 3> codes<MoistureState>{"wet", "resting", "ready"};
template <>
inline constexpr std::array<std::string_view, 6> codes<PieceKind>{"cut",  "blank",    "offcut",
                                                                  "kerf", "end trim", "unusable"};
template <>
inline constexpr std::array<std::string_view, 4> codes<LayupKind>{"stave", "lamina", "gang",
                                                                  "whole"};
template <>
inline constexpr std::array<std::string_view, 4> codes<WoodFrom>{"any", "log", "board", "sisters"};
template <>
inline constexpr std::array<std::string_view, 5> codes<PlanEnding>{
    "closed", "good enough", "time up", "effort spent", "stopped"};
template <>
inline constexpr std::array<std::string_view, 4> codes<PlanBound>{"none", "area", "relaxed",
                                                                  "exact"};
template <>
inline constexpr std::array<std::string_view, 8> codes<JobLineKind>{
    "hardware", "sheet", "glue", "finish", "other", "hours", "bar", "cut"};
template <>
inline constexpr std::array<std::string_view, 20> codes<AccountKind>{
    "board",   "bought",   "opening",          "found",      "returned", "credit", "parts",
    "kerf",    "end trim", "defect",           "machining",  "unusable", "lost",   "missing",
    "retired", "sold",     "price difference", "remeasured", "by hand",  "bin"};

template <class E>
[[nodiscard]] constexpr std::string_view code(E value) {
  return codes<E>.at(static_cast<std::size_t>(value));
}

/// Throws std::logic_error for a word that is none: the book's CHECKs keep such out.
template <class E>
[[nodiscard]] E decoded(std::string_view word) {
  for (std::size_t i = 0; i < codes<E>.size(); ++i) {
    if (codes<E>[i] == word) return static_cast<E>(i);
  }
  throw std::logic_error("no such word in the book: " + std::string(word));
}

}  // namespace flitch::store
