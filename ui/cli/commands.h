#pragma once
#include "inventory/exchange/columns.h"
#include "inventory/store/book.h"
#include "ui/cli/arguments.h"
#include "ui/cli/output.h"

namespace flitch::cli {

/// Which book, and who works on it.
struct Session {
  std::string path;
  store::Hand hand;
  bool sure = false;  ///< tag numbers without their check character are meant

  [[nodiscard]] store::Book toRead() const { return store::Book::open(path, store::Access::read); }
  [[nodiscard]] store::Book toWrite() const {
    return store::Book::open(path, store::Access::write);
  }
};

/// Each command: reads its files, calls one verb of the desk, says what came of it. Refusals and
/// store errors go on to main().
[[nodiscard]] Answer run(const BookCreate& command, const Session& session);
[[nodiscard]] Answer run(const BookCheck& command, const Session& session);
[[nodiscard]] Answer run(const BookInfo& command, const Session& session);
[[nodiscard]] Answer run(const Receive& command, const Session& session);
[[nodiscard]] Answer run(const Mark& command, const Session& session);
[[nodiscard]] Answer run(const Rack& command, const Session& session);
[[nodiscard]] Answer run(const BoardWork& command, const Session& session);
[[nodiscard]] Answer run(const Return& command, const Session& session);
[[nodiscard]] Answer run(const Count& command, const Session& session);
[[nodiscard]] Answer run(const JobAdd& command, const Session& session);
[[nodiscard]] Answer run(const JobList& command, const Session& session);
[[nodiscard]] Answer run(const JobShow& command, const Session& session);
[[nodiscard]] Answer run(const JobAside& command, const Session& session);
[[nodiscard]] Answer run(const JobChange& command, const Session& session);
[[nodiscard]] Answer run(const JobCopy& command, const Session& session);
[[nodiscard]] Answer run(const Demands& command, const Session& session);
[[nodiscard]] Answer run(const JobBuy& command, const Session& session);
[[nodiscard]] Answer run(const Fit& command, const Session& session);
[[nodiscard]] Answer run(const JobLines& command, const Session& session);
[[nodiscard]] Answer run(const JobEstimate& command, const Session& session);
[[nodiscard]] Answer run(const JobQuote& command, const Session& session);
[[nodiscard]] Answer run(const Price& command, const Session& session);
[[nodiscard]] Answer run(const Plan& command, const Session& session);
[[nodiscard]] Answer run(const Tag& command, const Session& session);
[[nodiscard]] Answer run(const Scan& command, const Session& session);
[[nodiscard]] Answer run(const Saw& command, const Session& session);
[[nodiscard]] Answer run(const Pull& command, const Session& session);
[[nodiscard]] Answer run(const WorkList& command, const Session& session);
[[nodiscard]] Answer run(const Ledger& command, const Session& session);
[[nodiscard]] Answer run(const Paper& command, const Session& session);
[[nodiscard]] Answer run(const Photos& command, const Session& session);
[[nodiscard]] Answer run(const Undo& command, const Session& session);
[[nodiscard]] Answer run(const Bins& command, const Session& session);
[[nodiscard]] Answer run(const WoodAir& command, const Session& session);
[[nodiscard]] Answer run(const WoodMove& command, const Session& session);
[[nodiscard]] Answer run(const WoodWeight& command, const Session& session);
[[nodiscard]] Answer run(const WoodMeasure& command, const Session& session);
[[nodiscard]] Answer run(const WoodReady& command, const Session& session);
[[nodiscard]] Answer run(const WoodGrade& command, const Session& session);
[[nodiscard]] Answer run(const WoodSpecies& command, const Session& session);
[[nodiscard]] Answer run(const WoodSpeciesAdd& command, const Session& session);
[[nodiscard]] Answer run(const Shop& command, const Session& session);

/// An answer in the book's unit and money.
[[nodiscard]] Answer answerOf(const store::Book& book);
/// Throws Refusal naming the jobs there are.
[[nodiscard]] Job jobNamed(const store::Snapshot& snapshot, const std::string& name);
/// Today, 2026-05-31.
[[nodiscard]] std::string today();
/// The day asked for under `option`, or today. Throws Refusal for what is no day.
[[nodiscard]] std::string dayOf(const std::string& asked, const std::string& option = "--on");

/// Hand marks of a cutting's blanks, in order: "A1 A2 C1".
[[nodiscard]] std::string blankMarks(const Cutting& cutting);
/// A row per cutting: tag, what it is, blanks, offcuts, share used, wood cost.
[[nodiscard]] Table cuttingTable(const CutPlan& plan, const std::vector<Board>& boards,
                                 const Job& job, const ShopProfile& shop, Unit unit);
/// What blanks that are not a whole part become: a table of panels, a row per section, of laminated
/// parts, of loose boards, of blanks cut apart later or resawn; those with no row are not shown.
void showLayups(Answer& answer, const CutPlan& plan, const Job& job, const ShopProfile& shop);

}  // namespace flitch::cli
