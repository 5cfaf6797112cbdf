#include "ui/cli/shorts.h"

#include "inventory/desk/reports.h"
#include "inventory/desk/short_of_grade.h"

namespace flitch::cli {

Answer rackShorts(const Rack& command, const store::Book& book) {
  Answer answer = answerOf(book);
  const std::vector<Board> rack = book.read().rack();
  const std::vector<Board> boards = desk::filterRack(rack, command.words, answer.unit());
  const desk::ShortOfGrade shorts = desk::shortOfGrade(boards, rack);
  const Table table = desk::shortTable(shorts, answer.unit());
  if (shorts.boards.empty()) {
    answer.say("No board whose faces were looked at looks like less than was paid for it.");
    if (shorts.undecided > 0) answer.say(table.note);
    answer.put("short_of_grade", table);
  } else {
    answer.show("short_of_grade", table);
  }
  answer.put("at_stake", shorts.atStake());
  answer.put("undecided", CellValue{static_cast<std::int64_t>(shorts.undecided)});
  if (!command.csv.empty()) {
    writeFile(command.csv, exchange::writeCsv(table));
    answer.put("csv", command.csv);
  }
  return answer;
}

void sayShorts(Answer& answer, const std::vector<Board>& boards, const store::Snapshot& snapshot) {
  const desk::ShortOfGrade shorts = desk::shortOfGrade(boards, snapshot.rack());
  answer.put("at_stake", shorts.atStake());
  const Table table = desk::shortTable(shorts, answer.unit());
  if (shorts.boards.empty()) {
    answer.put("short_of_grade", table);
    return;
  }
  answer.say("");
  answer.show("short_of_grade", table);
}

}  // namespace flitch::cli
