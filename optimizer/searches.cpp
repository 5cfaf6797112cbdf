#include "optimizer/searches.h"

#include <algorithm>
#include <chrono>
#include <thread>

namespace flitch::optimizer {
namespace {

constexpr std::uint64_t firstSlice = 500000, mostSlice = 40000000;  ///< work between two looks
constexpr std::chrono::milliseconds pause{20};  ///< between two looks at the clock

}  // namespace

Searches::Searches(const std::vector<Component>& components, const Limits& limits)
    : components_(components), limits_(limits), standings_(components.size()) {
  searches_.reserve(components.size());
  for (std::size_t c = 0; c < components.size(); ++c) {
    searches_.emplace_back(components[c].problem, static_cast<std::uint64_t>(limits.seed) + c);
    look(c);
  }
}

void Searches::look(std::size_t component) {
  const ComponentSearch& search = searches_[component];
  Standing& now = standings_[component];
  now.cost = search.cost();
  now.bound = search.bound();
  now.kind = search.kind();
  now.effort = search.effort();
  now.closed = search.closed();
  now.missing.clear();
  const std::vector<int>& needs = components_[component].needs;
  for (std::size_t n = 0; n < needs.size(); ++n)
    if (const std::int64_t missing = search.missing(static_cast<int>(n)); missing > 0)
      now.missing.push_back({needs[n], missing});
}

void Searches::each(const std::function<void(ComponentSearch&, std::size_t)>& work) {
  Crew(limits_.threads).each(searches_.size(), [&](std::size_t c) {
    work(searches_[c], c);
    look(c);
  });
}

int Searches::threadsOfEach() const {
  const auto open = std::count_if(standings_.begin(), standings_.end(),
                                  [](const Standing& standing) { return !standing.closed; });
  return std::max(1, limits_.threads / std::max(1, static_cast<int>(open)));
}

void Searches::improve(const Halt& halt, const std::function<bool()>& goOn) {
  if (limits_.effort > 0)
    takeTurns(halt, goOn);
  else
    apart(halt, goOn);
}

void Searches::takeTurns(const Halt& halt, const std::function<bool()>& goOn) {
  std::uint64_t slice = firstSlice;
  while (goOn() && !closed() && effort() < limits_.effort && !halt.now()) {
    std::vector<std::size_t> open;
    for (std::size_t c = 0; c < searches_.size(); ++c)
      if (!standings_[c].closed) open.push_back(c);
    const std::uint64_t own = std::min(slice, (limits_.effort - effort()) / open.size() + 1);
    const int threads = threadsOfEach();
    Crew(limits_.threads).each(open.size(), [&](std::size_t o) {
      searches_[open[o]].useThreads(threads);
      searches_[open[o]].improve(own, halt);
      look(open[o]);
    });
    slice = std::min(mostSlice, slice * 2);
  }
}

void Searches::apart(const Halt& halt, const std::function<bool()>& goOn) {
  std::stop_source ended;
  const std::stop_callback forward(halt.stop, [&ended] { ended.request_stop(); });
  const Halt own{ended.get_token(), halt.until};
  std::vector<std::jthread> workers;
  const std::size_t most = static_cast<std::size_t>(std::max(1, limits_.threads));
  for (std::size_t w = 0; w < std::min(most, searches_.size()); ++w)
    workers.emplace_back([this, &own] { work(own); });
  std::unique_lock lock(mutex_);
  while (goOn() && !closed() && !own.now()) {
    const std::uint64_t seen = changes_;
    while (changes_ == seen && !own.now()) changed_.wait_for(lock, pause);
  }
  ended.request_stop();
  lock.unlock();
  changed_.notify_all();
}

void Searches::work(const Halt& halt) {
  std::unique_lock lock(mutex_);
  while (!halt.now() && !closed()) {
    Standing* next = nullptr;
    for (Standing& standing : standings_)
      if (!standing.closed && !standing.busy && (next == nullptr || standing.effort < next->effort))
        next = &standing;
    if (next == nullptr) {
      changed_.wait_for(lock, pause);
      continue;
    }
    const auto at = static_cast<std::size_t>(next - standings_.data());
    next->busy = true;
    const int threads = threadsOfEach();
    lock.unlock();
    searches_[at].useThreads(threads);
    searches_[at].improve(firstSlice, halt);
    lock.lock();
    look(at);
    next->busy = false;
    ++changes_;
    changed_.notify_all();
  }
}

bool Searches::closed() const {
  return std::all_of(standings_.begin(), standings_.end(),
                     [](const Standing& standing) { return standing.closed; });
}

std::uint64_t Searches::effort() const {
  std::uint64_t sum = 0;
  for (const Standing& standing : standings_) sum += standing.effort;
  return sum;
}

Progress Searches::progress() const {
  Progress now;
  now.boundKind = BoundKind::exact;
  for (const Standing& standing : standings_) {
    now.cost += standing.cost;
    now.bound += standing.bound;
    now.boundKind = std::min(now.boundKind, standing.kind);
    now.shortages.insert(now.shortages.end(), standing.missing.begin(), standing.missing.end());
  }
  std::sort(now.shortages.begin(), now.shortages.end(),
            [](const Shortage& a, const Shortage& b) { return a.need < b.need; });
  return now;
}

Solution Searches::solution() const {
  std::vector<Solution> solutions;
  for (const ComponentSearch& search : searches_) solutions.push_back(search.solution());
  return join(components_, solutions);
}

}  // namespace flitch::optimizer
