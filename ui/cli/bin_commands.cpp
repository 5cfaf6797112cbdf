#include "inventory/desk/bins.h"
#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"
#include "ui/cli/commands.h"

namespace flitch::cli {

namespace {

/// The one thing asked for, and its figure as written.
struct Asked {
  desk::BinWork work = desk::BinWork::put;
  const char* option = "";
  const std::string* feet = nullptr;  ///< null: nothing is asked
};
Asked askedOf(const Bins& command) {
  if (!command.put.empty()) return {desk::BinWork::put, "--put", &command.put};
  if (!command.used.empty()) return {desk::BinWork::used, "--used", &command.used};
  if (!command.thrown.empty()) return {desk::BinWork::thrown, "--thrown", &command.thrown};
  if (!command.holds.empty()) return {desk::BinWork::holds, "--holds", &command.holds};
  return {};
}

Feet feetOf(const Asked& asked) {
  try {
    return parseFeet(*asked.feet);
  } catch (const Unreadable& error) {
    throw Refusal("bad-feet", Complaint{asked.option, error.what(), error.value, error.accepted});
  }
}

Answer shown(const store::Book& book, const std::string& done) {
  Answer answer = answerOf(book);
  if (!done.empty()) answer.say(done);
  const Table bins = desk::binTable(book.read());
  if (bins.rows.empty()) {
    answer.say("No bin yet: flitch bin \"Cherry shorts\" --species cherry makes one.");
  } else {
    answer.show(bins);
  }
  answer.put("bins", bins);
  return answer;
}

}  // namespace

Answer run(const Bins& command, const Session& session) {
  if (command.name.empty()) return shown(session.toRead(), "");
  store::Book book = session.toWrite();
  if (!command.species.empty()) {
    Bin bin;
    bin.name = std::string(trimmed(command.name));
    bin.species = plain(command.species);
    bin.note = command.note;
    desk::addBin(book, bin, session.hand);
    return shown(book, "Made the bin " + bin.name + " for " + bin.species + ".");
  }
  const Asked asked = askedOf(command);
  const Bin bin = desk::binNamed(book.read(), command.name);
  std::optional<JobId> job;
  if (!command.job.empty()) job = jobNamed(book.read(), command.job).id;
  desk::changeBin(book, bin.id, asked.work, feetOf(asked), job, command.why, session.hand);
  return shown(book, "");
}

}  // namespace flitch::cli
