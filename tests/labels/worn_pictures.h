#pragma once
#include <QImage>
#include <random>
#include <string>
#include <vector>

#include "labels/label_stock.h"

/// Pictures of tags as a phone takes them in a shop, for tests and for the bench that counts how
/// many are read.
namespace flitch::test {

enum class Wear { none, turned, scaled, blurred, noisy, faint, slanted, all };
inline constexpr Wear wears[] = {Wear::none,  Wear::turned, Wear::scaled,  Wear::blurred,
                                 Wear::noisy, Wear::faint,  Wear::slanted, Wear::all};
[[nodiscard]] const char* word(Wear wear);

struct WornPicture {
  std::string code;   ///< what its symbols hold
  std::string stock;  ///< the label's
  int dpi = 0;
  Wear wear = Wear::none;
  QImage picture;
};
/// One picture: a board's tag of a stock at a printer's dots, on a grey bench, turned by any angle
/// but for Wear::none, worn as asked. Seeded alone by `random`.
[[nodiscard]] WornPicture wornPicture(std::mt19937& random, const pages::LabelStock& stock, int dpi,
                                      Wear wear);

/// What came of reading it.
enum class Outcome { read, unread, wrong };
/// `wrong`: some symbol read is a right tag code, but another's: a board that would be opened by
/// mistake.
[[nodiscard]] Outcome outcome(const WornPicture& worn);

}  // namespace flitch::test
