#include "optimizer/pivot_halt.h"

#include <ClpEventHandler.hpp>
#include <ClpSimplex.hpp>

namespace flitch::optimizer {
namespace {

class PivotHalt : public ClpEventHandler {
 public:
  explicit PivotHalt(const Halt& halt) : halt_(&halt) {}
  int event(Event) override { return halt_->now() ? stopped : goOn; }
  [[nodiscard]] ClpEventHandler* clone() const override { return new PivotHalt(*this); }

 private:
  static constexpr int goOn = -1, stopped = 4;
  const Halt* halt_;
};

}  // namespace

void endWhenHalted(ClpSimplex& model, const Halt& halt) {
  PivotHalt handler(halt);
  model.passInEventHandler(&handler);  // which copies it
}

}  // namespace flitch::optimizer
