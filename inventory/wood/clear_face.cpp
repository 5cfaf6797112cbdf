#include <algorithm>
#include <limits>
#include <stdexcept>

#include "inventory/wood/cutting_sweep.h"

namespace flitch {

ClearFace::ClearFace(int length, int width) : length_(length), width_(width) {
  if (length <= 0 || width <= 0) throw std::invalid_argument("a face without cells");
  cells_.assign(static_cast<std::size_t>(length) * static_cast<std::size_t>(width), 1);
}

void ClearFace::set(const Cells& where, char value) {
  const int x0 = std::clamp(where.x, 0, length_);
  const int x1 = std::clamp(where.right(), x0, length_);
  for (int y = std::max(where.y, 0); y < std::min(where.top(), width_); ++y) {
    const auto row = cells_.begin() + static_cast<std::ptrdiff_t>(index(0, y));
    std::fill(row + x0, row + x1, value);
  }
}

LeastLengths::LeastLengths(std::span<const LeastCutting> least, int width) {
  byWidth_.assign(static_cast<std::size_t>(width) + 1, never);
  for (const LeastCutting& one : least) {
    for (int w = one.width; w <= width; ++w) {
      int& length = byWidth_[static_cast<std::size_t>(w)];
      length = std::min(length, one.length);
    }
  }
}

std::vector<Cells> largestClear(const ClearFace& face, const LeastLengths& least) {
  std::vector<Cells> all;
  std::vector<char> column(static_cast<std::size_t>(face.length()));
  const auto clearAt = [&](int x, int y0, int y1) {
    for (int y = y0; y < y1; ++y) {
      if (!face.clear(x, y)) return false;
    }
    return true;
  };
  for (int y0 = 0; y0 < face.width(); ++y0) {
    std::fill(column.begin(), column.end(), 1);
    for (int y1 = y0 + 1; y1 <= face.width(); ++y1) {
      bool any = false;
      for (int x = 0; x < face.length(); ++x) {
        char& clear = column[static_cast<std::size_t>(x)];
        clear = clear != 0 && face.clear(x, y1 - 1) ? 1 : 0;
        any = any || clear != 0;
      }
      if (!any) break;
      const int shortest = least.at(y1 - y0);
      for (int x = 0; x < face.length();) {
        const int start = x;
        while (x < face.length() && column[static_cast<std::size_t>(x)] != 0) ++x;
        if (x > start && x - start >= shortest) {
          bool below = y0 > 0;
          bool above = y1 < face.width();
          for (int c = start; c < x && (below || above); ++c) {
            below = below && clearAt(c, y0 - 1, y0);
            above = above && clearAt(c, y1, y1 + 1);
          }
          if (!below && !above) all.push_back({start, y0, x - start, y1 - y0});
        }
        if (x == start) ++x;
      }
    }
  }
  return all;
}

std::vector<Cells> largestClear(const ClearFace& face, std::span<const LeastCutting> least) {
  return largestClear(face, LeastLengths(least, face.width()));
}

}  // namespace flitch
