#include "inventory/store/paper_rows.h"

#include "inventory/store/board_rows.h"

namespace flitch::store {

std::vector<LabelPaper> readLabelPapers(Database& database) {
  std::vector<LabelPaper> all;
  database.each(
      "SELECT name, page_width, page_height, label_width, label_height, per_row, per_column, "
      "from_left, from_top, across, down, care FROM label_papers p WHERE withdrawn = 0 AND id = "
      "(SELECT max(id) FROM label_papers n WHERE n.name = p.name AND n.withdrawn = 0) "
      "ORDER BY name",
      [&](Row& row) {
        LabelPaper& paper = all.emplace_back();
        row >> paper.name >> paper.pageWidth >> paper.pageHeight >> paper.labelWidth >>
            paper.labelHeight >> paper.columns >> paper.rows >> paper.left >> paper.top >>
            paper.across >> paper.down >> paper.care;
      });
  return all;
}

std::vector<PrinterAlignment> readPrinters(Database& database) {
  std::vector<PrinterAlignment> all;
  database.each(
      "SELECT name, to_right, to_foot, wide, high FROM printers p WHERE withdrawn = 0 AND id = "
      "(SELECT max(id) FROM printers n WHERE n.name = p.name AND n.withdrawn = 0) ORDER BY name",
      [&](Row& row) {
        PrinterAlignment& printer = all.emplace_back();
        row >> printer.name >> printer.right >> printer.down >> printer.wide >> printer.high;
      });
  return all;
}

std::int64_t insertLabelPaper(Database& database, const LabelPaper& paper, EntryId entry) {
  const std::int64_t id = nextNumber(database, "label paper");
  database.run(
      "INSERT INTO label_papers (id, name, page_width, page_height, label_width, label_height, "
      "per_row, per_column, from_left, from_top, across, down, care, version) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
      id, paper.name, paper.pageWidth, paper.pageHeight, paper.labelWidth, paper.labelHeight,
      paper.columns, paper.rows, paper.left, paper.top, paper.across, paper.down, paper.care,
      entry);
  return id;
}

std::int64_t insertPrinter(Database& database, const PrinterAlignment& printer, EntryId entry) {
  const std::int64_t id = nextNumber(database, "printer");
  database.run(
      "INSERT INTO printers (id, name, to_right, to_foot, wide, high, version) "
      "VALUES (?, ?, ?, ?, ?, ?, ?)",
      id, printer.name, printer.right, printer.down, printer.wide, printer.high, entry);
  return id;
}

}  // namespace flitch::store
