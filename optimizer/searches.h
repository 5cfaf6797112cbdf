#pragma once
#include <condition_variable>
#include <cstdint>
#include <functional>
#include <mutex>
#include <vector>

#include "optimizer/component_search.h"
#include "optimizer/components.h"
#include "optimizer/solve.h"

namespace flitch::optimizer {

/// The searches of all components, side by side.
class Searches {
 public:
  /// The components outlive the searches.
  Searches(const std::vector<Component>& components, const Limits& limits);

  /// work(search, component) for each, at the same time.
  void each(const std::function<void(ComponentSearch&, std::size_t)>& work);

  /// Improves until `goOn` says no, all gaps are closed, the work is spent or halted. `goOn` is
  /// called in this thread when something has changed, never at the same time as a search is
  /// looked at. With a limit on work the searches take turns in slices, so that what is found is
  /// the same on any number of threads; without one they do not wait for each other.
  void improve(const Halt& halt, const std::function<bool()>& goOn);

  [[nodiscard]] bool closed() const;
  [[nodiscard]] std::uint64_t effort() const;
  /// How all stand together as of the last change told; needs as in the components' problem.
  [[nodiscard]] Progress progress() const;
  [[nodiscard]] Solution solution() const;

 private:
  /// How one stood when it was last looked at.
  struct Standing {
    Worth cost = 0, bound = 0;
    BoundKind kind = BoundKind::none;
    std::vector<Shortage> missing;
    std::uint64_t effort = 0;
    bool closed = false, busy = false;
  };

  void look(std::size_t component);
  [[nodiscard]] int threadsOfEach() const;
  void takeTurns(const Halt& halt, const std::function<bool()>& goOn);
  void apart(const Halt& halt, const std::function<bool()>& goOn);
  /// Works on whichever is open, idle and has had least, until halted.
  void work(const Halt& halt);

  const std::vector<Component>& components_;
  const Limits limits_;
  std::vector<ComponentSearch> searches_;
  std::vector<Standing> standings_;
  std::mutex mutex_;  ///< for standings_ and changes_ while searches work apart
  std::condition_variable changed_;
  std::uint64_t changes_ = 0;
};

}  // namespace flitch::optimizer
