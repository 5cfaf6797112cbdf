#include "inventory/desk/buying.h"
#include "inventory/desk/fitting.h"
#include "inventory/desk/jobs.h"
#include "inventory/desk/receive.h"
#include "inventory/wood/species.h"
#include "inventory/wood/writing.h"
#include "ui/cli/commands.h"
#include "ui/cli/reading.h"

namespace flitch::cli {

namespace {

void tellShort(const store::Book& book, const Job& job, const std::string& day, Answer& answer) {
  const store::Snapshot snapshot = book.read();
  const std::optional<store::StoredPlan> stored = snapshot.newestPlan(job.id);
  if (!stored) {
    throw Refusal("no-plan", Complaint{"", "There is no plan for " + job.name, job.name,
                                       "a job planned with flitch plan"});
  }
  const std::vector<desk::ToBuy> rows =
      desk::toBuy(stored->plan, desk::request(book, job.id, {}), snapshot, day);
  const Table table = desk::toBuyTable(rows);
  answer.put("to_buy", table);
  if (rows.empty()) {
    answer.say("The plan of " + job.name + " leaves nothing short: nothing must be bought.");
  } else {
    answer.show(table);
  }
}

void tellOffer(const store::Book& book, const Job& job, const JobBuy& command, Answer& answer) {
  DeliveryDraft draft;
  draft.supplier = "offer";
  draft.receivedOn = today();
  exchange::Taken<TallyLine> taken =
      exchange::readTally(exchange::readCsvFile(command.offer), desk::readingRules(book));
  for (const std::string& warning : taken.warnings) answer.warn(warning);
  draft.lines = std::move(taken.rows);
  draft.rule = book.facts().rule;
  optimizer::Limits limits;
  limits.seconds = command.seconds;
  const desk::Offer offer = desk::weighOffer(desk::request(book, job.id, {}), draft, limits);
  const Table table = desk::offerTable(offer, draft, answer.unit());
  answer.put("offer", table);
  answer.say("\nFrom stock alone: " + offer.without.sentence);
  answer.say("With the offer:   " + offer.with.sentence);
  if (offer.bought.empty()) {
    answer.say("No board of the offer is worth buying for " + job.name + ".");
  } else {
    answer.show(table);
  }
  const std::optional<Money> saved = offer.saved();
  answer.put("saved_tenthousandths", saved ? CellValue{saved->raw()} : CellValue{});
  if (offer.bought.empty()) return;
  answer.say(saved ? "They save " + answer.money(*saved) + ", their own price counted."
                   : "Without them other parts are short, so that the costs do not compare.");
}

void tellGrades(const store::Book& book, const Job& job, const JobBuy& command,
                const std::string& day, Answer& answer) {
  optimizer::Limits limits;
  limits.seconds = command.seconds;
  const std::vector<desk::GradeBill> bills = desk::weighGrades(book, job.id, day, limits);
  const Table table = desk::gradeTable(bills);
  answer.put("grades", table);
  if (bills.empty()) {
    answer.say(
        "The book has not seen two boards of one grade, looked at on both faces, in a "
        "species of this job.");
  } else {
    answer.show(table);
  }
}

/// `30 x 4 x 3/4`: finished length, width, thickness.
std::array<Length, 3> sizeOf(const std::string& written, Unit unit) {
  std::array<Length, 3> size;
  std::string rest = plain(written);
  for (std::size_t i = 0; i < 3; ++i) {
    const std::size_t sign = i < 2 ? rest.find('x') : std::string::npos;
    size[i] = sizeArgument("size", rest.substr(0, sign), bareOf(unit));
    if (i == 2) break;
    if (sign == std::string::npos) {
      throw Refusal("bad-size", Complaint{"--size", "`" + written + "` is no size", written,
                                          "length x width x thickness: 30 x 4 x 3/4"});
    }
    rest = rest.substr(sign + 1);
  }
  return size;
}

Part partAsked(const Fit& command, const store::Book& book) {
  const exchange::ReadingRules rules = desk::readingRules(book);
  const std::array<Length, 3> size = sizeOf(command.size, book.facts().unit);
  Part part;
  part.line = 1;
  part.name = "piece";
  part.length = size[0];
  part.width = size[1];
  part.thickness = size[2];
  part.recipe = "solid";
  part.faceA = command.faceA;
  part.faceB = command.faceB;
  part.edges.fill(command.edges);
  for (const std::string& demand : {part.faceA, part.faceB, part.edges[0]}) {
    if (findDemand(book.read().shop(), demand) == nullptr) {
      std::string names;
      for (const std::string& name : rules.demands) names += (names.empty() ? "" : ", ") + name;
      throw Refusal("unknown-demand",
                    Complaint{"", "The shop has no demand " + demand, demand, names});
    }
  }
  for (const Board& board : book.read().rack()) {
    const bool known =
        std::find(part.species.begin(), part.species.end(), board.species) != part.species.end();
    if (!known && (command.species.empty() || board.species == speciesName(command.species))) {
      part.species.push_back(board.species);
    }
  }
  if (part.species.empty()) {
    throw Refusal("no-board", Complaint{"", "There is no such board on the rack", command.species,
                                        "a species of the rack"});
  }
  return part;
}

}  // namespace

Answer run(const JobBuy& command, const Session& session) {
  const store::Book book = session.toRead();
  const Job job = jobNamed(book.read(), command.job);
  const std::string day = dayOf(command.on);
  Answer answer = answerOf(book);
  answer.put("job", job.name);
  if (command.grades) {
    tellGrades(book, job, command, day, answer);
  } else if (!command.offer.empty()) {
    tellOffer(book, job, command, answer);
  } else {
    tellShort(book, job, day, answer);
  }
  return answer;
}

Answer run(const Fit& command, const Session& session) {
  const store::Book book = session.toRead();
  Answer answer = answerOf(book);
  if (!command.tag.empty()) {
    const Board board = desk::boardNamed(book.read(), command.tag);
    const std::vector<desk::Served> served = desk::partsServed(book, board);
    const Table table = desk::servedTable(served);
    answer.put("tag", board.tagText());
    answer.put("parts", table);
    answer.say(board.tagText() + ", " + board.species + " " + text(board.nominal) + ", " +
               sizeText(board, answer.unit()) +
               (board.reservedName.empty() ? "" : ", held for " + board.reservedName));
    if (served.empty()) {
      answer.say("It gives no part that a job still wants.");
    } else {
      answer.show(table);
    }
    return answer;
  }
  const std::vector<desk::Giver> givers = desk::boardsGiving(book, partAsked(command, book));
  const Table table = desk::giverTable(givers, answer.unit());
  answer.put("boards", table);
  if (givers.empty()) {
    answer.say("No free board gives such a piece.");
  } else {
    answer.show(table);
  }
  return answer;
}

}  // namespace flitch::cli
