#include <cmath>

#include "inventory/desk/label_papers.h"
#include "labels/label_stock.h"
#include "ui/cli/commands.h"
#include "ui/cli/reading.h"

namespace flitch::cli {
namespace {

/// "70x37 mm", "4in x 2in": width and height. A unit behind the second holds for both.
std::pair<Length, Length> sizeOf(const std::string& option, const std::string& written, Unit unit) {
  return argument(option, [&] {
    const auto [width, height] = twoSizes(written);
    const bool metric = height.find("mm") != std::string::npos;
    const Bare bare = metric || unit == Unit::millimetres ? Bare::millimetres : Bare::inches;
    return std::pair(parseLength(width, bare), parseLength(height, bare));
  });
}

std::string mm(double value) {
  return text(Length::nanometres(std::llround(value * 1e6)), LengthStyle::millimetres);
}

Table stockTable(const std::vector<pages::LabelStock>& stocks) {
  Table table;
  table.columns = {{"stock", "stock", false},
                   {"label", "label mm", false},
                   {"labels", "a page", true},
                   {"text", "what it is", false},
                   {"care", "light, water, wax", false}};
  for (const pages::LabelStock& stock : stocks) {
    table.rows.push_back({stock.name, mm(stock.label.width()) + " × " + mm(stock.label.height()),
                          static_cast<std::int64_t>(stock.perPage()), stock.text, stock.care});
  }
  return table;
}

std::string hundredths(std::int64_t value) {
  const std::string sign = value < 0 ? "-" : "";
  const std::int64_t size = std::abs(value);
  return sign + std::to_string(size / 100) + (size % 100 < 10 ? ".0" : ".") +
         std::to_string(size % 100);
}

Table printerTable(const std::vector<PrinterAlignment>& printers) {
  Table table;
  table.columns = {{"printer", "printer", false},
                   {"right", "right mm", true},
                   {"down", "down mm", true},
                   {"wide", "wide %", true},
                   {"high", "high %", true}};
  for (const PrinterAlignment& printer : printers) {
    table.rows.push_back({printer.name, hundredths(printer.right / 10'000),
                          hundredths(printer.down / 10'000), hundredths(printer.wide),
                          hundredths(printer.high)});
  }
  return table;
}

LabelPaper ownStock(const Paper& command, Unit unit) {
  LabelPaper paper;
  paper.name = command.stock;
  paper.care = command.care;
  paper.columns = command.columns;
  paper.rows = command.rows;
  std::tie(paper.labelWidth, paper.labelHeight) = sizeOf("--label", command.label, unit);
  std::tie(paper.pageWidth, paper.pageHeight) = std::pair(paper.labelWidth, paper.labelHeight);
  std::tie(paper.across, paper.down) = std::pair(paper.labelWidth, paper.labelHeight);
  if (!command.page.empty())
    std::tie(paper.pageWidth, paper.pageHeight) = sizeOf("--page", command.page, unit);
  if (!command.first.empty())
    std::tie(paper.left, paper.top) = sizeOf("--first", command.first, unit);
  if (!command.step.empty())
    std::tie(paper.across, paper.down) = sizeOf("--step", command.step, unit);
  return paper;
}

}  // namespace

Answer run(const Paper& command, const Session& session) {
  const bool writes = !command.stock.empty() || !command.printer.empty();
  store::Book book = writes ? session.toWrite() : session.toRead();
  Answer answer = answerOf(book);
  if (!command.stock.empty()) {
    const EntryId entry = desk::addLabelPaper(book, ownStock(command, answer.unit()), session.hand);
    answer.say("Label stock " + command.stock + " is kept.");
    answer.put("entry", entry.value);
  }
  if (!command.printer.empty()) {
    const PrinterAlignment printer{command.printer, std::llround(command.right * 1e6),
                                   std::llround(command.down * 1e6),
                                   static_cast<int>(std::lround(command.wide * 100)),
                                   static_cast<int>(std::lround(command.high * 100))};
    const EntryId entry = desk::setPrinter(book, printer, session.hand);
    answer.say("Printer " + command.printer + " is kept.");
    answer.put("entry", entry.value);
  }
  const store::Snapshot snapshot = book.read();
  answer.show("stocks", stockTable(pages::labelStocks(snapshot.labelPapers())));
  const std::vector<PrinterAlignment> printers = snapshot.printers();
  if (!printers.empty()) answer.show("printers", printerTable(printers));
  return answer;
}

}  // namespace flitch::cli
