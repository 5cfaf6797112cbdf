#pragma once
#include <vector>

#include "labels/page.h"

/// What a page says, for tests.
namespace flitch::test {

[[nodiscard]] std::vector<pages::Text> texts(const std::vector<pages::Ink>& ink);
[[nodiscard]] inline std::vector<pages::Text> texts(const pages::Page& page) {
  return texts(page.ink);
}
/// All words painted, a text a line; a blank that may not break is a blank.
[[nodiscard]] QString wordsOn(const std::vector<pages::Page>& pages);
/// How often a text holds these words.
[[nodiscard]] int shown(const std::vector<pages::Page>& pages, const QString& words);

/// Fails the test unless no text leaves the frame and, below `from`, none lies on another.
void checkTexts(const pages::Page& page, double from = 0);

}  // namespace flitch::test
