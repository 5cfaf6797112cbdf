#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/records/refusal.h"
#include "inventory/records/table.h"

namespace flitch::exchange {

/// A cell with its place in the file.
struct CsvCell {
  std::string text;  ///< UTF-8, unquoted, outer blanks trimmed, formula apostrophe taken off
  int line = 0;      ///< 1-based line of the file where the cell starts
};
struct CsvRow {
  int line = 0;
  std::vector<CsvCell> cells;
};
/// A file read: the head and the rows, empty lines left out.
struct CsvFile {
  std::string name;  ///< for messages: the file's name without its folder
  std::vector<CsvCell> head;
  std::vector<CsvRow> rows;
};

inline constexpr std::size_t maxCsvBytes = 8u << 20;
inline constexpr std::size_t maxCellBytes = 10'000;
inline constexpr std::size_t maxCsvRows = 20'000;
inline constexpr std::size_t maxCsvColumns = 200;

/// RFC 4180: quotes, doubled quotes, line breaks in quotes, CRLF or LF, a UTF-8 byte order mark is
/// skipped. Comma, or semicolon or tab when the head has no comma but that. A quote inside a cell
/// that did not begin with one is an inch sign. Rows may be shorter than the head; empty cells past
/// it are dropped. Throws Refusal ("bad-file") naming file and line: not UTF-8 (UTF-16 and
/// spreadsheets named as such), a NUL byte or another control character, an open quote, text after
/// a closing quote, a row longer than the head, a cell or file over its limit, no head.
[[nodiscard]] CsvFile readCsv(std::string_view bytes, const std::string& name);
/// Reads a file from disk; throws Refusal when it cannot be opened.
[[nodiscard]] CsvFile readCsvFile(const std::string& path);

/// A table as CSV with a head of column keys; cells exact. A cell that a spreadsheet would run as a
/// formula (starts with = + - @, tab or CR and is not a number) gets an apostrophe before it, which
/// readCsv takes off again. Lines end in CRLF (RFC 4180). Totals and note are left out.
[[nodiscard]] std::string writeCsv(const Table& table);

}  // namespace flitch::exchange
