#pragma once
#include <filesystem>
#include <string>

namespace flitch::acceptance {

/// What a run of the program gave.
struct Ran {
  int exitCode = -1;
  std::string out, err;
};

/// A folder of its own for one test, gone at the end: the shop's files lie in it, the commands run
/// in it, and the book is `shop.flitch`.
class Bench {
 public:
  Bench();
  ~Bench();
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;

  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
  void write(const std::string& name, const std::string& bytes) const;
  [[nodiscard]] std::string read(const std::string& name) const;
  /// Runs a line of the shell; `flitch` is the program under test, the book and the hand are set.
  [[nodiscard]] Ran shell(const std::string& line) const;
  /// `flitch` with arguments as a shell would read them; fails the test unless it exits so.
  Ran flitch(const std::string& arguments, int exitCode = 0) const;
  /// The book's bytes, write-ahead log and all: equal means untouched.
  [[nodiscard]] std::string bookBytes() const;

 private:
  std::filesystem::path folder_;
};

}  // namespace flitch::acceptance
