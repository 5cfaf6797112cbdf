#include "tests/labels/words_on.h"

#include <QStringList>
#include <catch2/catch.hpp>

namespace flitch::test {

using pages::Ink;
using pages::Page;
using pages::Text;

std::vector<Text> texts(const std::vector<Ink>& ink) {
  std::vector<Text> all;
  for (const Ink& one : ink)
    if (const auto* text = std::get_if<Text>(&one)) all.push_back(*text);
  return all;
}

QString wordsOn(const std::vector<Page>& pages) {
  QStringList all;
  for (const Page& page : pages)
    for (const Text& text : texts(page)) all << shownText(text);
  return all.join('\n').replace(QChar::Nbsp, ' ');
}

int shown(const std::vector<Page>& pages, const QString& words) {
  int count = 0;
  for (const Page& page : pages)
    for (const Text& text : texts(page)) count += shownText(text).contains(words) ? 1 : 0;
  return count;
}

void checkTexts(const Page& page, double from) {
  const QRectF frame = QRectF(QPointF(0, 0), page.mm).adjusted(8, 8, -8, -8);
  const auto all = texts(page);
  for (std::size_t a = 0; a < all.size(); ++a) {
    INFO(all[a].text.toStdString());
    if (all[a].turned == 0) CHECK(frame.contains(textBox(all[a])));
    if (all[a].at.y() < from) continue;
    for (std::size_t b = a + 1; b < all.size(); ++b) {
      if (all[b].at.y() < from) continue;
      INFO(all[b].text.toStdString());
      CHECK_FALSE(textBox(all[a]).intersects(textBox(all[b])));
    }
  }
}

}  // namespace flitch::test
