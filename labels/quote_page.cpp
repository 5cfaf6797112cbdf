#include "labels/quote_page.h"

#include <QStringList>

#include "labels/page.h"
#include "labels/sheet.h"

namespace flitch::pages {
namespace {

class Writing {
 public:
  Writing(const Quote& quote, const QuoteFacts& facts) : quote_(quote), facts_(facts) { begin(); }

  void title() {
    for (const QString& line : wrapped(asText(quote_.title), 18, true, room())) {
      y_ += 9;
      sheet().write(sheet().left(), y_, line, 18, true);
    }
    y_ += 2;
  }

  /// Every line of the maker's own, broken where it is too long.
  void words(const std::string& text) {
    for (const QString& own : asText(text).split('\n')) {
      for (const QString& line : wrapped(own, 12, false, room())) {
        if (!fits(7)) begin();
        y_ += 6.6;
        sheet().write(sheet().left(), y_, line, 12);
      }
    }
  }

  void price() {
    if (!fits(40)) begin();
    y_ += 12;
    sheet().line(sheet().left(), sheet().right(), y_, 0.3);
    y_ += 13;
    sheet().write(sheet().left(), y_, "Price", 15, true);
    sheet().writeRight(sheet().right(), y_, asText(text(quote_.price, facts_.sign)), 28, true);
    y_ += 7;
    sheet().line(sheet().left(), sheet().right(), y_, 0.3);
    y_ += 2;
  }

  void signatures() {
    if (!fits(40)) begin();
    y_ += 26;
    const double wide = 76;
    sheet().line(sheet().left(), sheet().left() + wide, y_, 0.3);
    sheet().line(sheet().right() - wide, sheet().right(), y_, 0.3);
    y_ += 5;
    const QString customer = facts_.customer.empty() ? "the customer" : asText(facts_.customer);
    sheet().write(sheet().left(), y_, "for " + customer, 9, false, wide, Tone::soft);
    sheet().write(sheet().right() - wide, y_, "for " + asText(facts_.shop), 9, false, wide,
                  Tone::soft);
  }

  std::vector<Page> end() {
    std::vector<Page> pages;
    for (std::size_t n = 0; n < sheets_.size(); ++n) {
      sheets_[n].titleBlock(
          {{"For", asText(facts_.customer), 0.4},
           {"Number", asText(quote_.number), 0.2},
           {"Date", asText(quote_.givenOn), 0.22},
           {"Sheet", QString::number(n + 1) + " of " + QString::number(sheets_.size()), 0.18}});
      pages.push_back(std::move(sheets_[n].page));
    }
    return pages;
  }

 private:
  [[nodiscard]] Sheet& sheet() { return sheets_.back(); }
  [[nodiscard]] double room() { return sheet().right() - sheet().left(); }
  [[nodiscard]] bool fits(double high) { return y_ + high <= sheet().foot() - 3; }

  void begin() {
    sheets_.emplace_back(false, false);
    const double top = Sheet::margin;
    sheet().write(sheet().left(), top + 9, "Quote", 28, true);
    sheet().writeRight(sheet().right(), top + 8, asText(facts_.shop), 15, true, room() * 0.6);
    sheet().rule(top + 14);
    y_ = top + 20;
  }

  const Quote& quote_;
  const QuoteFacts& facts_;
  std::vector<Sheet> sheets_;
  double y_ = 0;
};

}  // namespace

std::vector<Page> quotePages(const Quote& quote, const QuoteFacts& facts) {
  Writing writing(quote, facts);
  writing.title();
  if (!quote.words.empty()) writing.words(quote.words);
  writing.price();
  if (!quote.terms.empty()) writing.words(quote.terms);
  if (!quote.validUntil.empty()) writing.words("Valid until " + quote.validUntil + ".");
  if (facts.woodMoves) writing.words("Wood moves with the seasons; the piece is built to let it.");
  writing.signatures();
  return writing.end();
}

}  // namespace flitch::pages
