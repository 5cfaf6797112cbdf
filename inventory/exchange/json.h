#pragma once
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/cut_plan.h"
#include "inventory/records/job.h"
#include "inventory/records/refusal.h"
#include "inventory/records/shop.h"
#include "inventory/records/table.h"

namespace flitch::exchange {

/// Version of every --json document; raised when a field changes its meaning or goes.
inline constexpr int jsonVersion = 1;

/// Lengths as whole nanometres ("length_nm"), money as ten-thousandths ("cost_tenthousandths"),
/// volumes as mm³: exact; beside them a text for people where one helps. Schemas: schema/*.json.
[[nodiscard]] nlohmann::ordered_json json(const Board& board, Unit unit);
[[nodiscard]] nlohmann::ordered_json json(const Table& table);
[[nodiscard]] nlohmann::ordered_json json(const CutPlan& plan);
[[nodiscard]] nlohmann::ordered_json json(const Refusal& refusal);
/// {"flitch": jsonVersion, "command": command, ...fields}, two-space indents, newline at the end.
[[nodiscard]] std::string document(const std::string& command,
                                   const nlohmann::ordered_json& fields);

/// A field of a document: its key gets the unit of its value ("paid" becomes
/// "paid_tenthousandths").
using FieldValue = std::variant<bool, CellValue, std::vector<std::string>, Table,
                                std::vector<Board>, CutPlan, Refusal>;
using Fields = std::vector<std::pair<std::string, FieldValue>>;
/// The same from fields in their order; `unit` is for the texts beside exact figures.
[[nodiscard]] std::string document(const std::string& command, const Fields& fields, Unit unit);

/// Profile and choices to and from the text the book stores. The reader throws Refusal naming the
/// field.
[[nodiscard]] std::string writeProfile(const ShopProfile& shop);
[[nodiscard]] ShopProfile readProfile(const std::string& body);
[[nodiscard]] std::string writeChoices(const Choices& choices);
[[nodiscard]] Choices readChoices(const std::string& body);

}  // namespace flitch::exchange
