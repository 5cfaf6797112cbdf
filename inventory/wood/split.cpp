#include "inventory/wood/split.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace flitch {
namespace {

constexpr Wide past = static_cast<Wide>(1) << 126;

struct Quotient {
  Wide whole;
  Wide left;
};

/// a * b / divisor by doubling from the highest bit of `a`, which is at most 2^63: no intermediate
/// passes 2^127 as long as the quotient stays at or below 2^63.
Quotient divideProduct(Wide a, Wide b, Wide divisor) {
  const Wide most = static_cast<Wide>(1) << 63;
  const Quotient one{b / divisor, b % divisor};
  Quotient sum{0, 0};
  for (int bit = 63; bit >= 0; --bit) {
    sum.whole *= 2;
    sum.left *= 2;
    if (sum.left >= divisor) {
      sum.left -= divisor;
      ++sum.whole;
    }
    if (((a >> bit) & 1) != 0) {
      sum.whole += one.whole;
      sum.left += one.left;
      if (sum.left >= divisor) {
        sum.left -= divisor;
        ++sum.whole;
      }
    }
    if (sum.whole > most) throw std::overflow_error("a quotient past 64 bits");
  }
  return sum;
}

}  // namespace

std::vector<std::int64_t> split(std::int64_t whole, std::span<const Wide> shares) {
  Wide total = 0;
  for (const Wide share : shares) {
    if (share < 0) throw std::invalid_argument("a share below zero");
    if (share >= past - total) throw std::invalid_argument("shares past 2^126");
    total += share;
  }
  std::vector<std::int64_t> parts(shares.size(), 0);
  if (whole == 0) return parts;
  if (total == 0) throw std::invalid_argument("nothing to share by");

  const Wide magnitude = whole < 0 ? -static_cast<Wide>(whole) : whole;
  std::vector<Wide> exact(shares.size());
  std::vector<Wide> left(shares.size());
  Wide missing = magnitude;
  for (std::size_t i = 0; i < shares.size(); ++i) {
    const Quotient q = divideProduct(magnitude, shares[i], total);
    exact[i] = q.whole;
    left[i] = q.left;
    missing -= q.whole;
  }
  std::vector<std::size_t> order(shares.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&left](std::size_t a, std::size_t b) { return left[a] > left[b]; });
  // What is missing is below the number of remainders above zero: their sum is missing * total.
  for (std::size_t i = 0; missing > 0; ++i, --missing) ++exact[order[i]];
  for (std::size_t i = 0; i < parts.size(); ++i) {
    parts[i] = static_cast<std::int64_t>(whole < 0 ? -exact[i] : exact[i]);
  }
  return parts;
}

std::int64_t mulDiv(std::int64_t a, Wide b, Wide divisor) {
  if (a < 0 || b < 0 || divisor <= 0) throw std::invalid_argument("mulDiv of a figure below zero");
  const Wide whole = divideProduct(a, b, divisor).whole;
  if (whole > std::numeric_limits<std::int64_t>::max())
    throw std::overflow_error("a quotient past 64 bits");
  return static_cast<std::int64_t>(whole);
}

}  // namespace flitch
