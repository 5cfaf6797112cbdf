#pragma once
#include <stdexcept>
#include <string>
#include <vector>

namespace flitch {

/// One thing wrong with the input, with its place.
struct Complaint {
  std::string place;  ///< "tally.csv:22:price_per_bf" (file:line:column), or a field; may be empty
  std::string sentence;  ///< what is wrong, as a maker would say it
  std::string value;     ///< as read, cut short; may be empty
  std::string accepted;  ///< what would have been taken; may be empty
};

/// tally.csv:22:price_per_bf: `7,40 kr` is not an amount in $. Accepted: 8.20, $8.20.
/// The sentence names the value itself; `value` is for programs.
[[nodiscard]] std::string text(const Complaint& complaint);

/// Something the maker asked for cannot be done; the book is as it was. Exit code 1.
/// what() is every complaint, a line each.
class Refusal : public std::runtime_error {
 public:
  /// `code`: stable, lower case with hyphens ("bad-cell", "unknown-tag"); for --json and tests.
  Refusal(std::string code, Complaint complaint);
  /// All that an import found wrong, at least one.
  Refusal(std::string code, std::vector<Complaint> complaints);
  [[nodiscard]] const std::string& code() const { return code_; }
  [[nodiscard]] const std::vector<Complaint>& complaints() const { return complaints_; }

 private:
  std::string code_;
  std::vector<Complaint> complaints_;
};

/// The record was changed since it was read.
class Stale : public Refusal {
 public:
  /// At another station.
  explicit Stale(const std::string& what);
  /// Changed since something was built on it: says it whole.
  explicit Stale(Complaint complaint);
};

}  // namespace flitch
