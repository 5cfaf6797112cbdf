#pragma once
#include <string>
#include <utility>

#include "inventory/records/refusal.h"
#include "inventory/wood/length.h"
#include "inventory/wood/unreadable.h"

namespace flitch::cli {

/// Reads an argument: what cannot be read is refused with the argument's name.
template <class Read>
auto argument(const std::string& name, const Read& read) {
  try {
    return read();
  } catch (const Unreadable& error) {
    throw Refusal("bad-" + name, Complaint{name, error.what(), error.value, error.accepted});
  }
}

/// The two parts of "70x37 mm" or "10' × 7 1/2". Throws Unreadable when it has not two.
[[nodiscard]] inline std::pair<std::string, std::string> twoSizes(const std::string& written) {
  const std::string sign = written.find("×") != std::string::npos ? "×" : "x";
  const std::size_t at = written.find(sign);
  if (at == std::string::npos) {
    throw Unreadable("`" + written + "` is not two sizes", written, "70x37 mm, 10' x 7 1/2");
  }
  return {written.substr(0, at), written.substr(at + sign.size())};
}

/// A length above nothing; bare figures in `bare`.
[[nodiscard]] inline Length sizeArgument(const std::string& name, const std::string& written,
                                         Bare bare) {
  const Length size = argument(name, [&] { return parseLength(written, bare); });
  if (size > Length()) return size;
  throw Refusal("bad-" + name,
                Complaint{name, "`" + written + "` is no " + name, written,
                          bare == Bare::feet ? "8, 10-6, 10' 6\", 2400 mm" : "24, 24 1/2, 600 mm"});
}
[[nodiscard]] constexpr Bare bareOf(Unit unit) {
  return unit == Unit::inches ? Bare::inches : Bare::millimetres;
}

}  // namespace flitch::cli
