#include "inventory/exchange/json.h"

#include <nlohmann/json.hpp>

#include "inventory/records/choices.h"
#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

using Json = nlohmann::ordered_json;

constexpr const char* endingWords[] = {"closed", "good enough", "time up", "effort spent",
                                       "stopped"};
constexpr const char* pieceWords[] = {"cut", "blank", "offcut", "kerf", "end trim", "unusable"};

template <class T, std::size_t n>
const char* wordAt(const char* const (&words)[n], T value) {
  return words[static_cast<std::size_t>(value)];
}

void addRect(Json& to, const Rect& r) {
  to["x_nm"] = r.x.nm();
  to["y_nm"] = r.y.nm();
  to["dx_nm"] = r.dx.nm();
  to["dy_nm"] = r.dy.nm();
}

Json outlineOf(const Outline& outline) {
  Json points = Json::array();
  for (const OutlinePoint& p : outline.points()) {
    points.push_back({{"x_nm", p.x.nm()}, {"near_nm", p.near.nm()}, {"far_nm", p.far.nm()}});
  }
  return points;
}

Json warpOf(const Warp& warp) {
  return {{"bow_nm", warp.bow.nm()},
          {"crook_nm", warp.crook.nm()},
          {"cup_nm", warp.cup.nm()},
          {"twist_nm", warp.twist.nm()},
          {"bent_at_nm", warp.bentAt ? Json(warp.bentAt->nm()) : Json(nullptr)},
          {"hollow", warp.hollow == Edge::near ? "near" : "far"}};
}

Json choicesOf(const Choices& choices) {
  const auto ids = [](const std::vector<BoardId>& boards) {
    Json list = Json::array();
    for (const BoardId board : boards) list.push_back(board.value);
    return list;
  };
  Json locks = Json::array(), laid = Json::array(), wishes = Json::array();
  for (const Lock& lock : choices.locks) {
    locks.push_back({{"board", lock.cutting.board.value}, {"by_eye", lock.byEye}});
  }
  for (const LaidByHand& l : choices.laid) {
    Json row{{"board", l.board.value}, {"line", l.line}};
    addRect(row, l.at);
    row["face_up"] = l.faceUp == Face::a ? "A" : "B";
    row["front_edge"] = l.frontEdge == Edge::near ? "near" : "far";
    laid.push_back(std::move(row));
  }
  for (const Wish& wish : choices.wishes) {
    wishes.push_back({{"words", wish.words},
                      {"boards", ids(wish.boards)},
                      {"each_tenthousandths", wish.each.raw()},
                      {"by_itself", wish.byItself}});
  }
  return {{"trust_unseen", choices.trustUnseen},
          {"kept_out", ids(choices.keptOut)},
          {"pins", ids(choices.pins)},
          {"locks", std::move(locks)},
          {"laid", std::move(laid)},
          {"wishes", std::move(wishes)}};
}

/// What a column's name gets for the type of its cells, so that no figure stands without its unit.
std::string_view suffixOf(const CellValue& cell) {
  constexpr std::string_view suffixes[] = {
      "", "", "", "_nm", "_mm3", "_thousandths", "_tenthousandths", "_permille"};
  static_assert(std::variant_size_v<CellValue> == std::size(suffixes));
  return suffixes[cell.index()];
}

Json valueOf(const CellValue& cell) {
  return std::visit(
      [](const auto& value) -> Json {
        using T = std::decay_t<decltype(value)>;
        if constexpr (std::is_same_v<T, std::monostate>) {
          return nullptr;
        } else if constexpr (std::is_same_v<T, std::string> || std::is_same_v<T, std::int64_t>) {
          return value;
        } else if constexpr (std::is_same_v<T, Length>) {
          return value.nm();
        } else if constexpr (std::is_same_v<T, Feet>) {
          return value.thousandths;
        } else if constexpr (std::is_same_v<T, Money>) {
          return value.raw();
        } else {
          return value.value;
        }
      },
      cell);
}

/// The name of a column, from the first cell that is not empty.
std::string nameOf(const Table& table, std::size_t column) {
  std::string name = table.columns[column].key;
  std::string_view suffix;
  for (const auto& row : table.rows) {
    if (suffix.empty()) suffix = suffixOf(row[column]);
  }
  if (suffix.empty() && !table.totals.empty()) suffix = suffixOf(table.totals[column]);
  if (!name.ends_with(suffix)) name += suffix;
  return name;
}

}  // namespace

Json json(const Board& board, Unit unit) {
  Json out;
  out["id"] = board.id.value;
  out["tag"] = board.tag ? Json(text(*board.tag)) : Json(nullptr);
  out["kind"] = word(board.kind);
  out["species"] = board.species;
  out["grade"] = board.grade;
  out["nominal"] = text(board.nominal);
  out["size"] = sizeText(board, unit);
  out["length_nm"] = board.length().nm();
  out["width_at_tag_nm"] = board.widthAtTag().nm();
  out["width_at_far_nm"] = board.widthAtFar().nm();
  out["thickness_nm"] = board.thickness.nm();
  out["thickness_measured"] = board.measured;
  out["faces"] = Json::array();
  for (std::size_t face = 0; face < 2; ++face) {
    out["faces"].push_back({{"face", face == 0 ? "A" : "B"},
                            {"looked", word(board.looked[face])},
                            {"outline", outlineOf(board.outline[face])}});
  }
  out["marks"] = Json::array();
  for (const Defect& defect : board.defects) {
    Json mark{{"kind", defect.kind}, {"face", word(defect.face)}};
    addRect(mark, defect.where);
    mark["depth_nm"] = defect.depth ? Json(defect.depth->nm()) : Json(nullptr);
    mark["on_b"] = nullptr;
    if (defect.onB) {
      Json onB;
      addRect(onB, *defect.onB);
      mark["on_b"] = onB;
    }
    out["marks"].push_back(mark);
  }
  out["warp"] = warpOf(board.warp);
  out["grain_slope"] = board.grain ? Json(text(*board.grain)) : Json(nullptr);
  out["log"] = board.log;
  out["place_in_log"] = board.placeInLog;
  out["readings"] = Json::array();
  for (const Reading& reading : board.readings) {
    out["readings"].push_back({{"taken_on", reading.takenOn},
                               {"tenths_percent", reading.tenthsPercent},
                               {"state", word(reading.state)}});
  }
  out["supplier"] = board.supplier;
  out["billed_thousandths"] = board.billed.thousandths;
  out["measured_thousandths"] = board.measuredFeet.thousandths;
  out["price_tenthousandths"] = board.price.raw();
  out["price_basis"] = board.priceBasis ? Json(word(*board.priceBasis)) : Json(nullptr);
  out["unit_price_tenthousandths"] = board.unitPrice.raw();
  out["billed_with"] = board.billedWith ? Json(board.billedWith.value) : Json(nullptr);
  out["cost_tenthousandths"] = board.cost.raw();
  out["wood_mm3"] = board.wood.value;
  out["bay"] = board.bay;
  out["kept_back"] = board.keptBack;
  out["reserved_for"] = board.reservedFor ? Json(board.reservedName) : Json(nullptr);
  out["parent"] = board.parent ? Json(board.parent.value) : Json(nullptr);
  out["on_rack"] = board.onRack();
  out["withdrawn"] = board.withdrawn;
  out["note"] = board.note;
  out["version"] = board.version.value;
  return out;
}

Json json(const Table& table) {
  std::vector<std::string> names;
  Json columns = Json::array();
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    names.push_back(nameOf(table, i));
    columns.push_back({{"key", names.back()}, {"title", table.columns[i].title}});
  }
  const auto rowOf = [&names](const std::vector<CellValue>& cells) {
    Json row = Json::object();
    for (std::size_t i = 0; i < cells.size(); ++i) row[names[i]] = valueOf(cells[i]);
    return row;
  };
  Json rows = Json::array();
  for (const auto& row : table.rows) rows.push_back(rowOf(row));
  return {{"title", table.title},
          {"columns", columns},
          {"rows", rows},
          {"totals", table.totals.empty() ? Json(nullptr) : rowOf(table.totals)},
          {"note", table.note}};
}

Json json(const CutPlan& plan) {
  Json out;
  out["id"] = plan.id.value;
  out["job"] = plan.job.value;
  out["profile"] = plan.profile.value;
  out["choices"] = choicesOf(plan.choices);
  out["tick_nm"] = plan.tick.nm();
  out["total_tenthousandths"] = plan.total().raw();
  out["wood_cost_tenthousandths"] = plan.woodCost.raw();
  out["cut_cost_tenthousandths"] = plan.cutCost.raw();
  out["shortage_cost_tenthousandths"] = plan.shortageCost.raw();
  out["wish_cost_tenthousandths"] = wishCost(plan).raw();
  out["offcut_worth_tenthousandths"] = plan.offcutWorth.raw();
  out["bound_kind"] = word(plan.boundKind);
  out["bound_tenthousandths"] =
      plan.boundKind == PlanBound::none ? Json(nullptr) : Json(plan.bound.raw());
  out["ending"] = wordAt(endingWords, plan.ending);
  const auto compared = [&](Money hand) {
    return plan.savedOn(hand) ? Json(hand.raw()) : Json(nullptr);
  };
  out["hand_rule_tenthousandths"] = compared(plan.handRule);
  out["careful_hand_tenthousandths"] = compared(plan.carefulHand);
  out["seed"] = plan.seed;
  out["effort"] = plan.effort;
  out["program"] = plan.program;
  out["shorts"] = Json::array();
  for (const ShortPart& part : plan.shorts) {
    out["shorts"].push_back({{"line", part.line},
                             {"letter", partLetter(part.line)},
                             {"copies", part.copies},
                             {"unseen_only", part.unseenOnly},
                             {"reason", part.reason}});
  }
  out["waiting"] = plan.waiting;
  out["cuttings"] = Json::array();
  for (const Cutting& cutting : plan.cuttings) {
    Json pieces = Json::array();
    for (const Piece& piece : cutting.pieces) {
      Json leaf{{"depth", piece.depth}, {"kind", wordAt(pieceWords, piece.kind)}};
      addRect(leaf, piece.at);
      if (piece.kind == PieceKind::blank) {
        leaf["face_up"] = piece.faceUp == Face::a ? "A" : "B";
        leaf["front_edge"] = piece.frontEdge == Edge::near ? "near" : "far";
        leaf["line"] = piece.line;
        leaf["copy"] = piece.copy;
        leaf["hand_mark"] = handMark(piece.line, piece.copy);
      }
      pieces.push_back(std::move(leaf));
    }
    Json layups = Json::array();
    for (const Layup& l : cutting.layups) {
      layups.push_back({{"piece", l.piece},
                        {"kind", word(l.kind)},
                        {"copy", l.copy},
                        {"slot", l.slot},
                        {"section", l.section},
                        {"turned", l.turned},
                        {"gives_nm", l.gives.nm()}});
    }
    out["cuttings"].push_back({{"board", cutting.board.value},
                               {"pieces", std::move(pieces)},
                               {"layups", std::move(layups)}});
  }
  return out;
}

Json json(const Refusal& refusal) {
  Json complaints = Json::array();
  for (const Complaint& complaint : refusal.complaints()) {
    complaints.push_back({{"place", complaint.place},
                          {"sentence", complaint.sentence},
                          {"value", complaint.value},
                          {"accepted", complaint.accepted}});
  }
  return {{"code", refusal.code()}, {"complaints", complaints}};
}

std::string document(const std::string& command, const Fields& fields, Unit unit) {
  Json out = Json::object();
  for (const auto& [key, field] : fields) {
    if (const auto* cell = std::get_if<CellValue>(&field)) {
      out[key + std::string(suffixOf(*cell))] = valueOf(*cell);
    } else if (const auto* boards = std::get_if<std::vector<Board>>(&field)) {
      out[key] = Json::array();
      for (const Board& board : *boards) out[key].push_back(json(board, unit));
    } else if (const auto* table = std::get_if<Table>(&field)) {
      out[key] = json(*table);
    } else if (const auto* plan = std::get_if<CutPlan>(&field)) {
      out[key] = json(*plan);
    } else if (const auto* refusal = std::get_if<Refusal>(&field)) {
      out[key] = json(*refusal);
    } else if (const auto* words = std::get_if<std::vector<std::string>>(&field)) {
      out[key] = *words;
    } else {
      out[key] = std::get<bool>(field);
    }
  }
  return document(command, out);
}

std::string document(const std::string& command, const Json& fields) {
  Json out{{"flitch", jsonVersion}, {"command", command}};
  out.update(fields);
  // A text that is not UTF-8 (a file name) is shown with marks rather than refused.
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace flitch::exchange
