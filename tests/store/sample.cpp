#include "tests/store/sample.h"

#include <QFile>
#include <catch2/catch.hpp>

#include "inventory/records/account.h"

namespace flitch::store::sample {

BookFacts facts() {
  BookFacts facts;
  facts.name = "Wendlehaven";
  facts.program = "flitchbook test";
  facts.madeAt = "2026-03-01T08:00:00.000Z";
  return facts;
}

Hand hand() { return {"Ada", "bench"}; }

std::string bytesOf(const std::string& path) {
  QFile file(QString::fromStdString(path));
  REQUIRE(file.open(QIODevice::ReadOnly));
  return file.readAll().toStdString();
}

Board plank(Length length, Length width) {
  Board board;
  board.species = "cherry";
  board.grade = "FAS";
  board.nominal = Nominal::quarters(4);
  board.thickness = Length::sixtyFourths(60);
  board.measured = true;
  board.outline = {Outline::tapered(length, width, width), Outline::tapered(length, width, width)};
  board.looked = {Looked::rough, Looked::rough};
  board.billed = {5333};
  board.measuredFeet = {5333};
  board.price = Money::units(60);
  board.wood = volumeOf(board);
  return board;
}

Board everyField() {
  Board board = plank(Length::millimetres(2400), Length::millimetres(180));
  board.tag = TagCode{TagKind::board, 9001};
  board.kind = BoardKind::slab;
  board.species = "ash";
  board.grade = "No. 1 Common";
  board.nominal = Nominal::millimetres(27);
  board.thickness = Length::micrometres(26'300);
  board.outline[1] = Outline({{Length(), Length::millimetres(-3), Length::millimetres(190)},
                              {Length::millimetres(700), Length(), Length::millimetres(175)},
                              {Length::millimetres(2400), Length(), Length::millimetres(181)}});
  board.looked = {Looked::planed, Looked::no};
  board.defects = {
      {"unsound knot",
       DefectFace::a,
       {Length::millimetres(300), Length::millimetres(20), Length::millimetres(30),
        Length::millimetres(25)}},
      {"worm track",
       DefectFace::far,
       {Length(), Length::millimetres(170), Length::millimetres(90), Length::millimetres(20)}}};
  board.warp = {Length::millimetres(12), Length::millimetres(3),   Length::millimetres(2),
                Length::millimetres(1),  Length::millimetres(900), Edge::far};
  board.log = "A";
  board.placeInLog = 3;
  board.readings = {{"2026-02-01", 180, MoistureState::wet},
                    {"2026-03-01", 82, MoistureState::ready}};
  board.bay = "B3";
  board.keptBack = true;
  board.sawnEnd = {false, true};
  board.note = "for the \"good\" table";
  board.wood = volumeOf(board);
  return board;
}

Received receive(Book& book, const std::vector<Board>& boards, Money cost) {
  Received received;
  DeliveryDraft draft;
  draft.supplier = "Norling";
  draft.reference = "4711";
  draft.receivedOn = "2026-03-01";
  received.entry = book.change({"received", {}, "", {}}, hand(), [&](Writer& writer) {
    received.delivery = writer.addDelivery(draft);
    for (Board board : boards) {
      board.delivery = received.delivery;
      if (!board.tag) board.tag = writer.nextTag();
      const BoardId id = writer.addBoard(board);
      Move move;
      move.target = AccountKind::board;
      move.targetBoard = id;
      move.volume = board.wood;
      move.cost = cost;
      writer.post(move);
      received.boards.push_back(id);
    }
  });
  return received;
}

Job jobNamed(const std::string& name) {
  Job job;
  job.name = name;
  job.customer = "the archive";
  Part part;
  part.line = 1;
  part.name = "rail";
  part.copies = 40;
  part.length = Length::inches(20);
  part.width = Length::inches(3);
  part.thickness = Length::sixtyFourths(48);
  part.species = {"cherry", "ash"};
  part.recipe = "solid";
  job.parts = {part};
  return job;
}

JobId addJob(Book& book, const std::string& name) {
  JobId id;
  book.change({"job added", {}, name, {}}, hand(),
              [&](Writer& writer) { id = writer.addJob(jobNamed(name)); });
  return id;
}

Cutting cuttingOf(const Board& board) {
  const Rect all = boundsOf(board);
  const Length trim = Length::inches(1);
  const Length kerf = Length::sixtyFourths(8);
  const Length blank = Length::inches(21);
  const Length width = Length::sixtyFourths(3 * 64 + 16);
  Cutting cutting;
  cutting.board = board.id;
  const auto add = [&](int depth, PieceKind kind, Length x, Length y, Length dx, Length dy) {
    Piece piece;
    piece.depth = depth;
    piece.kind = kind;
    piece.at = {x, y, dx, dy};
    cutting.pieces.push_back(piece);
    return &cutting.pieces.back();
  };
  const Length body = all.dx - 2 * trim;
  add(0, PieceKind::cut, all.x, all.y, all.dx, all.dy);
  add(1, PieceKind::endTrim, all.x, all.y, trim, all.dy);
  add(1, PieceKind::cut, trim, all.y, body, all.dy);
  add(2, PieceKind::cut, trim, all.y, blank, all.dy);
  Piece* const rail = add(3, PieceKind::blank, trim, all.y, blank, width);
  rail->line = 1;
  rail->copy = 1;
  rail->faceUp = Face::b;
  rail->frontEdge = Edge::far;
  add(3, PieceKind::kerf, trim, all.y + width, blank, kerf);
  add(3, PieceKind::unusable, trim, all.y + width + kerf, blank, all.dy - width - kerf);
  add(2, PieceKind::kerf, trim + blank, all.y, kerf, all.dy);
  add(2, PieceKind::offcut, trim + blank + kerf, all.y, body - blank - kerf, all.dy);
  add(1, PieceKind::endTrim, all.dx - trim, all.y, trim, all.dy);
  return cutting;
}

PlanId keep(Book& book, JobId job, const std::vector<BoardId>& boards, bool reserve) {
  PlanId id;
  book.change({"plan kept", job, "", {}}, hand(), [&](Writer& writer) {
    const Snapshot& now = writer.now();
    CutPlan plan;
    plan.job = job;
    plan.profile = now.shop().id;
    plan.choices.trustUnseen = true;
    plan.choices.keptOut = {BoardId{77}};
    plan.tick = Length::sixtyFourths(8);
    plan.shorts = {{1, 2, true, "the longest such run in cherry 4/4 is 41 in"}};
    plan.waiting = {2, 5};
    plan.boundKind = PlanBound::area;
    plan.ending = PlanEnding::goodEnough;
    plan.bound = Money::units(3);
    plan.handRule = Money::units(99);
    plan.carefulHand = Money::units(88);
    plan.cutCost = Money::units(7);
    plan.offcutWorth = Money::units(6);
    plan.shortageCost = Money::units(5);
    plan.woodCost = Money::units(4);
    plan.seed = -7;
    plan.effort = 123'456'789'012;
    plan.program = "flitchbook test";
    for (const BoardId board : boards) plan.cuttings.push_back(cuttingOf(*now.board(board)));
    id = writer.addPlan(plan);
    for (const BoardId board : boards) {
      if (reserve) writer.hold(board, job, id);
    }
  });
  return id;
}

Sawn saw(Book& book, PlanId planId, BoardId boardId) {
  Sawn sawn;
  const StoredPlan plan = book.read().plan(planId).value();
  sawn.entry = book.change({"sawn", plan.plan.job, "", {}}, hand(), [&](Writer& writer) {
    const Board board = writer.now().board(boardId).value();
    const Cutting cutting = cuttingOf(board);
    const Breakdown breakdown =
        account(cutting, board, writer.now().job(plan.plan.job).value(),
                writer.now().profile(plan.plan.profile).value(), plan.plan.tick);
    std::map<int, BoardId> became;
    for (const Share& share : breakdown.shares) {
      Move move;
      move.source = AccountKind::board;
      move.sourceBoard = boardId;
      move.volume = share.volume;
      move.cost = share.cost;
      move.piece = share.piece;
      if (share.cause == Cause::offcuts) {
        const Rect at = cutting.pieces[static_cast<std::size_t>(share.piece)].at;
        Board offcut = plank(at.dx, at.dy);
        offcut.kind = BoardKind::offcut;
        offcut.thickness = board.thickness;
        offcut.tag = writer.nextTag();
        offcut.grade = "";
        offcut.species = board.species;
        offcut.parent = boardId;
        offcut.inParent = at;
        offcut.sawnEnd = {true, true};
        offcut.wood = share.volume;
        move.target = AccountKind::board;
        move.targetBoard = writer.addBoard(offcut);
        became[share.piece] = move.targetBoard;
        sawn.offcuts.push_back(move.targetBoard);
      } else {
        move.target = accountOf(share.cause);
      }
      writer.post(move);
    }
    writer.addDone(cutting, planId, became);
    if (board.reservedFor) writer.release(boardId);
  });
  return sawn;
}

EntryId undo(Book& book, EntryId entry) {
  return book.change({"undone", {}, "", entry}, hand(),
                     [&](Writer& writer) { writer.reverse(entry); });
}

std::string checked(const Book& book) {
  std::string sentences;
  for (const Unsound& unsound : book.check()) sentences += unsound.sentence + "\n";
  return sentences;
}

}  // namespace flitch::store::sample
