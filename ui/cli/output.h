#pragma once
#include <string>
#include <utility>
#include <vector>

#include "inventory/exchange/json.h"

namespace flitch::cli {

/// What a command answers: a text for people and a JSON document for programs, from one filling.
class Answer {
 public:
  Answer(Unit unit, std::string sign) : unit_(unit), sign_(std::move(sign)) {}

  /// A line for people alone.
  void say(const std::string& line) { text_ += line + "\n"; }
  /// A field for programs alone. Lengths, money and volumes are exact whole numbers and carry their
  /// unit in the key: "length" becomes "length_nm".
  void put(const std::string& key, exchange::FieldValue value) {
    fields_.emplace_back(key, std::move(value));
  }
  /// A table for both.
  void show(const std::string& key, const Table& table);
  /// A table for people alone, where programs get more.
  void show(const Table& table);
  /// A line on stderr; the command goes on.
  void warn(const std::string& line) { warnings_.push_back(line); }

  [[nodiscard]] std::string money(Money amount) const { return flitch::text(amount, sign_); }
  [[nodiscard]] const std::string& sign() const { return sign_; }
  [[nodiscard]] Unit unit() const { return unit_; }
  [[nodiscard]] const std::string& text() const { return text_; }
  [[nodiscard]] const std::vector<std::string>& warnings() const { return warnings_; }
  [[nodiscard]] std::string document(const std::string& command) const;

  int exitCode = 0;

 private:
  Unit unit_;
  std::string sign_;
  std::string text_;
  std::vector<std::string> warnings_;
  exchange::Fields fields_;
};

/// A table in aligned columns, as wide as its longest entries; columns without any entry are left
/// out. Figures are set right.
[[nodiscard]] std::string asText(const Table& table, Unit unit, const std::string& sign);

/// {"flitch": ..., "command": ..., "refused": {...}}
[[nodiscard]] std::string refusalDocument(const std::string& command, const Refusal& refusal);

/// Writes a file whole; throws Refusal when it cannot.
void writeFile(const std::string& path, const std::string& bytes);

/// Writes the rows of a table as CSV, if there is a path, and says so to programs.
void writeRows(const std::string& path, const Table& table, Answer& answer);

/// "1 board", "3 boards".
[[nodiscard]] std::string counted(std::size_t n, const std::string& one, const std::string& many);

}  // namespace flitch::cli
