#include "inventory/wood/tag_code.h"

#include <stdexcept>

#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"

namespace flitch {
namespace {

constexpr std::int64_t lastSerial = 999'999'999;
constexpr std::string_view alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*";

bool isLetter(char c) { return c >= 'A' && c <= 'Z'; }

/// ISO/IEC 7064 pure system, modulus 37, radix 2: the sum so far doubles with every character.
class CheckSum {
 public:
  void add(char c) {
    const int value = isDigit(c) ? c - '0' : c - 'A' + 10;
    sum_ = (sum_ + value) * 2 % 37;
  }
  [[nodiscard]] char character() const {
    return alphabet[static_cast<std::size_t>((38 - sum_) % 37)];
  }

 private:
  int sum_ = 0;
};

std::string data(TagCode code) {
  std::string digits = std::to_string(code.serial);
  if (digits.size() < 4) digits.insert(0, 4 - digits.size(), '0');
  return static_cast<char>(code.kind) + digits;
}

/// -1 unless one to nine figures.
std::int64_t serialOf(std::string_view digits) {
  if (digits.empty() || digits.size() > 9) return -1;
  std::int64_t n = 0;
  for (const char c : digits) {
    if (!isDigit(c)) return -1;
    n = n * 10 + (c - '0');
  }
  return n;
}

}  // namespace

char checkCharacter(std::string_view data) {
  CheckSum sum;
  for (const char c : data) {
    if (!isDigit(c) && !isLetter(c)) {
      throw Unreadable(inBackticks(data) + " has a character that no tag has", shortened(data),
                       "0 to 9, A to Z");
    }
    sum.add(c);
  }
  return sum.character();
}

std::string text(TagCode code) {
  const std::string all = data(code);
  return all + '-' + checkCharacter(all);
}

std::string symbolText(TagCode code) {
  const std::string all = data(code);
  return all + checkCharacter(all);
}

bool issuable(TagKind kind, std::int64_t serial) {
  if (serial < 1 || serial > lastSerial) return false;
  const char check = checkCharacter(data({kind, serial}));
  return check != '*' && check != 'I' && check != 'O';
}

std::int64_t nextIssuable(TagKind kind, std::int64_t after) {
  for (std::int64_t serial = after < 0 ? 1 : after + 1; serial <= lastSerial; ++serial) {
    if (issuable(kind, serial)) return serial;
  }
  throw std::out_of_range("no tag serial is left");
}

TagReading readTag(std::string_view asWritten) {
  std::string_view rest = trimmed(asWritten);
  if (rest.empty() || rest.size() > 12) return {};
  std::string upper(rest);
  for (char& c : upper) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  rest = upper;

  TagReading reading;
  const bool lettered = isLetter(rest.front());
  if (lettered) {
    const char letter = rest.front();
    if (letter != 'T' && letter != 'B' && letter != 'P') return {};
    reading.code.kind = static_cast<TagKind>(letter);
    rest.remove_prefix(1);
  }
  std::string_view digits = rest;
  char check = 0;
  const std::size_t hyphen = rest.find('-');
  if (hyphen != std::string_view::npos) {
    if (!lettered || hyphen + 2 != rest.size()) return {};
    digits = rest.substr(0, hyphen);
    check = rest.back();
  } else if (lettered && rest.size() >= 5) {
    // As in a symbol: the last character checks, be it a figure or not.
    digits = rest.substr(0, rest.size() - 1);
    check = rest.back();
  }
  reading.code.serial = serialOf(digits);
  if (reading.code.serial < 1) return {};
  // A longer bare number may be a symbol whose letter was misread.
  if (!lettered && digits.size() > 4) return {};
  // A serial past four figures has no leading zero: another spelling would check differently.
  if (digits.size() > 4 && digits.front() == '0') return {};
  if (check == 0) {
    reading.verdict = TagReading::Verdict::noCheck;
    return reading;
  }
  if (!isDigit(check) && !isLetter(check) && check != '*') return {};
  reading.verdict = issuable(reading.code.kind, reading.code.serial) &&
                            checkCharacter(data(reading.code)) == check
                        ? TagReading::Verdict::right
                        : TagReading::Verdict::wrongCheck;
  return reading;
}

}  // namespace flitch
