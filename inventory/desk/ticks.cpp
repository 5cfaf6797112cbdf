#include "inventory/desk/ticks.h"

#include <set>
#include <sstream>

namespace flitch::desk {

namespace {

std::string draftOf(JobId job) { return "pull list " + std::to_string(job.value); }

/// Of every station.
constexpr const char* nowhere = "";

}  // namespace

void recallTicks(const store::Book& book, PullList& list) {
  std::istringstream body(book.draft(draftOf(list.jobId), nowhere));
  std::set<BoardId> fetched;
  for (std::int64_t board = 0; body >> board;) fetched.insert(BoardId{board});
  for (PullLine& line : list.lines) line.here = line.here || fetched.contains(line.board.id);
}

void keepTicks(store::Book& book, const PullList& list) {
  std::string body;
  for (const PullLine& line : list.lines) {
    if (line.here) body += std::to_string(line.board.id.value) + " ";
  }
  book.saveDraft(draftOf(list.jobId), nowhere, body);
}

void forgetTicks(store::Book& book, JobId job) { book.saveDraft(draftOf(job), nowhere, ""); }

}  // namespace flitch::desk
