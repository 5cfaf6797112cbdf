#pragma once
#include <QTemporaryDir>
#include <map>
#include <string>
#include <vector>

#include "inventory/store/book.h"
#include "inventory/store/writer.h"

/// A small shop for the tests of the store: boards, a job, plans and verbs no wiser than they need.
namespace flitch::store::sample {

/// A folder that goes with the test.
class Folder {
 public:
  [[nodiscard]] std::string file(const std::string& name) const {
    return folder_.filePath(QString::fromStdString(name)).toStdString();
  }
  [[nodiscard]] std::string path() const { return folder_.path().toStdString(); }

 private:
  QTemporaryDir folder_;
};

[[nodiscard]] BookFacts facts();
[[nodiscard]] Hand hand();
[[nodiscard]] std::string bytesOf(const std::string& path);

/// A cherry plank, 8 ft x 8 in x 15/16, both faces looked at.
[[nodiscard]] Board plank(Length length = Length::feet(8), Length width = Length::inches(8));
/// Every field of a board set to something else than its default.
[[nodiscard]] Board everyField();

struct Received {
  EntryId entry;
  DeliveryId delivery;
  std::vector<BoardId> boards;
};
/// Takes boards in with a tag each (theirs or the next) and `cost` apiece.
Received receive(Book& book, const std::vector<Board>& boards, Money cost = Money::units(60));

/// A job of one part, 20 x 3 x 3/4 in.
[[nodiscard]] Job jobNamed(const std::string& name);
JobId addJob(Book& book, const std::string& name);
/// One blank of part 1 off the tag end, kerf, and an offcut of the rest; ends trimmed by an inch.
[[nodiscard]] Cutting cuttingOf(const Board& board);
/// Keeps a plan that cuts these boards.
PlanId keep(Book& book, JobId job, const std::vector<BoardId>& boards, bool reserve = true);
struct Sawn {
  EntryId entry;
  std::vector<BoardId> offcuts;
};
/// Saws one board of a plan as planned.
Sawn saw(Book& book, PlanId plan, BoardId board);
EntryId undo(Book& book, EntryId entry);

/// All sentences of check(), a line each.
[[nodiscard]] std::string checked(const Book& book);

}  // namespace flitch::store::sample
