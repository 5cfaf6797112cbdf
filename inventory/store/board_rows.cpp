#include "inventory/store/board_rows.h"

#include <QJsonArray>
#include <algorithm>

namespace flitch::store {

namespace {

std::optional<std::string> orNull(const std::string& text) {
  return text.empty() ? std::nullopt : std::optional(text);
}

/// Runs `read(row, board)` over a table whose rows begin with a board's id, in order of it.
template <class Read>
void eachOf(Database& database, std::vector<Board>& boards, const BoardChoice& choice,
            const std::string& columns, const std::string& table, const std::string& order,
            const Read& read) {
  auto at = boards.begin();
  const auto take = [&](Row& row) {
    const auto id = row.next<BoardId>();
    while (at != boards.end() && at->id < id) ++at;
    if (at != boards.end() && at->id == id) read(row, *at);
  };
  const std::string sql = "SELECT board, " + columns + " FROM " + table + " WHERE board " +
                          choice.condition + " ORDER BY board, " + order;
  if (choice.argument) {
    database.each(sql, take, *choice.argument);
  } else {
    database.each(sql, take);
  }
}

Board boardOf(Row& row) {
  Board board;
  row >> board.id >> board.kind >> board.species >> board.grade;
  const auto nominal = row.next<int>();
  board.nominal = nominalOf(nominal, row.next<std::string>());
  row >> board.thickness >> board.measured >> board.warp.bow >> board.warp.crook >>
      board.warp.cup >> board.warp.twist >> board.warp.bentAt >> board.warp.hollow >> board.log >>
      board.placeInLog >> board.delivery >> board.supplier >> board.billed >> board.measuredFeet >>
      board.price >> board.bay >> board.keptBack >> board.parent >> board.inParent.x >>
      board.inParent.y >> board.inParent.dx >> board.inParent.dy >> board.sawnEnd[0] >>
      board.sawnEnd[1] >> board.note >> board.withdrawn >> board.version >> board.wood >>
      board.cost >> board.reservedFor >> board.reservedName;
  row >> board.priceBasis >> board.unitPrice >> board.billedWith;
  if (const auto run = row.next<std::optional<int>>()) board.grain = GrainSlope{*run};
  if (const auto serial = row.next<std::optional<std::int64_t>>()) {
    board.tag = TagCode{TagKind::board, *serial};
  }
  return board;
}

constexpr const char* boardColumns =
    "SELECT b.id, b.kind, b.species, b.grade, b.nominal, b.nominal_in, b.thickness, b.measured, "
    "b.bow, b.crook, b.cup, b.twist, b.bent_at, b.hollow, b.log, b.place_in_log, b.delivery, "
    "d.supplier, b.billed_feet, b.measured_feet, b.price, b.bay, b.kept_back, b.parent, "
    "b.parent_x, b.parent_y, b.parent_dx, b.parent_dy, b.sawn_tag_end, b.sawn_far_end, b.note, "
    "b.withdrawn, b.version, a.volume, a.cost, h.job, j.name, b.price_basis, b.unit_price, "
    "b.billed_with, b.grain_slope, coalesce(t.serial, p.serial) "
    "FROM boards b JOIN accounts a ON a.board = b.id LEFT JOIN deliveries d ON d.id = b.delivery "
    "LEFT JOIN holds h ON h.board = b.id LEFT JOIN jobs j ON j.id = h.job "
    "LEFT JOIN tags t ON t.board = b.id "
    "LEFT JOIN tags_passed p ON p.board = b.id AND p.withdrawn = 0 WHERE b.id ";

void readOutlines(Database& database, std::vector<Board>& boards, const BoardChoice& choice) {
  std::vector<OutlinePoint> points;
  Board* board = nullptr;
  Face face = Face::a;
  const auto close = [&] {
    if (board) board->outline[static_cast<std::size_t>(face)] = Outline(std::move(points));
    points.clear();
  };
  eachOf(database, boards, choice, "face, x, near, far", "outlines", "face, x",
         [&](Row& row, Board& of) {
           const auto onFace = row.next<Face>();
           if (board != &of || face != onFace) {
             close();
             board = &of;
             face = onFace;
           }
           OutlinePoint point;
           row >> point.x >> point.near >> point.far;
           points.push_back(point);
         });
  close();
}

std::optional<int> slopeOf(const Board& board) {
  return board.grain ? std::optional(board.grain->runTenths) : std::nullopt;
}

std::optional<Length> onB(const Defect& defect, Length Rect::*of) {
  return defect.onB ? std::optional((*defect.onB).*of) : std::nullopt;
}

void insertDetails(Database& database, const Board& board) {
  for (const Face face : {Face::a, Face::b}) {
    const auto at = static_cast<std::size_t>(face);
    database.run("INSERT INTO faces (board, face, looked) VALUES (?, ?, ?)", board.id, face,
                 board.looked[at]);
    for (const OutlinePoint& point : board.outline[at].points()) {
      database.run("INSERT INTO outlines (board, face, x, near, far) VALUES (?, ?, ?, ?, ?)",
                   board.id, face, point.x, point.near, point.far);
    }
  }
  int line = 0;
  for (const Defect& defect : board.defects) {
    database.run(
        "INSERT INTO defect_kinds (name, rank, sound) SELECT ?, max(rank) + 1, 0 "
        "FROM defect_kinds WHERE true ON CONFLICT DO NOTHING",
        defect.kind);
    database.run(
        "INSERT INTO defects (board, line, kind, face, x, y, dx, dy, depth, b_x, b_y, b_dx, b_dy) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        board.id, ++line, defect.kind, defect.face, defect.where.x, defect.where.y, defect.where.dx,
        defect.where.dy, defect.depth, onB(defect, &Rect::x), onB(defect, &Rect::y),
        onB(defect, &Rect::dx), onB(defect, &Rect::dy));
  }
  for (const Reading& reading : board.readings) {
    database.run("INSERT INTO readings (board, taken_on, moisture, state) VALUES (?, ?, ?, ?)",
                 board.id, reading.takenOn, reading.tenthsPercent, reading.state);
  }
}

void insertWords(Database& database, const Board& board) {
  database.run("INSERT INTO species (name) VALUES (?) ON CONFLICT DO NOTHING", board.species);
  if (!board.grade.empty()) {
    database.run("INSERT INTO grades (name) VALUES (?) ON CONFLICT DO NOTHING", board.grade);
  }
  if (!board.bay.empty()) {
    database.run("INSERT INTO bays (name) VALUES (?) ON CONFLICT DO NOTHING", board.bay);
  }
}

QJsonArray outlineJson(const Outline& outline) {
  QJsonArray points;
  for (const OutlinePoint& p : outline.points()) {
    points.append(QJsonArray{qint64{p.x.nm()}, qint64{p.near.nm()}, qint64{p.far.nm()}});
  }
  return points;
}

QString word(std::string_view text) {
  return QString::fromUtf8(text.data(), static_cast<qsizetype>(text.size()));
}

Length lengthOf(const QJsonValue& value) { return Length::nanometres(value.toInteger()); }

}  // namespace

std::string nominalCode(Nominal nominal) {
  return nominal.unit() == Unit::millimetres ? "mm" : "quarters";
}
Nominal nominalOf(int value, const std::string& code) {
  return code == "mm" ? Nominal::millimetres(value) : Nominal::quarters(value);
}

BoardChoice oneBoard(BoardId id) { return {"= ?", id.value}; }
BoardChoice boardsOnRack() {
  return {"IN (SELECT board FROM accounts WHERE volume > 0 AND board IS NOT NULL)", {}};
}
BoardChoice boardsSawn() { return {"IN (SELECT board FROM cuttings WHERE entry IS NOT NULL)", {}}; }

std::vector<Board> readBoards(Database& database, const BoardChoice& choice) {
  std::vector<Board> boards;
  const std::string sql = boardColumns + choice.condition + " ORDER BY b.id";
  const auto take = [&](Row& row) { boards.push_back(boardOf(row)); };
  if (choice.argument) {
    database.each(sql, take, *choice.argument);
  } else {
    database.each(sql, take);
  }
  readOutlines(database, boards, choice);
  eachOf(database, boards, choice, "face, looked", "faces", "face", [](Row& row, Board& board) {
    const auto face = row.next<Face>();
    row >> board.looked[static_cast<std::size_t>(face)];
  });
  eachOf(database, boards, choice, "kind, face, x, y, dx, dy, depth, b_dx, b_dy, b_x, b_y",
         "defects", "line", [](Row& row, Board& board) {
           Defect defect;
           row >> defect.kind >> defect.face >> defect.where.x >> defect.where.y >>
               defect.where.dx >> defect.where.dy >> defect.depth;
           const auto dx = row.next<std::optional<Length>>();
           if (dx) {
             Rect& onB = defect.onB.emplace();
             onB.dx = *dx;
             row >> onB.dy >> onB.x >> onB.y;
           }
           board.defects.push_back(std::move(defect));
         });
  eachOf(database, boards, choice, "taken_on, moisture, state", "readings", "taken_on",
         [](Row& row, Board& board) {
           Reading reading;
           row >> reading.takenOn >> reading.tenthsPercent >> reading.state;
           board.readings.push_back(std::move(reading));
         });
  return boards;
}

std::optional<Board> readBoard(Database& database, BoardId id) {
  auto boards = readBoards(database, oneBoard(id));
  if (boards.empty()) return std::nullopt;
  return std::move(boards.front());
}

std::string nameOf(Database& database, BoardId id) {
  if (const auto serial =
          database.maybe<std::int64_t>("SELECT serial FROM tags WHERE board = ? UNION ALL "
                                       "SELECT serial FROM tags_passed WHERE board = ? "
                                       "AND withdrawn = 0 LIMIT 1",
                                       id, id)) {
    return text(TagCode{TagKind::board, *serial});
  }
  return "board " + std::to_string(id.value) + " (without tag)";
}

QJsonObject json(const BoardFields& fields) {
  const Board& board = fields.board;
  QJsonArray defects;
  for (const Defect& d : board.defects) {
    QJsonArray mark{QString::fromStdString(d.kind), word(code(d.face)),
                    qint64{d.where.x.nm()},         qint64{d.where.y.nm()},
                    qint64{d.where.dx.nm()},        qint64{d.where.dy.nm()}};
    // Shorter without, as they were before marks had a depth.
    if (d.depth || d.onB) mark.append(d.depth ? QJsonValue(qint64{d.depth->nm()}) : QJsonValue());
    if (d.onB) {
      for (const Length side : {d.onB->x, d.onB->y, d.onB->dx, d.onB->dy}) {
        mark.append(qint64{side.nm()});
      }
    }
    defects.append(mark);
  }
  QJsonArray readings;
  for (const Reading& r : board.readings) {
    readings.append(
        QJsonArray{QString::fromStdString(r.takenOn), r.tenthsPercent, word(code(r.state))});
  }
  return {
      {"kind", word(code(board.kind))},
      {"species", QString::fromStdString(board.species)},
      {"grade", QString::fromStdString(board.grade)},
      {"nominal",
       QJsonArray{board.nominal.value(), QString::fromStdString(nominalCode(board.nominal))}},
      {"thickness", qint64{board.thickness.nm()}},
      {"measured", board.measured},
      {"outline_a", outlineJson(board.outline[0])},
      {"outline_b", outlineJson(board.outline[1])},
      {"looked", QJsonArray{word(code(board.looked[0])), word(code(board.looked[1]))}},
      {"defects", defects},
      {"bow", qint64{board.warp.bow.nm()}},
      {"crook", qint64{board.warp.crook.nm()}},
      {"cup", qint64{board.warp.cup.nm()}},
      {"twist", qint64{board.warp.twist.nm()}},
      {"bent_at", board.warp.bentAt ? QJsonValue(qint64{board.warp.bentAt->nm()}) : QJsonValue()},
      {"hollow", word(code(board.warp.hollow))},
      {"log", QString::fromStdString(board.log)},
      {"place_in_log", board.placeInLog},
      {"readings", readings},
      {"billed_feet", qint64{board.billed.thousandths}},
      {"measured_feet", qint64{board.measuredFeet.thousandths}},
      {"price", qint64{board.price.raw()}},
      {"bay", QString::fromStdString(board.bay)},
      {"kept_back", board.keptBack},
      {"sawn_ends", QJsonArray{board.sawnEnd[0], board.sawnEnd[1]}},
      {"note", QString::fromStdString(board.note)},
      {"withdrawn", board.withdrawn},
      {"grain_slope", board.grain ? QJsonValue(board.grain->runTenths) : QJsonValue()},
      {"whole", qint64{fields.whole.value}},
  };
}

void lay(const QJsonObject& changed, BoardFields& fields) {
  QJsonObject all = json(fields);
  for (auto it = changed.begin(); it != changed.end(); ++it) all[it.key()] = it.value();
  Board& board = fields.board;
  const auto textAt = [&](const char* key) {
    return all[QLatin1String(key)].toString().toStdString();
  };
  const auto numberAt = [&](const char* key) { return all[QLatin1String(key)].toInteger(); };
  const auto lengthAt = [&](const char* key) { return Length::nanometres(numberAt(key)); };
  board.kind = decoded<BoardKind>(textAt("kind"));
  board.species = textAt("species");
  board.grade = textAt("grade");
  const QJsonArray nominal = all[QLatin1String("nominal")].toArray();
  board.nominal = nominalOf(nominal[0].toInt(), nominal[1].toString().toStdString());
  board.thickness = lengthAt("thickness");
  board.measured = all[QLatin1String("measured")].toBool();
  for (const std::size_t face : {0U, 1U}) {
    std::vector<OutlinePoint> points;
    for (const auto& p : all[QLatin1String(face == 0 ? "outline_a" : "outline_b")].toArray()) {
      const QJsonArray point = p.toArray();
      points.push_back({lengthOf(point[0]), lengthOf(point[1]), lengthOf(point[2])});
    }
    board.outline[face] = Outline(std::move(points));
    board.looked[face] = decoded<Looked>(all[QLatin1String("looked")]
                                             .toArray()[static_cast<qsizetype>(face)]
                                             .toString()
                                             .toStdString());
    board.sawnEnd[face] =
        all[QLatin1String("sawn_ends")].toArray()[static_cast<qsizetype>(face)].toBool();
  }
  board.defects.clear();
  for (const auto& d : all[QLatin1String("defects")].toArray()) {
    const QJsonArray mark = d.toArray();
    Defect& defect = board.defects.emplace_back(
        Defect{mark[0].toString().toStdString(),
               decoded<DefectFace>(mark[1].toString().toStdString()),
               {lengthOf(mark[2]), lengthOf(mark[3]), lengthOf(mark[4]), lengthOf(mark[5])}});
    if (mark.size() > 6 && !mark[6].isNull()) defect.depth = lengthOf(mark[6]);
    if (mark.size() > 7) {
      defect.onB = {lengthOf(mark[7]), lengthOf(mark[8]), lengthOf(mark[9]), lengthOf(mark[10])};
    }
  }
  board.warp.bow = lengthAt("bow");
  board.warp.crook = lengthAt("crook");
  board.warp.cup = lengthAt("cup");
  board.warp.twist = lengthAt("twist");
  board.warp.bentAt.reset();
  if (!all[QLatin1String("bent_at")].isNull()) board.warp.bentAt = lengthAt("bent_at");
  board.warp.hollow = decoded<Edge>(textAt("hollow"));
  board.log = textAt("log");
  board.placeInLog = static_cast<int>(numberAt("place_in_log"));
  board.readings.clear();
  for (const auto& r : all[QLatin1String("readings")].toArray()) {
    const QJsonArray reading = r.toArray();
    board.readings.push_back({reading[0].toString().toStdString(), reading[1].toInt(),
                              decoded<MoistureState>(reading[2].toString().toStdString())});
  }
  board.billed = {numberAt("billed_feet")};
  board.measuredFeet = {numberAt("measured_feet")};
  board.price = Money::tenThousandths(numberAt("price"));
  board.bay = textAt("bay");
  board.keptBack = all[QLatin1String("kept_back")].toBool();
  board.note = textAt("note");
  board.withdrawn = all[QLatin1String("withdrawn")].toBool();
  board.grain.reset();
  if (!all[QLatin1String("grain_slope")].isNull()) {
    board.grain = GrainSlope{static_cast<int>(numberAt("grain_slope"))};
  }
  fields.whole = {numberAt("whole")};
}

void insertBoard(Database& database, const Board& board, Half half, EntryId entry) {
  insertWords(database, board);
  database.run(
      "INSERT INTO boards (id, kind, species, grade, nominal, nominal_in, thickness, measured, "
      "bow, crook, cup, twist, bent_at, hollow, log, place_in_log, delivery, billed_feet, "
      "measured_feet, half, price, bay, kept_back, parent, parent_x, parent_y, parent_dx, "
      "parent_dy, sawn_tag_end, sawn_far_end, note, price_basis, unit_price, billed_with, "
      "grain_slope, version) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, "
      "?, ?, ?, ?, ?, ?, ?, ?)",
      board.id, board.kind, board.species, orNull(board.grade), board.nominal.value(),
      nominalCode(board.nominal), board.thickness, board.measured, board.warp.bow, board.warp.crook,
      board.warp.cup, board.warp.twist, board.warp.bentAt, board.warp.hollow, board.log,
      board.placeInLog, board.delivery, board.billed, board.measuredFeet, half, board.price,
      orNull(board.bay), board.keptBack, board.parent, board.inParent.x, board.inParent.y,
      board.inParent.dx, board.inParent.dy, board.sawnEnd[0], board.sawnEnd[1], board.note,
      board.priceBasis, board.priceBasis ? std::optional(board.unitPrice) : std::nullopt,
      board.billedWith, slopeOf(board), entry);
  insertDetails(database, board);
  database.run(
      "INSERT INTO accounts (id, kind, board, whole_volume, volume, cost) "
      "VALUES (?, 'board', ?, ?, 0, 0)",
      nextNumber(database, "account"), board.id, board.wood);
}

void updateBoardRows(Database& database, const BoardFields& fields, EntryId entry) {
  const Board& board = fields.board;
  insertWords(database, board);
  database.run(
      "UPDATE boards SET kind = ?, species = ?, grade = ?, nominal = ?, nominal_in = ?, "
      "thickness = ?, measured = ?, bow = ?, crook = ?, cup = ?, twist = ?, bent_at = ?, "
      "hollow = ?, log = ?, place_in_log = ?, billed_feet = ?, measured_feet = ?, price = ?, "
      "bay = ?, kept_back = ?, sawn_tag_end = ?, sawn_far_end = ?, note = ?, withdrawn = ?, "
      "grain_slope = ?, version = ? WHERE id = ?",
      board.kind, board.species, orNull(board.grade), board.nominal.value(),
      nominalCode(board.nominal), board.thickness, board.measured, board.warp.bow, board.warp.crook,
      board.warp.cup, board.warp.twist, board.warp.bentAt, board.warp.hollow, board.log,
      board.placeInLog, board.billed, board.measuredFeet, board.price, orNull(board.bay),
      board.keptBack, board.sawnEnd[0], board.sawnEnd[1], board.note, board.withdrawn,
      slopeOf(board), entry, board.id);
  for (const char* table : {"faces", "outlines", "defects", "readings"}) {
    database.run(std::string("DELETE FROM ") + table + " WHERE board = ?", board.id);
  }
  insertDetails(database, board);
  database.run("UPDATE accounts SET remeasured_volume = ? WHERE board = ? AND whole_volume <> ?",
               fields.whole, board.id, fields.whole);
}

std::int64_t nextNumber(Database& database, const std::string& counter) {
  return database.value<std::int64_t>(
      "UPDATE counters SET last = last + 1 WHERE name = ? RETURNING last", counter);
}

}  // namespace flitch::store
