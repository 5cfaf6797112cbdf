#include <algorithm>
#include <map>

#include "inventory/desk/bench.h"
#include "inventory/desk/family.h"
#include "inventory/desk/sawn_boards.h"
#include "inventory/records/refusal.h"
#include "inventory/wood/writing.h"

namespace flitch::desk {

namespace {

std::string upper(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) {
    return static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
  });
  return text;
}

/// The part and number a hand mark stands for; throws when the job has none such. Of a part that is
/// made of several blanks there are more numbers than copies.
std::pair<const Part*, int> blankNamed(const Job& job, const std::string& mark,
                                       const std::vector<store::DoneCutting>& all) {
  for (const Part& part : job.parts) {
    for (int copy = 1; copy <= part.wanted(); ++copy) {
      if (handMark(part.line, copy) == mark) return {&part, copy};
    }
    for (const store::DoneCutting& done : all)
      for (const Piece& piece : done.cutting.pieces) {
        const bool own = piece.kind == PieceKind::blank && piece.line == part.line;
        if (own && handMark(piece.line, piece.copy) == mark) return {&part, piece.copy};
      }
  }
  std::string marks;
  for (const Part& part : job.parts) {
    marks += (marks.empty() ? "" : ", ") + handMark(part.line, 1);
    if (part.wanted() > 1) marks += " to " + handMark(part.line, part.wanted());
  }
  throw Refusal("unknown-mark",
                Complaint{"", job.name + " has no part " + inBackticks(mark), mark, marks});
}

/// The copy that a piece of a cutting helps to make; 0 when it is a whole part.
int copyOf(const Cutting& cutting, int piece) {
  for (const Layup& layup : cutting.layups) {
    if (layup.piece == piece) return layup.copy;
  }
  return 0;
}

std::string moistureText(const Passport& passport) {
  if (!passport.moisture) return "not measured";
  return decimal(passport.moisture->tenthsPercent, 1, "-") + " %, read on " +
         passport.moisture->takenOn;
}

}  // namespace

Passport passportOf(const store::Snapshot& snapshot, JobId jobId, const std::string& asked) {
  const Job job = snapshot.job(jobId).value();
  Passport passport;
  passport.handMark = upper(asked);
  const std::vector<store::DoneCutting> all = snapshot.doneCuttings(jobId);
  const auto [part, copy] = blankNamed(job, passport.handMark, all);
  const std::vector<store::SpoiledPiece> spoiled = snapshot.spoiled(jobId);
  const auto isSpoiled = [&](const store::DoneCutting& done, int piece) {
    return std::any_of(spoiled.begin(), spoiled.end(), [&](const store::SpoiledPiece& each) {
      return each.cutting == done.id && each.piece == piece;
    });
  };
  // A mark sawn again after the first was spoiled: the last one stands.
  std::optional<store::DoneCutting> from;
  for (const store::DoneCutting& done : all) {
    for (std::size_t n = 0; n < done.cutting.pieces.size(); ++n) {
      const Piece& piece = done.cutting.pieces[n];
      if (piece.kind != PieceKind::blank || piece.line != part->line || piece.copy != copy) {
        continue;
      }
      from = done;
      passport.piece = piece;
      passport.copy = copyOf(done.cutting, static_cast<int>(n));
      passport.spoiled = isSpoiled(done, static_cast<int>(n));
    }
  }
  if (!from) {
    throw Refusal("not-sawn",
                  Complaint{"", passport.handMark + " of " + job.name + " is not sawn yet",
                            passport.handMark, "a part whose board was sawn"});
  }
  std::map<int, std::string> others;  // by place in the part
  for (const store::DoneCutting& done : all)
    for (const Layup& layup : done.cutting.layups) {
      const Piece& piece = done.cutting.pieces.at(static_cast<std::size_t>(layup.piece));
      const bool other = piece.line == part->line && layup.copy == passport.copy &&
                         piece.copy != copy && !isSpoiled(done, layup.piece);
      if (!other) continue;
      others[layup.slot] = handMark(piece.line, piece.copy) + " from " + done.board.tagText();
    }
  for (auto& [slot, words] : others) passport.others.push_back(std::move(words));
  Origins origins(snapshot);
  const Board& first = origins.of(from->board);
  passport.job = job.name;
  passport.customer = job.customer;
  passport.part = part->name;
  passport.length = part->length;
  passport.width = part->width;
  passport.thickness = part->thickness;
  passport.species = from->board.species;
  passport.nominal = text(from->board.nominal);
  passport.grade = first.grade;
  passport.board = from->board.tagText();
  for (BoardId id = from->board.parent; id;) {
    const Board parent = snapshot.board(id).value();
    passport.parents.push_back(parent.tagText());
    id = parent.parent;
  }
  if (!first.log.empty()) {
    passport.log = first.log;
    if (first.placeInLog > 0) passport.log += ", place " + std::to_string(first.placeInLog);
  }
  passport.delivery = origins.delivery(first);
  const store::EntryLine entry = snapshot.entry(from->entry).value();
  passport.sawnOn = dayAt(entry.at);
  passport.hand = entry.hand;
  for (const Reading& reading : from->board.readings) {
    if (reading.takenOn <= passport.sawnOn && reading.tenthsPercent > 0) {
      passport.moisture = reading;
    }
  }
  passport.wood = from->board;
  return passport;
}

Table passportTable(const Passport& passport, Unit unit) {
  const LengthStyle style = unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
  const std::string in = unit == Unit::inches ? " in" : " mm";
  Table table;
  table.title = passport.handMark + " " + passport.part + ", " + passport.job;
  table.columns = {{"what", "what", false}, {"words", "words", false}};
  const auto row = [&](const char* what, const std::string& words) {
    if (!words.empty()) table.rows.push_back({std::string(what), words});
  };
  row("for", passport.customer);
  row("finished", text(passport.length, style) + " × " + text(passport.width, style) + " × " +
                      text(passport.thickness, style) + in);
  row("species", passport.species);
  row("rough thickness", passport.nominal);
  row("grade as bought", passport.grade);
  std::string boards = passport.board;
  for (const std::string& parent : passport.parents) boards += ", an offcut of " + parent;
  row("board", boards);
  std::string others;
  for (const std::string& other : passport.others) others += (others.empty() ? "" : ", ") + other;
  row("glued up with", others);
  row("lay", text(passport.piece.at.x, style) + in + " from the tag end, " +
                 text(passport.piece.at.y, style) + in + " from the near edge, face " +
                 (passport.piece.faceUp == Face::a ? "A" : "B") + " up");
  row("log", passport.log);
  row("delivery", passport.delivery);
  row("moisture", moistureText(passport));
  row("sawn", passport.sawnOn + " by " + passport.hand);
  if (passport.spoiled) row("since then", "spoiled, to be made again");
  return table;
}

}  // namespace flitch::desk
