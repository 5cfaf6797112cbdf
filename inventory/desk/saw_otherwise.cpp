#include "inventory/desk/saw_otherwise.h"

#include <algorithm>
#include <set>

#include "inventory/desk/names.h"
#include "inventory/desk/offcut.h"
#include "inventory/store/writer.h"

namespace flitch::desk {

namespace {

/// A blank of a done cutting, by its hand mark.
struct Found {
  const store::DoneCutting* done = nullptr;
  int piece = 0;
};

Found pieceMarked(const std::vector<store::DoneCutting>& done,
                  const std::vector<store::SpoiledPiece>& spoiled, const std::string& mark,
                  const Job& job) {
  bool gone = false;
  for (auto cutting = done.rbegin(); cutting != done.rend(); ++cutting)
    for (std::size_t p = 0; p < cutting->cutting.pieces.size(); ++p) {
      const Piece& piece = cutting->cutting.pieces[p];
      if (piece.kind != PieceKind::blank || handMark(piece.line, piece.copy) != mark) continue;
      const bool spoiltBefore =
          std::any_of(spoiled.begin(), spoiled.end(), [&](const store::SpoiledPiece& other) {
            return other.cutting == cutting->id && other.piece == static_cast<int>(p);
          });
      if (!spoiltBefore) return {&*cutting, static_cast<int>(p)};
      gone = true;
    }
  if (gone) {
    throw Refusal(
        "spoiled-already",
        Complaint{"", mark + " of " + job.name + " was spoiled already and is not sawn again", mark,
                  "the hand mark of a blank that is sawn"});
  }
  throw Refusal("not-sawn", Complaint{"", "No blank " + mark + " is sawn for " + job.name, mark,
                                      "the hand mark of a blank that is sawn, like C2"});
}

/// The cut tree of a board of which only `kept` of its length is left, at the tag end.
Cutting shortened(const Board& board, Length kept) {
  const Rect whole = boundsOf(board);
  const Length at = whole.x + kept;
  Cutting cutting;
  cutting.board = board.id;
  const auto add = [&](int depth, PieceKind kind, Length from, Length to) {
    Piece piece;
    piece.depth = depth;
    piece.kind = kind;
    piece.at = {from, whole.y, to - from, whole.dy};
    cutting.pieces.push_back(piece);
  };
  add(0, PieceKind::cut, whole.x, whole.right());
  add(1, PieceKind::cut, whole.x, whole.right());
  if (kept > Length()) add(2, PieceKind::offcut, whole.x, at);
  add(2, PieceKind::unusable, at, whole.right());
  return cutting;
}

/// The finest step the keeping rule is counted on.
constexpr Length tick = Length::sixtyFourths(1);

}  // namespace

Spoiled spoil(Book& book, JobId jobId, const std::vector<std::string>& marks,
              const std::string& why, const Hand& hand) {
  if (marks.empty()) {
    throw Refusal("no-mark", Complaint{"", "Nothing was said to be spoiled", "",
                                       "hand marks of blanks that are sawn, like C2"});
  }
  std::set<std::string> once;
  std::string note;
  for (const std::string& mark : marks) {
    if (!once.insert(mark).second) {
      throw Refusal("twice", Complaint{"", mark + " is given twice", mark, "each piece once"});
    }
    note += (note.empty() ? "" : " ") + mark;
  }
  if (!why.empty()) note += ": " + why;
  Spoiled out;
  out.entry = book.change({"spoiled", jobId, note, {}}, hand, [&](store::Writer& writer) {
    const Job job = jobIn(writer.now(), jobId);
    const std::vector<store::DoneCutting> done = writer.now().doneCuttings(jobId);
    const std::vector<store::SpoiledPiece> before = writer.now().spoiled(jobId);
    for (const std::string& mark : marks) {
      const Found found = pieceMarked(done, before, mark, job);
      const ShopProfile shop = writer.now().profile(found.done->profile).value();
      const Breakdown breakdown =
          account(found.done->cutting, found.done->board, job, shop, found.done->tick);
      const auto share = std::find_if(
          breakdown.shares.begin(), breakdown.shares.end(),
          [&](const Share& s) { return s.piece == found.piece && s.cause == Cause::parts; });
      writer.spoil(found.done->id, *share, why);
    }
  });
  for (store::SpoiledPiece& piece : book.read().spoiled(jobId)) {
    if (piece.entry != out.entry) continue;
    out.cost += piece.cost;
    out.pieces.push_back(std::move(piece));
  }
  return out;
}

UsedByHand useByHand(Book& book, BoardId id, std::optional<JobId> job, std::optional<Length> left,
                     const std::string& why, const Hand& hand) {
  UsedByHand out;
  BoardId remainder;
  const store::Snapshot before = book.read();
  const std::optional<Board> named = before.board(id);
  if (!named) throw std::logic_error("a board that is not in the book");
  const std::string name = tagOf(*named);
  const std::string note = name + (why.empty() ? "" : ": " + why);
  out.entry = book.change(
      {"used by hand", job.value_or(JobId{}), note, {}}, hand, [&](store::Writer& writer) {
        const Board board = writer.now().board(id).value();
        needOnRack(writer.now(), board);
        if (board.reservedFor && board.reservedFor != job.value_or(JobId{})) {
          throw Refusal("reserved", Complaint{"", name + " is held for " + board.reservedName, name,
                                              "a board that is free, or that job with --job"});
        }
        const Length kept = left.value_or(Length());
        if (kept >= boundsOf(board).dx) {
          throw Refusal(
              "not-shorter",
              Complaint{"",
                        name + " is only " + lengthText(boundsOf(board).dx, Unit::inches) + " long",
                        lengthText(kept, Unit::inches), "less than its length"});
        }
        const Job asked = job ? jobIn(writer.now(), *job) : Job{};
        const Breakdown breakdown =
            account(shortened(board, kept), board, asked, writer.now().shop(), tick);
        CubicMillimetres used;
        for (const Share& share : breakdown.shares) {
          if (share.cause != Cause::offcuts) {
            used += share.volume;
            out.cost += share.cost;
            continue;
          }
          Board offcut = offcutOf(board, shortened(board, kept).pieces[2].at);
          offcut.wood = share.volume;
          offcut.measuredFeet = breakdown.feet[static_cast<std::size_t>(Cause::offcuts)];
          remainder = addRemainder(writer, board, offcut);
          writer.post({AccountKind::board,
                       id,
                       AccountKind::board,
                       remainder,
                       share.volume,
                       share.cost,
                       -1,
                       {}});
        }
        writer.post({AccountKind::board, id, AccountKind::byHand, {}, used, out.cost, -1, {}});
        if (board.reservedFor) writer.release(id);
        out.board = board;
      });
  if (remainder) out.left = book.read().board(remainder);
  return out;
}

}  // namespace flitch::desk
