#include "inventory/exchange/csv.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <optional>

#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

constexpr std::string_view saveAsUtf8 = "a CSV file in UTF-8 (\"CSV UTF-8\" when saving)";

[[noreturn]] void refuse(const std::string& place, const std::string& sentence,
                         std::string_view accepted = {}) {
  throw Refusal("bad-file", Complaint{place, sentence, "", std::string(accepted)});
}

/// Bytes of the character at the front of `text`, or 0 when it is not UTF-8 (RFC 3629: no overlong
/// forms, no surrogates, nothing past U+10FFFF).
std::size_t characterLength(std::string_view text) {
  const auto byte = [text](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(0);
  if (first < 0x80) return 1;
  const std::size_t n = first >= 0xC2 && first <= 0xDF   ? 2
                        : first >= 0xE0 && first <= 0xEF ? 3
                        : first >= 0xF0 && first <= 0xF4 ? 4
                                                         : 0;
  if (n == 0 || text.size() < n) return 0;
  for (std::size_t i = 1; i < n; ++i) {
    if ((byte(i) & 0xC0) != 0x80) return 0;
  }
  const unsigned char second = byte(1);
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool outside = (first == 0xED && second > 0x9F) || (first == 0xF4 && second > 0x8F);
  return overlong || outside ? 0 : n;
}

/// What the first bytes say a file is when it is no text of ours.
void checkKind(std::string_view bytes, const std::string& name) {
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF")) {
    refuse(name, "the file is UTF-16", saveAsUtf8);
  }
  if (bytes.starts_with("PK\x03\x04") || bytes.starts_with("\xD0\xCF\x11\xE0")) {
    refuse(name, "the file is a spreadsheet, not a CSV", saveAsUtf8);
  }
  if (bytes.size() > maxCsvBytes) refuse(name, "the file is larger than 8 MB");
}

/// Every byte is looked at before any cell is: what follows may rely on UTF-8 without control
/// characters.
void checkCharacters(std::string_view bytes, const std::string& name) {
  int line = 1;
  for (std::size_t i = 0; i < bytes.size();) {
    const std::string place = name + ":" + std::to_string(line);
    if (bytes[i] == '\0') refuse(place, "the file holds a NUL byte, so it is not text", saveAsUtf8);
    const auto byte = static_cast<unsigned char>(bytes[i]);
    if ((byte < 0x20 && byte != '\t' && byte != '\r' && byte != '\n') || byte == 0x7F) {
      refuse(place, "the line holds a control character, so it is not text", saveAsUtf8);
    }
    const std::size_t n = characterLength(bytes.substr(i));
    if (n == 0) refuse(place, "the line holds a character that is not UTF-8", saveAsUtf8);
    if (bytes[i] == '\n') ++line;
    i += n;
  }
}

/// True for = + - @ tab CR, apostrophes before it left out: both ways agree on which apostrophe is
/// ours.
bool formulaAfterApostrophes(std::string_view text) {
  const std::size_t first = text.find_first_not_of('\'');
  return first != std::string_view::npos &&
         std::string_view("=+-@\t\r").find(text[first]) != std::string_view::npos;
}

/// Cells of one line after the other. A quote opens a quoted cell only at its start: `10' 6"` needs
/// none.
class Scanner {
 public:
  Scanner(std::string_view bytes, const std::string& name, char comma)
      : rest_(bytes), name_(name), comma_(comma) {}

  /// The next line with something in it, or nothing at the end.
  std::optional<CsvRow> row() {
    while (!rest_.empty()) {
      CsvRow row{line_, {}};
      do {
        row.cells.push_back(cell());
      } while (takeComma());
      takeLineEnd();
      const bool empty = std::all_of(row.cells.begin(), row.cells.end(),
                                     [](const CsvCell& c) { return c.text.empty(); });
      if (!empty) return row;
    }
    return std::nullopt;
  }

 private:
  [[nodiscard]] bool atLineEnd() const {
    return rest_.empty() || rest_.front() == '\n' || rest_.front() == '\r';
  }
  [[nodiscard]] std::string here() const { return name_ + ":" + std::to_string(line_); }

  bool takeComma() {
    if (rest_.empty() || rest_.front() != comma_) return false;
    rest_.remove_prefix(1);
    return true;
  }
  void takeLineEnd() {
    if (rest_.empty()) return;
    rest_.remove_prefix(rest_.starts_with("\r\n") ? 2 : 1);
    ++line_;
  }

  CsvCell cell() {
    std::size_t blanks = 0;
    while (blanks < rest_.size() && rest_[blanks] == ' ') ++blanks;
    const bool isQuoted = blanks < rest_.size() && rest_[blanks] == '"';
    CsvCell out{"", line_};
    const std::string text = isQuoted ? quotedCell(blanks + 1) : plainCell();
    std::string_view kept = trimmed(text);
    // The apostrophe that writeCsv puts before a formula.
    if (kept.size() > 1 && kept.front() == '\'' && formulaAfterApostrophes(kept))
      kept.remove_prefix(1);
    out.text = kept;
    return out;
  }

  std::string plainCell() {
    std::size_t n = 0;
    while (n < rest_.size() && rest_[n] != comma_ && rest_[n] != '\n' && rest_[n] != '\r') ++n;
    checkSize(n);
    std::string text(rest_.substr(0, n));
    rest_.remove_prefix(n);
    return text;
  }

  std::string quotedCell(std::size_t before) {
    const std::string start = here();
    rest_.remove_prefix(before);
    std::string text;
    for (;;) {
      const std::size_t quote = rest_.find('"');
      if (quote == std::string_view::npos) refuse(start, "a quote is opened and never closed");
      checkSize(text.size() + quote);
      const std::string_view part = rest_.substr(0, quote);
      line_ += static_cast<int>(std::count(part.begin(), part.end(), '\n'));
      text += part;
      rest_.remove_prefix(quote + 1);
      if (rest_.empty() || rest_.front() != '"') break;
      text += '"';
      rest_.remove_prefix(1);
    }
    while (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
    if (!atLineEnd() && rest_.front() != comma_) {
      refuse(here(), "text stands after a closing quote",
             "a quote inside a quoted cell is doubled");
    }
    return text;
  }

  void checkSize(std::size_t bytes) const {
    if (bytes > maxCellBytes) refuse(here(), "a cell is longer than 10 000 bytes");
  }

  std::string_view rest_;
  const std::string& name_;
  char comma_;
  int line_ = 1;
};

/// The sign between cells, from the first line that is not empty: a comma, or a semicolon or a tab
/// where there is no comma outside quotes.
char commaOf(std::string_view bytes) {
  bool quotes = false;
  bool semicolon = false;
  bool tab = false;
  bool anything = false;
  for (const char c : bytes) {
    if (c == '"') quotes = !quotes;
    if (quotes) continue;
    if (c == ',') return ',';
    if (c == ';') semicolon = true;
    if (c == '\t') tab = true;
    if ((c == '\n' || c == '\r') && anything) break;
    anything = anything || (c != ' ' && c != '\n' && c != '\r');
  }
  return semicolon ? ';' : tab ? '\t' : ',';
}

bool isNumber(std::string_view text) {
  if (text.starts_with('-') || text.starts_with('+')) text.remove_prefix(1);
  const bool digits = text.find_first_not_of("0123456789.") == std::string_view::npos;
  return digits && text.find_first_of("0123456789") != std::string_view::npos &&
         std::count(text.begin(), text.end(), '.') <= 1;
}

std::string written(const std::string& cell) {
  std::string text = cell;
  if (formulaAfterApostrophes(text) && !isNumber(text)) text.insert(0, "'");
  const bool outerBlank = trimmed(text).size() != text.size();
  if (!outerBlank && text.find_first_of(",;\t\"\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + '"';
}

}  // namespace

CsvFile readCsv(std::string_view bytes, const std::string& name) {
  checkKind(bytes, name);
  if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
  checkCharacters(bytes, name);

  Scanner scanner(bytes, name, commaOf(bytes));
  CsvFile file{name, {}, {}};
  std::optional<CsvRow> head = scanner.row();
  if (!head) refuse(name, "the file is empty", "a head row with column names, then a row a line");
  while (head->cells.size() > 1 && head->cells.back().text.empty()) head->cells.pop_back();
  file.head = std::move(head->cells);
  if (file.head.size() > maxCsvColumns) refuse(name, "the head has more than 200 columns");

  while (std::optional<CsvRow> row = scanner.row()) {
    while (row->cells.size() > file.head.size() && row->cells.back().text.empty()) {
      row->cells.pop_back();
    }
    if (row->cells.size() > file.head.size()) {
      refuse(name + ":" + std::to_string(row->line),
             "the row has " + std::to_string(row->cells.size()) + " cells, the head " +
                 std::to_string(file.head.size()),
             "a cell with a comma in it stands in quotes");
    }
    if (file.rows.size() == maxCsvRows) refuse(name, "the file has more than 20 000 rows");
    file.rows.push_back(std::move(*row));
  }
  return file;
}

CsvFile readCsvFile(const std::string& path) {
  const std::string name = std::filesystem::path(path).filename().string();
  std::error_code error;
  if (std::filesystem::is_directory(path, error)) refuse(path, "this is a folder, not a file");
  std::ifstream in(path, std::ios::binary);
  if (!in) refuse(path, "the file cannot be opened");
  // One byte past the limit is enough to see that a file is too large.
  std::string bytes(maxCsvBytes + 1, '\0');
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (in.bad()) refuse(path, "the file cannot be read");
  bytes.resize(static_cast<std::size_t>(in.gcount()));
  return readCsv(bytes, name);
}

std::string writeCsv(const Table& table) {
  std::string out;
  const auto addRow = [&out](std::size_t cells, const auto& cell) {
    for (std::size_t i = 0; i < cells; ++i) {
      if (i > 0) out += ',';
      out += written(cell(i));
    }
    out += "\r\n";
  };
  addRow(table.columns.size(), [&table](std::size_t i) { return table.columns[i].key; });
  for (const std::vector<CellValue>& row : table.rows) {
    addRow(row.size(), [&row](std::size_t i) { return exactText(row[i]); });
  }
  return out;
}

}  // namespace flitch::exchange
