#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>

#include "inventory/exchange/json.h"

using namespace flitch;
using namespace flitch::exchange;
using Json = nlohmann::ordered_json;

namespace {

Json schemaOf(const std::string& name) {
  std::ifstream in(std::string(FLITCHBOOK_SOURCE) + "/inventory/exchange/schema/" + name + ".json");
  return Json::parse(in);
}

bool isType(const Json& value, const std::string& type) {
  return (type == "object" && value.is_object()) || (type == "array" && value.is_array()) ||
         (type == "string" && value.is_string()) || (type == "boolean" && value.is_boolean()) ||
         (type == "integer" && value.is_number_integer()) || (type == "null" && value.is_null());
}

/// The first place where `value` breaks `schema`, or nothing. Knows the words our schemas use and
/// stops at any other.
std::string fault(const Json& value, const Json& schema, const std::string& place) {
  for (const auto& [word, rule] : schema.items()) {
    if (word == "$schema" || word == "title" || word == "description") continue;
    // What is said of an object's or a number's insides holds for no null.
    if (value.is_null() && word != "type" && word != "enum" && word != "const") continue;
    if (word == "type") {
      const Json types = rule.is_array() ? rule : Json::array({rule});
      if (std::none_of(types.begin(), types.end(),
                       [&](const Json& type) { return isType(value, type.get<std::string>()); })) {
        return place + " is no " + rule.dump();
      }
    } else if (word == "enum") {
      if (std::find(rule.begin(), rule.end(), value) == rule.end())
        return place + " is none of them";
    } else if (word == "const") {
      if (value != rule) return place + " is not " + rule.dump();
    } else if (word == "minimum") {
      if (value.get<std::int64_t>() < rule.get<std::int64_t>()) return place + " is too small";
    } else if (word == "required") {
      for (const Json& name : rule) {
        if (!value.contains(name.get<std::string>())) {
          return place + " has no " + name.get<std::string>();
        }
      }
    } else if (word == "additionalProperties") {
      if (rule.get<bool>()) continue;
      for (const auto& [name, field] : value.items()) {
        if (!schema["properties"].contains(name)) return place + " has " + name;
      }
    } else if (word == "properties") {
      for (const auto& [name, part] : rule.items()) {
        if (!value.contains(name)) continue;
        const std::string inner = fault(value[name], part, place + "." + name);
        if (!inner.empty()) return inner;
      }
    } else if (word == "items") {
      for (std::size_t i = 0; i < value.size(); ++i) {
        const std::string inner = fault(value[i], rule, place + "[" + std::to_string(i) + "]");
        if (!inner.empty()) return inner;
      }
    } else {
      return "the schema says " + word;
    }
  }
  return {};
}

Board aBoard() {
  Board board;
  board.id = BoardId{42};
  board.tag = TagCode{TagKind::board, 42};
  board.species = "cherry";
  board.outline.fill(Outline::tapered(Length::feet(10), Length::inches(8), Length::inches(7)));
  board.thickness = Length::sixtyFourths(60);
  board.defects.push_back(
      {"split", DefectFace::far, {{}, {}, Length::inches(5), Length::inches(8)}});
  board.readings.push_back({"2026-03-12", 85, MoistureState::resting});
  board.warp.bentAt = Length::inches(40);
  return board;
}

CutPlan aPlan() {
  CutPlan plan;
  plan.choices.keptOut = {BoardId{3}};
  plan.choices.wishes = {{"offcuts first", {BoardId{5}}, Money::units(3)}};
  plan.shorts.push_back({3, 2, true, "no face has been looked at"});
  plan.waiting = {1, 8};
  Cutting cutting{BoardId{7}, {}, {}};
  for (const PieceKind kind : {PieceKind::cut, PieceKind::blank, PieceKind::offcut, PieceKind::kerf,
                               PieceKind::endTrim, PieceKind::unusable}) {
    Piece piece;
    piece.kind = kind;
    piece.line = 3;
    piece.copy = 1;
    cutting.pieces.push_back(piece);
  }
  cutting.layups.push_back({1, LayupKind::stave, 1, 1, 1, false, Length::inches(3)});
  plan.cuttings.push_back(cutting);
  return plan;
}

}  // namespace

TEST_CASE("boards obey their schema") {
  Board board = aBoard();
  CHECK(fault(json(board, Unit::inches), schemaOf("board"), "board") == "");
  board.tag.reset();
  board.reservedFor = JobId{2};
  board.reservedName = "Map chest";
  board.parent = BoardId{1};
  board.kind = BoardKind::offcut;
  CHECK(fault(json(board, Unit::millimetres), schemaOf("board"), "board") == "");
}

TEST_CASE("plans obey their schema, whatever their ending") {
  CutPlan plan = aPlan();
  for (const PlanEnding ending : {PlanEnding::closed, PlanEnding::goodEnough, PlanEnding::timeUp,
                                  PlanEnding::effortSpent, PlanEnding::stopped}) {
    plan.ending = ending;
    for (const PlanBound bound :
         {PlanBound::none, PlanBound::area, PlanBound::relaxed, PlanBound::exact}) {
      plan.boundKind = bound;
      CHECK(fault(json(plan), schemaOf("plan"), "plan") == "");
    }
  }
}

TEST_CASE("tables, refusals and documents obey their schemas") {
  Table table;
  table.title = "Rack";
  table.columns = {{"tag", "Tag", false}, {"length", "Length", true}};
  table.rows = {{std::string("T0042-F"), Length::feet(10)}};
  CHECK(fault(json(table), schemaOf("table"), "table") == "");
  table.totals = {std::monostate{}, Length::feet(10)};
  CHECK(fault(json(table), schemaOf("table"), "table") == "");
  const Refusal refusal("bad-cell",
                        Complaint{"t.csv:2:length", "`x` is not a length", "x", "10-6"});
  CHECK(fault(json(refusal), schemaOf("refusal"), "refusal") == "");
  CHECK(fault(Json::parse(document("rack", {{"boards", Json::array()}})), schemaOf("document"),
              "document") == "");
}

TEST_CASE("what breaks a schema is found") {
  const Json schema = schemaOf("board");
  const Json board = json(aBoard(), Unit::inches);
  Json broken = board;
  broken.erase("species");
  CHECK(fault(broken, schema, "board") == "board has no species");
  broken = board;
  broken["colour"] = "red";
  CHECK(fault(broken, schema, "board") == "board has colour");
  broken = board;
  broken["marks"][0]["face"] = "C";
  CHECK(fault(broken, schema, "board") == "board.marks[0].face is none of them");
  broken = board;
  broken["length_nm"] = 1.5;
  CHECK(fault(broken, schema, "board") == "board.length_nm is no \"integer\"");
  broken["length_nm"] = -1;
  CHECK(fault(broken, schema, "board") == "board.length_nm is too small");
}
