#pragma once

namespace flitch::optimizer {

/// Where a section may hold offcuts.
enum class OffcutsIn {
  nowhere,
  bounded,  ///< up to marks and to the end of their strip or stack
  ruled,    ///< where OffcutRule has them; elsewhere some too
  anywhere
};

}  // namespace flitch::optimizer
