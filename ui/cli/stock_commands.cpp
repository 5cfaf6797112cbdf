#include <QDate>
#include <QFileInfo>
#include <algorithm>

#include "inventory/desk/board_grade.h"
#include "inventory/desk/jobs.h"
#include "inventory/desk/lost_tag.h"
#include "inventory/desk/proof.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/reports.h"
#include "inventory/records/setting_range.h"
#include "inventory/wood/unreadable.h"
#include "ui/cli/commands.h"
#include "ui/cli/reading.h"
#include "ui/cli/shorts.h"

namespace flitch::cli {

namespace {

/// Columns of a received board: the figures of the yard and ours stand apart.
Table receivedTable(const desk::Received& received, Unit unit) {
  const std::vector<Board>& boards = received.boards;
  const bool landed = !received.draft.extras.empty();
  Table table;
  table.columns = {{"line", "line", true},
                   {"tag", "tag", false},
                   {"species", "species", false},
                   {"nominal", "quarters", false},
                   {"size", "size", false},
                   {"billed_feet", "billed", true},
                   {"measured_feet", "measured", true},
                   {"price", "price", true},
                   {"landed", "landed", true},
                   {"looked", "looked at", false}};
  const auto cost = [landed](Money amount) { return landed ? CellValue(amount) : CellValue(); };
  Money price;
  std::int64_t line = 0;
  for (const Board& board : boards) {
    const std::string looked = board.looked[0] == board.looked[1]
                                   ? std::string(word(board.looked[0]))
                                   : "A " + std::string(word(board.looked[0])) + ", B " +
                                         std::string(word(board.looked[1]));
    table.rows.push_back({++line, board.tagText(), board.species, text(board.nominal),
                          sizeText(board, unit), board.billed, board.measuredFeet, board.price,
                          cost(board.cost), looked});
    price += board.price;
  }
  table.totals = {{},
                  counted(boards.size(), "board", "boards"),
                  {},
                  {},
                  {},
                  received.billed,
                  received.measured,
                  price,
                  cost(received.paid),
                  {}};
  return table;
}

/// Runs `work`; the places of its complaints (line:column) get the file before them.
template <class Work>
auto withFile(const std::string& file, const Work& work) {
  try {
    return work();
  } catch (const Refusal& refusal) {
    std::vector<Complaint> complaints = refusal.complaints();
    for (Complaint& complaint : complaints) {
      complaint.place = complaint.place.empty() ? file : file + ":" + complaint.place;
    }
    throw Refusal(refusal.code(), std::move(complaints));
  }
}

/// What the invoice asks besides its boards, and how it is spread.
Table extrasTable(const std::vector<InvoiceLine>& extras) {
  Table table;
  table.title = "Spread over the boards";
  table.columns = {{"what", "what", false},
                   {"amount", "amount", true},
                   {"spread", "by", false},
                   {"note", "note", false}};
  Money all;
  for (const InvoiceLine& extra : extras) {
    table.rows.push_back({std::string(word(extra.kind)), extra.amount,
                          std::string(extra.spread == Spread::feet ? "feet" : "value"),
                          extra.note});
    all += extra.amount;
  }
  table.totals = {std::string("all"), all, {}, {}};
  return table;
}

std::string unitText(Unit unit) { return unit == Unit::inches ? "inches" : "millimetres"; }

}  // namespace

Answer answerOf(const store::Book& book) {
  const store::BookFacts facts = book.facts();
  return {facts.unit, facts.sign};
}

std::string today() { return QDate::currentDate().toString(Qt::ISODate).toStdString(); }

std::string dayOf(const std::string& asked, const std::string& option) {
  if (asked.empty()) return today();
  if (!QDate::fromString(QString::fromStdString(asked), Qt::ISODate).isValid()) {
    throw Refusal("bad-date", Complaint{option, asked + " is not a day", asked, "2026-05-31"});
  }
  return asked;
}

Answer run(const BookCreate& command, const Session& session) {
  store::BookFacts facts;
  facts.name =
      command.name.empty()
          ? QFileInfo(QString::fromStdString(session.path)).completeBaseName().toStdString()
          : command.name;
  facts.program = programName();
  facts.unit = command.unit;
  facts.sign = command.currency;
  facts.rule = command.rule;
  const store::Book book = store::Book::create(session.path, facts);
  Answer answer = answerOf(book);
  answer.say("Made the book " + session.path + ".");
  answer.put("book", session.path);
  return answer;
}

Answer run(const BookCheck& /*command*/, const Session& session) {
  const store::Book book = session.toRead();
  Answer answer = answerOf(book);
  std::vector<std::string> faults;
  for (const store::Unsound& unsound : desk::prove(book)) faults.push_back(unsound.sentence);
  for (const std::string& fault : faults) answer.warn(fault);
  const std::int64_t entries = book.read().lastEntry().value;
  if (faults.empty()) {
    answer.say("The book is sound: every one of its " + std::to_string(entries) +
               " entries balances and every cut was accounted again.");
  } else {
    answer.exitCode = 1;
  }
  answer.put("sound", faults.empty());
  answer.put("entries", entries);
  answer.put("faults", faults);
  return answer;
}

Answer run(const BookInfo& /*command*/, const Session& session) {
  const store::Book book = session.toRead();
  const store::BookFacts facts = book.facts();
  const store::Snapshot snapshot = book.read();
  Answer answer = answerOf(book);
  const std::vector<std::pair<std::string, CellValue>> fields{
      {"name", facts.name},
      {"unit", unitText(facts.unit)},
      {"currency", facts.sign},
      {"rule", std::string(word(facts.rule))},
      {"boards", static_cast<std::int64_t>(snapshot.rack().size())},
      {"deliveries", static_cast<std::int64_t>(snapshot.deliveries().size())},
      {"jobs", static_cast<std::int64_t>(snapshot.jobs().size())},
      {"entries", snapshot.lastEntry().value},
      {"schema", static_cast<std::int64_t>(facts.schema)},
      {"made", facts.madeAt},
      {"program", facts.program}};
  constexpr std::size_t wide = 12;
  for (const auto& [key, field] : fields) {
    answer.say(key + std::string(wide - key.size(), ' ') + exactText(field));
    answer.put(key, field);
  }
  return answer;
}

Answer run(const Receive& command, const Session& session) {
  store::Book book = session.toWrite();
  const exchange::CsvFile file = exchange::readCsvFile(command.tally);
  exchange::Taken<TallyLine> taken = exchange::readTally(file, desk::readingRules(book));
  DeliveryDraft draft;
  draft.supplier = command.supplier;
  draft.reference = command.reference;
  draft.receivedOn = dayOf(command.on);
  draft.rule = command.rule.value_or(desk::countingRule(book, command.supplier));
  draft.lines = std::move(taken.rows);
  if (!command.invoice.empty()) {
    const exchange::CsvFile paper = exchange::readCsvFile(command.invoice);
    exchange::Taken<Invoice> invoice = exchange::readInvoice(paper, desk::readingRules(book));
    taken.warnings.insert(taken.warnings.end(), invoice.warnings.begin(), invoice.warnings.end());
    draft.extras = std::move(invoice.rows.front().extras);
    draft.claims = std::move(invoice.rows.front().claims);
    // What is wrong with the sums is the invoice's affair, what is wrong with a board the tally's.
    (void)withFile(paper.name, [&] { return figures(desk::withDifference(draft)); });
  }
  const desk::Received received =
      withFile(file.name, [&] { return desk::receive(book, draft, session.hand); });
  Answer answer = answerOf(book);
  for (const std::string& warning : taken.warnings) answer.warn(warning);
  for (const std::string& warning : received.warnings) answer.warn(file.name + ":" + warning);
  answer.say("Received " + counted(received.boards.size(), "board", "boards") + " from " +
             draft.supplier + ": billed " + text(received.billed) + " bf, measured " +
             text(received.measured) + " bf, " + answer.money(received.paid) + ".");
  answer.show(receivedTable(received, answer.unit()));
  if (!received.draft.extras.empty()) answer.show("extras", extrasTable(received.draft.extras));
  if (!draft.claims.empty()) {
    answer.show("against_invoice", againstInvoice(received.draft, received.figures));
  }
  sayShorts(answer, received.boards, book.read());
  answer.put("entry", received.entry.value);
  answer.put("delivery", received.delivery.value);
  answer.put("billed", received.billed);
  answer.put("measured", received.measured);
  answer.put("paid", received.paid);
  answer.put("boards", received.boards);
  return answer;
}

namespace {

/// Quick marks and looked-at states of one board.
Answer markOne(const Mark& command, store::Book& book, const Session& session) {
  const store::Snapshot snapshot = book.read();
  Board board = desk::boardToChange(snapshot, command.board, session.sure, book.facts().unit);
  const std::array<std::string, 2> looked{command.lookedA, command.lookedB};
  for (std::size_t face = 0; face < 2; ++face) {
    for (const Looked state : {Looked::no, Looked::rough, Looked::planed}) {
      if (looked[face] == word(state)) board.looked[face] = state;
    }
  }
  if (!command.marks.empty()) {
    try {
      const auto lines = exchange::readQuickMarks(command.marks, desk::readingRules(book));
      for (Defect& defect : desk::placed(board, lines, book.facts().unit)) {
        board.defects.push_back(std::move(defect));
      }
    } catch (const Unreadable& error) {
      throw Refusal("bad-mark", Complaint{"--at", error.what(), error.value, error.accepted});
    }
  }
  const EntryId entry = desk::survey(book, board, session.hand);
  Answer answer = answerOf(book);
  const Board now = book.read().board(board.id).value();
  answer.say(now.tagText() + ": " + counted(now.defects.size(), "mark", "marks") + ", face A " +
             (now.looked[0] == Looked::no ? "not looked at"
                                          : "looked at " + std::string(word(now.looked[0]))) +
             ", face B " +
             (now.looked[1] == Looked::no ? "not looked at"
                                          : "looked at " + std::string(word(now.looked[1]))) +
             ".");
  answer.put("entry", entry.value);
  answer.put("boards", std::vector<Board>{now});
  return answer;
}

}  // namespace

Answer run(const Mark& command, const Session& session) {
  store::Book book = session.toWrite();
  if (!command.board.empty()) return markOne(command, book, session);
  const exchange::CsvFile file = exchange::readCsvFile(command.file);
  const exchange::Taken<exchange::MarkLine> taken =
      exchange::readMarks(file, desk::readingRules(book));
  const desk::Marked marked = desk::mark(book, taken.rows, file.name, session.hand);
  Answer answer = answerOf(book);
  for (const std::string& warning : taken.warnings) answer.warn(warning);
  answer.say("Added " + counted(static_cast<std::size_t>(marked.marks), "mark", "marks") + " to " +
             counted(marked.boards.size(), "board", "boards") + ".");
  const store::Snapshot snapshot = book.read();
  std::vector<Board> boards;
  for (const BoardId id : marked.boards) boards.push_back(snapshot.board(id).value());
  sayShorts(answer, boards, snapshot);
  answer.put("entry", marked.entry.value);
  answer.put("marks", static_cast<std::int64_t>(marked.marks));
  answer.put("boards", boards);
  return answer;
}

namespace {

/// A board found without its tag: which one is it?
Answer lostBoard(const Rack& command, const store::Book& book) {
  Answer answer = answerOf(book);
  const Unit unit = answer.unit();
  const auto [length, width] = argument("--lost", [&] {
    const auto [first, second] = twoSizes(command.lost);
    const bool metric = unit == Unit::millimetres;
    return std::pair(parseLength(first, metric ? Bare::millimetres : Bare::feet),
                     parseLength(second, metric ? Bare::millimetres : Bare::inches));
  });
  const Table table =
      desk::likelyTable(desk::likelyBoards(book.read(), command.words, unit, length, width), unit);
  if (table.rows.empty()) {
    answer.say("No board of this size is missing or on the rack.");
    answer.put("likely", table);
  } else {
    answer.show("likely", table);
  }
  return answer;
}

}  // namespace

Answer run(const Rack& command, const Session& session) {
  if (!command.lost.empty()) return lostBoard(command, session.toRead());
  if (command.shortOfGrade) return rackShorts(command, session.toRead());
  const store::Book book = session.toRead();
  Answer answer = answerOf(book);
  const std::vector<Board> boards =
      desk::filterRack(book.read().rack(), command.words, answer.unit());
  const Table table = desk::rackTable(boards);
  if (boards.empty()) {
    answer.say(command.words.empty() ? "Nothing on the rack yet."
                                     : "No board on the rack is " + command.words + ".");
  } else {
    answer.show(table);
  }
  if (command.grade && !boards.empty()) {
    Table grades;
    grades.columns = {{"tag", "tag", false}, {"estimate", "estimate", false}};
    for (const Board& board : boards) {
      grades.rows.push_back({board.tagText(), desk::gradeOf(board).line});
    }
    answer.show("grades", grades);
    answer.say("Estimates: a licensed inspector decides.");
  }
  if (!command.csv.empty()) {
    writeFile(command.csv, exchange::writeCsv(table));
    answer.put("csv", command.csv);
  }
  answer.put("boards", boards);
  return answer;
}

Answer run(const Shop& command, const Session& session) {
  if (!command.value.empty()) {
    store::Book book = session.toWrite();
    desk::setShop(book, command.key, command.value, session.hand);
    Answer answer = answerOf(book);
    const Setting* setting = findSetting(command.key);
    const std::string value = setting->get(book.read().shop(), answer.unit());
    answer.say(command.key + " is " + value + " now.");
    answer.put("key", command.key);
    answer.put("value", value);
    return answer;
  }
  const store::Book book = session.toRead();
  Answer answer = answerOf(book);
  const ShopProfile shop = book.read().shop();
  if (!command.key.empty()) {
    const Setting& setting = desk::settingNamed(command.key);
    const std::string value = setting.get(shop, answer.unit());
    answer.say(command.key + " is " + value + ". " + std::string(setting.text) +
               " From and to: " + rangeIn(setting.range, answer.unit()) + ".");
    answer.put("key", command.key);
    answer.put("value", value);
    answer.put("text", std::string(setting.text));
    answer.put("range", rangeIn(setting.range, answer.unit()));
    answer.put("source", std::string(setting.source));
    return answer;
  }
  Table table;
  table.columns = {{"key", "setting", false},
                   {"value", "value", false},
                   {"text", "what it is", false},
                   {"range", "from and to", false},
                   {"source", "source", false}};
  for (const Setting& setting : settings()) {
    table.rows.push_back({std::string(setting.key), setting.get(shop, answer.unit()),
                          std::string(setting.text), rangeIn(setting.range, answer.unit()),
                          std::string(setting.source)});
  }
  answer.put("settings", table);
  // Ranges and sources go to programs and the manual; on a terminal they make the table too wide.
  table.columns.resize(3);
  for (auto& row : table.rows) row.resize(3);
  answer.show(table);
  return answer;
}

}  // namespace flitch::cli
