#include "inventory/wood/writing.h"

#include <array>
#include <limits>
#include <stdexcept>

namespace flitch {
namespace {

struct Spelling {
  std::string_view from, to;
};
constexpr std::array spellings{
    Spelling{"\xE2\x80\xB2", "'"},     // prime
    Spelling{"\xE2\x80\x98", "'"},     // single quotes
    Spelling{"\xE2\x80\x99", "'"},     //
    Spelling{"\xCA\xB9", "'"},         // modifier prime
    Spelling{"\xE2\x80\xB3", "\""},    // double prime
    Spelling{"\xE2\x80\x9C", "\""},    // double quotes
    Spelling{"\xE2\x80\x9D", "\""},    //
    Spelling{"\xCA\xBA", "\""},        // modifier double prime
    Spelling{"\xC2\xA0", " "},         // no-break space
    Spelling{"\xE2\x80\xAF", " "},     // narrow no-break space
    Spelling{"\xE2\x80\x89", " "},     // thin space
    Spelling{"\xE2\x80\x87", " "},     // figure space
    Spelling{"\xE2\x81\x84", "/"},     // fraction slash
    Spelling{"\xE2\x88\x95", "/"},     // division slash
    Spelling{"\xE2\x88\x92", "-"},     // minus
    Spelling{"\xE2\x80\x90", "-"},     // hyphen
    Spelling{"\xE2\x80\x91", "-"},     // no-break hyphen
    Spelling{"\xE2\x80\x93", "-"},     // en dash
    Spelling{"\xC2\xBC", " 1/4"},      //
    Spelling{"\xC2\xBD", " 1/2"},      //
    Spelling{"\xC2\xBE", " 3/4"},      //
    Spelling{"\xE2\x85\x9B", " 1/8"},  //
    Spelling{"\xE2\x85\x9C", " 3/8"},  //
    Spelling{"\xE2\x85\x9D", " 5/8"},  //
    Spelling{"\xE2\x85\x9E", " 7/8"},  //
    Spelling{"''", "\""},
};

bool isBlank(char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; }

}  // namespace

std::string plain(std::string_view text) {
  std::string out;
  const auto add = [&out](char c) {
    if (isBlank(c)) c = ' ';
    if (c == ' ' && (out.empty() || out.back() == ' ')) return;
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    out.push_back(c);
  };
  while (!text.empty()) {
    std::string_view from = text.substr(0, 1);
    std::string_view to = from;
    for (const Spelling& s : spellings) {
      if (text.starts_with(s.from)) {
        from = s.from;
        to = s.to;
        break;
      }
    }
    for (const char c : to) add(c);
    text.remove_prefix(from.size());
  }
  if (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

std::vector<std::string_view> divided(std::string_view text, char mark) {
  std::vector<std::string_view> parts;
  while (true) {
    const std::size_t at = text.find(mark);
    parts.push_back(trimmed(text.substr(0, at)));
    if (at == std::string_view::npos) return parts;
    text.remove_prefix(at + 1);
  }
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view noBreak = "\xC2\xA0";
  for (;;) {
    if (!text.empty() && isBlank(text.front())) {
      text.remove_prefix(1);
    } else if (text.starts_with(noBreak)) {
      text.remove_prefix(noBreak.size());
    } else {
      break;
    }
  }
  for (;;) {
    if (!text.empty() && isBlank(text.back())) {
      text.remove_suffix(1);
    } else if (text.ends_with(noBreak)) {
      text.remove_suffix(noBreak.size());
    } else {
      break;
    }
  }
  return text;
}

std::string shortened(std::string_view text) {
  constexpr int most = 60;
  std::string out;
  int characters = 0;
  for (const char c : text) {
    const bool startsOne = (static_cast<unsigned char>(c) & 0xC0u) != 0x80u;
    if (startsOne && ++characters > most) return out + "\xE2\x80\xA6";
    const bool control = static_cast<unsigned char>(c) < 0x20u || c == 0x7F;
    out.push_back(control ? ' ' : c);
  }
  return out;
}

std::string inBackticks(std::string_view text) { return "`" + shortened(text) + "`"; }

std::string decimal(std::int64_t n, int places, std::string_view minus) {
  const bool negative = n < 0;
  // The magnitude of the least int64 does not fit int64.
  std::uint64_t left =
      negative ? ~static_cast<std::uint64_t>(n) + 1 : static_cast<std::uint64_t>(n);
  std::string digits = std::to_string(left);
  const auto wanted = static_cast<std::size_t>(places) + 1;
  if (digits.size() < wanted) digits.insert(0, wanted - digits.size(), '0');
  digits.insert(digits.size() - static_cast<std::size_t>(places), ".");
  while (digits.back() == '0') digits.pop_back();
  if (digits.back() == '.') digits.pop_back();
  return negative ? std::string(minus) + digits : digits;
}

std::int64_t narrow(Wide n) {
  if (n > std::numeric_limits<std::int64_t>::max() || n < std::numeric_limits<std::int64_t>::min())
    throw std::overflow_error("a figure past 64 bits");
  return static_cast<std::int64_t>(n);
}

}  // namespace flitch
