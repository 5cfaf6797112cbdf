#pragma once
#include <functional>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "inventory/store/book.h"

/// A shop at work: verbs of the desk drawn at random, each taken or refused as the book stands.
namespace flitch::desk::sample {

class RandomWork {
 public:
  /// Remembers nothing that is not in the book, so work can go on after a crash.
  RandomWork(store::Book& book, unsigned seed) : book_(book), random_(seed) {}

  /// Draws verbs until one was taken or refused: its word, "refused" and a code after a refusal.
  std::string step();

 private:
  struct Verb {
    const char* word;
    int weight;                  ///< of a hundred
    bool (RandomWork::*work)();  ///< false: nothing to do it with now
  };
  static const std::vector<Verb>& verbs();

  bool receive();
  bool addJob();
  bool changeJob();
  bool mark();
  bool move();
  bool plan();
  bool search();
  bool saw();
  bool sawOtherwise();
  bool bin();
  bool spoil();
  bool useByHand();
  bool count();
  bool retire();
  bool sendBack();
  bool credit();
  bool retag();
  bool keepBack();
  bool set();
  bool undo();

  [[nodiscard]] int below(int n) { return std::uniform_int_distribution<int>(0, n - 1)(random_); }
  [[nodiscard]] bool oneIn(int n) { return below(n) == 0; }
  template <class Value>
  const Value& anyOf(const std::vector<Value>& values) {
    return values[static_cast<std::size_t>(below(static_cast<int>(values.size())))];
  }
  /// Some board of the rack, now and then one that is off it.
  std::optional<Board> anyBoard();
  std::optional<Job> anyJob();
  std::string anyLine(const std::vector<std::string>& marks);
  std::vector<std::string> someMarks(const std::vector<std::string>& marks);

  store::Book& book_;
  store::Hand hand_{"tester", "bench"};
  std::mt19937 random_;
};

}  // namespace flitch::desk::sample
