#include <cmath>

#include "inventory/desk/board_grade.h"
#include "inventory/desk/receive.h"
#include "inventory/records/board_readiness.h"
#include "inventory/wood/air.h"
#include "ui/cli/commands.h"
#include "ui/cli/reading.h"

namespace flitch::cli {
namespace {

Air airOf(const char* name, const std::string& written, const SeasonAir& usual, Unit unit) {
  if (written.empty()) return usual.air();
  return argument(name, [&] { return parseAir(written, unit); });
}

Table cuttingTable(const Board& board, const GradeEstimate& estimate) {
  Table table;
  table.columns = {{"x", "from tag end", true},
                   {"y", "from near edge", true},
                   {"length", "length", true},
                   {"width", "width", true},
                   {"units", "units", true}};
  const std::vector<Rect> places = desk::cuttingsOf(board, estimate);
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Rect& at = places[i];
    table.rows.push_back(
        {at.x, at.y, at.dx, at.dy, unitsText(estimate.trial.set.cuttings[i].area())});
  }
  return table;
}

Table missesOf(const GradeEstimate& estimate) {
  Table table;
  table.columns = {{"grade", "grade", false},      {"face", "face", false},
                   {"units", "units found", true}, {"needed", "needed", true},
                   {"allowed", "cuttings", true},  {"because", "why not", false}};
  for (const GradeTrial& trial : estimate.missed) {
    const std::string because = !trial.barredBy.empty() ? trial.barredBy
                                : trial.open            ? "not decided: the search ran out"
                                : trial.needed == 0 ? "too small, or not clear from edge to edge"
                                                    : "too few units";
    table.rows.push_back({std::string(word(trial.grade)), trial.face == 0 ? "A" : "B",
                          unitsText(trial.set.area), unitsText(trial.needed),
                          static_cast<std::int64_t>(trial.allowed), because});
  }
  return table;
}

}  // namespace

Answer run(const WoodReady& command, const Session& session) {
  const store::Book book = session.toRead();
  const store::Snapshot snapshot = book.read();
  Answer answer = answerOf(book);
  const Unit unit = answer.unit();
  const ShopProfile shop = snapshot.shop();
  const Board board = desk::boardNamed(snapshot, command.board);
  const Air winter = airOf("winter", command.winter, shop.winter, unit);
  const Air summer = airOf("summer", command.summer, shop.summer, unit);
  const Climate climate = climateOf(winter, summer);
  const BoardReadiness readiness = readinessOf(board, climate);
  answer.say(board.tagText() + ", " + board.species + ", " + sizeText(board, unit) + ": " +
             readiness.line + ".");
  answer.say("The rooms: " + airText(winter, unit) + " at their driest, " + airText(summer, unit) +
             " at their wettest; a meter may be 1 point off.");
  if (!readiness.caution.empty()) answer.warn(readiness.caution);
  answer.put("ready", readiness.ready());
  answer.put("measured", readiness.reading.has_value());
  answer.put("moisture", readiness.reading ? CellValue{Permille{readiness.reading->tenthsPercent}}
                                           : CellValue{});
  answer.put("driest", Permille{std::llround(climate.driest * 10)});
  answer.put("wettest", Permille{std::llround(climate.wettest * 10)});
  answer.put("line", readiness.line);
  answer.put("boards", std::vector<Board>{board});
  return answer;
}

Answer run(const WoodGrade& command, const Session& session) {
  const store::Book book = session.toRead();
  const Board board = desk::boardNamed(book.read(), command.board);
  Answer answer = answerOf(book);
  const desk::BoardGrade grade = desk::gradeOf(board);
  answer.say(board.tagText() + ", " + board.species + ", " + sizeText(board, answer.unit()) + ": " +
             grade.line + ".");
  answer.put("line", grade.line);
  answer.put("paid_as", board.grade);
  answer.put("estimated", grade.estimate.has_value());
  if (grade.estimate) {
    const GradeEstimate& estimate = *grade.estimate;
    answer.put("estimate", std::string(word(estimate.grade)));
    answer.put("exact", estimate.exact);
    answer.put("surface_measure", CellValue{static_cast<std::int64_t>(estimate.surfaceMeasure)});
    answer.put("units_needed", unitsText(estimate.trial.needed));
    answer.put("units_found", unitsText(estimate.trial.set.area));
    Table cuttings = cuttingTable(board, estimate);
    cuttings.title = "Clear cuttings on face " + std::string(estimate.trial.face == 0 ? "A" : "B") +
                     ": " + unitsText(estimate.trial.set.area) + " units of " +
                     unitsText(estimate.trial.needed) + " needed, surface measure " +
                     std::to_string(estimate.surfaceMeasure);
    if (cuttings.rows.empty()) cuttings.title = "No clear cuttings";
    answer.show("cuttings", cuttings);
    Table misses = missesOf(estimate);
    misses.title = "Better grades, and what stands against them";
    if (misses.rows.empty()) {
      answer.put("misses", misses);
    } else {
      answer.show("misses", misses);
    }
    answer.say("An estimate: a licensed inspector decides.");
  }
  answer.put("boards", std::vector<Board>{board});
  return answer;
}

}  // namespace flitch::cli
