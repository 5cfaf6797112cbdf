#include "inventory/desk/receive.h"

#include <algorithm>
#include <map>
#include <set>

#include "inventory/desk/names.h"
#include "inventory/records/tally_cautions.h"
#include "inventory/records/zones.h"
#include "inventory/store/writer.h"
#include "inventory/wood/species.h"
#include "inventory/wood/thickness.h"

namespace flitch::desk {

namespace {

std::string plural(std::size_t n, const std::string& one, const std::string& many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

/// Tags given by hand, each looked at before anything is written.
std::set<TagCode> givenTags(const DeliveryDraft& draft, const store::Snapshot& snapshot) {
  std::set<TagCode> given;
  std::vector<Complaint> complaints;
  const auto complain = [&](const TallyLine& line, const std::string& sentence) {
    complaints.push_back({std::to_string(line.line) + ":tag", text(*line.tag) + sentence,
                          text(*line.tag), "a tag that hangs on no board, or none"});
  };
  for (const TallyLine& line : draft.lines) {
    if (!line.tag) continue;
    if (line.count != 1) {
      complain(line, " cannot stand for " + std::to_string(line.count) + " boards");
    } else if (line.tag->kind != TagKind::board) {
      complain(line, " is not a board's tag");
    } else if (!issuable(line.tag->kind, line.tag->serial)) {
      complain(line, " is a number that is never issued");
    } else if (snapshot.replacedBy(*line.tag)) {
      complain(line, " was replaced and hangs on no board again");
    } else if (snapshot.boardByTag(*line.tag)) {
      complain(line, " is on a board already");
    } else if (!given.insert(*line.tag).second) {
      complain(line, " stands twice in the tally");
    }
  }
  if (!complaints.empty()) throw Refusal("bad-tag", std::move(complaints));
  return given;
}

Board boardOf(const TallyLine& line, const TallyFigures& figures, const DeliveryDraft& draft,
              DeliveryId delivery) {
  Board board;
  board.kind = line.kind;
  board.species = speciesName(line.species);
  board.grade = line.grade;
  board.nominal = line.nominal;
  board.measured = line.thickness.has_value();
  board.thickness = line.thickness.value_or(kilnDriedThickness(line.nominal));
  board.outline = line.outline;
  board.looked = line.looked;
  board.warp = line.warp;
  board.grain = line.grain;
  board.log = line.log;
  board.placeInLog = line.placeInLog;
  if (line.moistureTenths || line.moistureState != MoistureState::ready) {
    board.readings.push_back(
        {draft.receivedOn, line.moistureTenths.value_or(0), line.moistureState});
  }
  board.delivery = delivery;
  board.supplier = draft.supplier;
  board.billed = figures.billed;
  board.measuredFeet = figures.measured;
  board.price = figures.price;
  if (line.price > Money{}) {
    board.priceBasis = line.basis;
    board.unitPrice = line.price;
  }
  board.bay = line.bay;
  board.keptBack = line.keptBack;
  board.note = line.note;
  board.wood = volumeOf(board);
  return board;
}

/// Across the board, a mark on one edge of which nobody says how deep it goes: to half an inch
/// (13 mm) in from that edge wherever it runs between `from` and `to`.
Outline::Span edgeBand(const Board& board, Edge edge, Length from, Length to, Unit unit) {
  const Length depth = unit == Unit::inches ? Length::sixtyFourths(32) : Length::millimetres(13);
  const Rect bounds = boundsOf(board);
  const Outline::Span a = lying(board, Face::a).clearSpan(from, to);
  const Outline::Span b = lying(board, Face::b).clearSpan(from, to);
  if (edge == Edge::near) return {bounds.y, std::max(a.near, b.near) + depth};
  return {std::min(a.far, b.far) - depth, bounds.top()};
}

/// Where a mark lies on this board, or what is wrong with it.
Defect placeMark(const exchange::MarkLine& line, const Board& board, Unit unit,
                 std::vector<Complaint>& complaints, const std::string& place) {
  const LengthStyle along = unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
  const std::string sign = unit == Unit::inches ? " in" : " mm";
  // Crook lifts the wood off the line that marks are measured from.
  const Rect wood = boundsOf(board);
  const std::string name = board.tag ? text(*board.tag) : "the board";
  const std::string size = name + " is " + text(board.length(), along) + sign + " long and " +
                           text(greatestWidth(board), along) + sign + " wide";
  const Length from = line.xFrom;
  const Length to = line.xTo.value_or(board.length());
  const auto complain = [&](const std::string& column, std::string sentence, Length value,
                            const std::string& accepted) {
    // Without a place the sentence stands first and begins with a capital.
    if (place.empty()) sentence.front() = 'T';
    complaints.push_back({place.empty() ? "" : place + ":" + column, std::move(sentence),
                          text(value, along), accepted});
  };
  if (from >= wood.dx) {
    complain("x_from", "the " + line.kind + " would lie past the far end: " + size, from,
             (unit == Unit::inches ? "inches" : "millimetres") +
                 std::string(" from the tag end, up to ") + text(wood.dx, along));
  } else if (to > wood.dx) {
    complain("x_to",
             "the " + line.kind + " would reach " + text(to - wood.dx, along) + sign +
                 " past the far end: " + size,
             to, "up to " + text(wood.dx, along) + ", or the word end");
  } else if (to <= from) {
    complain("x_to", "the " + line.kind + " ends before it begins", to,
             "more than " + text(from, along));
  }
  Length low = line.yFrom.value_or(wood.y);
  Length high = line.yTo.value_or(wood.top());
  const bool onEdge = line.face == DefectFace::near || line.face == DefectFace::far;
  if (onEdge && !line.yFrom && !line.yTo && from < to && from < wood.dx) {
    const Edge edge = line.face == DefectFace::near ? Edge::near : Edge::far;
    const Outline::Span band = edgeBand(board, edge, from, to, unit);
    low = band.near;
    high = band.far;
  }
  if (low >= wood.top()) {
    complain("y_from", "the " + line.kind + " would lie past the far edge: " + size, low,
             "from the line along the near edge, up to " + text(wood.top(), along));
  } else if (high <= low) {
    complain("y_to", "the " + line.kind + " ends before it begins", high,
             "more than " + text(low, along));
  } else if (line.yTo && high > wood.top()) {
    complain("y_to",
             "the " + line.kind + " would reach " + text(high - wood.top(), along) + sign +
                 " past the far edge: " + size,
             high, "up to " + text(wood.top(), along) + ", or the word end");
  } else if (high <= wood.y) {
    complain("y_to", "the " + line.kind + " would lie before the near edge: " + size, high,
             "more than " + text(wood.y, along));
  }
  Defect mark{line.kind, line.face, {from, low, to - from, high - low}, line.depth};
  if (mark.depth && *mark.depth >= board.thickness) {
    complain("depth", "the " + line.kind + " would be deeper than the board is thick", *mark.depth,
             "less than " + text(board.thickness, along) + ", or a mark that goes through");
  }
  if (line.onB) {
    // What is not said of face B is as on face A.
    const exchange::PlaceOnB& b = *line.onB;
    const Length bFrom = b.xFrom.value_or(from);
    const Length bLow = b.yFrom.value_or(low);
    mark.onB = {bFrom, bLow, b.xTo.value_or(bFrom + mark.where.dx) - bFrom,
                b.yTo.value_or(bLow + mark.where.dy) - bLow};
    if (mark.onB->dx <= Length() || mark.onB->dy <= Length()) {
      complain(mark.onB->dx <= Length() ? "b_x_to" : "b_y_to",
               "the " + line.kind + " ends before it begins on face B",
               mark.onB->dx <= Length() ? mark.onB->right() : mark.onB->top(), "a place farther");
    } else if (!overlaps(*mark.onB, wood)) {
      complain("b_x_from", "the " + line.kind + " would come out off the board: " + size, bFrom,
               "a place on the board");
    }
  }
  return mark;
}

/// What a file of marks adds, board by board; complaints are collected.
class MarkedBoards {
 public:
  MarkedBoards(const store::Snapshot& snapshot, Unit unit, std::string fileName)
      : snapshot_(snapshot), unit_(unit), fileName_(std::move(fileName)) {
    const auto deliveries = snapshot.deliveries();
    if (!deliveries.empty()) newest_ = snapshot.boardsOf(deliveries.back());
  }

  void add(const exchange::MarkLine& line) {
    const std::string place = fileName_.empty() ? "" : fileName_ + ":" + std::to_string(line.line);
    Board* board = nullptr;
    try {
      board = find(line);
    } catch (const Refusal& refusal) {
      for (Complaint complaint : refusal.complaints()) {
        complaint.place = place + (line.tag.empty() ? ":line" : ":tag");
        complaints_.push_back(std::move(complaint));
      }
      return;
    }
    board->defects.push_back(placeMark(line, *board, unit_, complaints_, place));
  }

  /// Throws the one Refusal with all complaints.
  const std::map<BoardId, Board>& boards() const {
    if (!complaints_.empty()) throw Refusal("bad-mark", complaints_);
    return boards_;
  }

 private:
  Board* find(const exchange::MarkLine& line) {
    Board found;
    if (!line.tag.empty()) {
      found = boardNamed(snapshot_, line.tag);
    } else {
      if (line.tallyLine < 1 || line.tallyLine > static_cast<int>(newest_.size())) {
        throw Refusal(
            "unknown-line",
            Complaint{
                "", "the newest delivery has no board " + std::to_string(line.tallyLine),
                std::to_string(line.tallyLine),
                newest_.empty() ? "a tag" : "a tag, or 1 to " + std::to_string(newest_.size())});
      }
      found = *snapshot_.board(newest_[static_cast<std::size_t>(line.tallyLine - 1)]);
    }
    needOnRack(snapshot_, found);
    return &boards_.try_emplace(found.id, std::move(found)).first->second;
  }

  const store::Snapshot& snapshot_;
  Unit unit_;
  std::string fileName_;
  std::vector<BoardId> newest_;
  std::map<BoardId, Board> boards_;
  std::vector<Complaint> complaints_;
};

}  // namespace

exchange::ReadingRules readingRules(const Book& book) {
  const store::BookFacts facts = book.facts();
  const store::Snapshot snapshot = book.read();
  exchange::ReadingRules rules;
  rules.unit = facts.unit;
  rules.sign = facts.sign;
  rules.species = snapshot.species();
  for (const Species& species : knownSpecies()) {
    const auto& names = rules.species;
    if (std::find(names.begin(), names.end(), species.name) == names.end()) {
      rules.species.emplace_back(species.name);
    }
  }
  for (const DefectKind& kind : snapshot.defectKinds()) rules.defectKinds.push_back(kind.name);
  for (const std::string_view kind : grainZones) {
    auto& kinds = rules.defectKinds;
    if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) kinds.emplace_back(kind);
  }
  for (const Demand& demand : snapshot.shop().demands) rules.demands.push_back(demand.name);
  return rules;
}

CountingRule countingRule(const Book& book, const std::string& supplier) {
  return book.read().ruleOf(supplier).value_or(book.facts().rule);
}

DeliveryDraft withDifference(const DeliveryDraft& draft) {
  DeliveryDraft whole = draft;
  for (const InvoiceClaim& claim : draft.claims) {
    if (!claim.species.empty() || !claim.amount) continue;
    const Money difference = *claim.amount - invoiceTotal(figures(draft));
    if (difference == Money()) continue;
    whole.extras.push_back({claim.line, InvoiceKind::difference, difference,
                            usualSpread(InvoiceKind::difference), ""});
  }
  return whole;
}

std::vector<Board> boardsOffered(const DeliveryDraft& draft, std::int64_t first) {
  std::vector<Board> boards;
  for (const TallyFigures& each : figures(draft)) {
    Board board = boardOf(draft.lines[each.line], each, draft, {});
    board.id = BoardId{first + static_cast<std::int64_t>(boards.size())};
    board.cost = each.landed;
    boards.push_back(std::move(board));
  }
  return boards;
}

Received receive(Book& book, const DeliveryDraft& draft, const Hand& hand) {
  if (draft.lines.empty()) {
    throw Refusal("empty-tally",
                  Complaint{"", "The tally has no boards", "", "at least one row under the head"});
  }
  if (draft.supplier.find_first_not_of(" \t") == std::string::npos) {
    throw Refusal("no-supplier", Complaint{"", "A delivery needs a supplier", "", "who delivered"});
  }
  Received received{};
  received.draft = withDifference(draft);
  received.figures = figures(received.draft);
  for (const TallyLine& line : draft.lines) {
    for (const std::string& caution : cautions(line, book.facts().unit)) {
      received.warnings.push_back(std::to_string(line.line) + ": " + caution +
                                  ". It was taken as written.");
    }
  }
  const std::string note = plural(received.figures.size(), "board", "boards") + " from " +
                           draft.supplier + (draft.reference.empty() ? "" : ", " + draft.reference);
  std::vector<BoardId> ids;
  received.entry = book.change({"received", {}, note, {}}, hand, [&](store::Writer& writer) {
    const std::set<TagCode> given = givenTags(draft, writer.now());
    received.delivery = writer.addDelivery(received.draft);
    std::size_t lastTold = draft.lines.size();
    for (const TallyFigures& figure : received.figures) {
      const TallyLine& line = draft.lines[figure.line];
      Board board = boardOf(line, figure, draft, received.delivery);
      if (figure.billedWith) board.billedWith = ids.at(*figure.billedWith);
      board.tag = line.tag;
      while (!board.tag || (!line.tag && given.count(*board.tag) > 0)) {
        board.tag = writer.nextTag();
      }
      const BoardId id = writer.addBoard(board, figure.half);
      Move move;
      move.source = line.kind == BoardKind::offcut ? AccountKind::opening : AccountKind::bought;
      move.target = AccountKind::board;
      move.targetBoard = id;
      move.volume = board.wood;
      move.cost = figure.landed;
      writer.post(move);
      ids.push_back(id);
      received.billed += figure.billed;
      received.measured += figure.measured;
      received.paid += figure.landed;
      if (line.price > Money{} && figure.price == Money{} && figure.line != lastTold) {
        lastTold = figure.line;
        received.warnings.push_back(
            std::to_string(line.line) + ": " + text(*board.tag) + " has a price but counts " +
            text(figure.billed) +
            " board feet, so it cost nothing. Price it each, or say its billed feet.");
      }
    }
  });
  const store::Snapshot now = book.read();
  for (const BoardId id : ids) received.boards.push_back(now.board(id).value());
  return received;
}

Marked mark(Book& book, const std::vector<exchange::MarkLine>& lines, const std::string& fileName,
            const Hand& hand) {
  if (lines.empty()) {
    throw Refusal("no-marks", Complaint{fileName, "there are no marks in it", "",
                                        "at least one row under the head"});
  }
  Marked marked{};
  // Looked at first without the book held, so that a bad file costs nothing and says all.
  const auto boardsMarked = [&](const store::Snapshot& snapshot) {
    MarkedBoards boards(snapshot, book.facts().unit, fileName);
    for (const auto& line : lines) boards.add(line);
    return boards.boards();
  };
  const std::size_t count = boardsMarked(book.read()).size();
  const std::string note =
      plural(lines.size(), "mark", "marks") + " on " + plural(count, "board", "boards");
  marked.entry = book.change({"marked", {}, note, {}}, hand, [&](store::Writer& writer) {
    for (const auto& [id, board] : boardsMarked(writer.now())) {
      writer.updateBoard(board);
      marked.boards.push_back(id);
    }
  });
  marked.marks = static_cast<int>(lines.size());
  return marked;
}

std::vector<Defect> placed(const Board& board, const std::vector<exchange::MarkLine>& lines,
                           Unit unit) {
  std::vector<Defect> defects;
  std::vector<Complaint> complaints;
  for (const auto& line : lines) defects.push_back(placeMark(line, board, unit, complaints, ""));
  if (!complaints.empty()) throw Refusal("bad-mark", std::move(complaints));
  return defects;
}

EntryId survey(Book& book, const Board& board, const Hand& hand) {
  const Rect bounds = boundsOf(board);
  for (const Defect& defect : board.defects) {
    const auto off = [&](const Rect& where) {
      return where.dx <= Length{} || where.dy <= Length{} || !overlaps(where, bounds);
    };
    if (off(defect.where) || (defect.onB && off(*defect.onB))) {
      throw Refusal("bad-mark", Complaint{"", "The " + defect.kind + " would lie off the board", "",
                                          "a place on the board"});
    }
    if (defect.depth && *defect.depth >= board.thickness) {
      throw Refusal(
          "bad-mark",
          Complaint{"", "The " + defect.kind + " would be deeper than the board is thick",
                    exactText(*defect.depth),
                    "less than " + exactText(board.thickness) + ", or a mark that goes through"});
    }
  }
  return book.change({"marked", {}, board.tag ? text(*board.tag) : "", {}}, hand,
                     [&](store::Writer& writer) { writer.updateBoard(board); });
}

std::vector<TagCode> reserveTags(Book& book, int count, const Hand& hand) {
  constexpr int most = 1000;
  if (count < 1 || count > most) {
    throw Refusal("bad-count", Complaint{"", std::to_string(count) + " tags are not issued at once",
                                         std::to_string(count), "1 to 1000"});
  }
  std::vector<TagCode> tags;
  book.change({"tags reserved", {}, plural(static_cast<std::size_t>(count), "tag", "tags"), {}},
              hand, [&](store::Writer& writer) { tags = writer.reserveTags(count); });
  return tags;
}

std::vector<TagCode> blankTags(const store::Snapshot& snapshot, std::size_t count) {
  std::vector<TagCode> tags;
  std::int64_t last = 0;
  while (tags.size() < count) {
    const std::optional<TagCode> next = snapshot.blankTagAfter(last);
    if (!next) break;
    tags.push_back(*next);
    last = next->serial;
  }
  return tags;
}

}  // namespace flitch::desk
