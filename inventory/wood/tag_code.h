#pragma once
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace flitch {

/// What a tag hangs on.
enum class TagKind : char { board = 'T', bay = 'B', piece = 'P' };

/// A tag code: letter, serial of at least four digits, ISO/IEC 7064 MOD 37,2 check character.
/// Paper and screen show `T0042-F`, symbols hold `T0042F`; both are taken when typed or scanned.
struct TagCode {
  TagKind kind = TagKind::board;
  std::int64_t serial = 0;
  auto operator<=>(const TagCode&) const = default;
};

/// ISO/IEC 7064 MOD 37,2 check character of `data` (0-9, A-Z): 0-9, A-Z or `*`.
/// Throws Unreadable for other characters.
[[nodiscard]] char checkCharacter(std::string_view data);

/// `T0042-F`.
[[nodiscard]] std::string text(TagCode code);
/// `T0042F`: what a symbol holds (no hyphen: scanners on other keyboard layouts).
[[nodiscard]] std::string symbolText(TagCode code);

/// True when the serial may be issued: 1 to 999 999 999, its check character not `*`, I or O.
[[nodiscard]] bool issuable(TagKind kind, std::int64_t serial);
/// Smallest serial above `after` that may be issued. Throws std::out_of_range past the last.
[[nodiscard]] std::int64_t nextIssuable(TagKind kind, std::int64_t after);

/// How a text was understood as a tag.
struct TagReading {
  enum class Verdict {
    right,       ///< shape and check character right
    wrongCheck,  ///< shape right, check character wrong: name it, open nothing
    noCheck,     ///< letter and number only, as written by hand: confirm before use
    notATag      ///< anything else
  };
  Verdict verdict = Verdict::notATag;
  TagCode code;  ///< meaningful unless notATag
};

/// Takes `T0042-F`, `T0042F`, lower case, surrounding blanks; `T0042`, `42` as noCheck (a bare
/// number is a board's). Of five characters or more after the letter the last one checks, be it a
/// figure, and a bare number has four figures at most: so no damaged symbol passes as a number
/// written by hand, and tags past T9999 are always written in full. Never throws.
[[nodiscard]] TagReading readTag(std::string_view text);

}  // namespace flitch
