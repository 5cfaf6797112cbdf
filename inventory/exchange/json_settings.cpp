// Profile and choices as the book stores them: one walk over the fields writes and reads, so that
// neither can forget one.
#include <array>
#include <limits>
#include <nlohmann/json.hpp>
#include <set>

#include "inventory/exchange/json.h"

namespace flitch::exchange {
namespace {

using Json = nlohmann::ordered_json;

class Writer {
 public:
  void length(const char* name, const Length& value) { out[name] = value.nm(); }
  void laterLength(const char* name, const Length& value) { length(name, value); }
  void money(const char* name, const Money& value) { out[name] = value.raw(); }
  void number(const char* name, int value, int, int) { out[name] = value; }
  void laterNumber(const char* name, int value, int, int) { out[name] = value; }
  void flag(const char* name, bool value) { out[name] = value; }
  void laterFlag(const char* name, bool value) { flag(name, value); }
  void word(const char* name, const std::string& value) { out[name] = value; }
  void words(const char* name, const std::vector<std::string>& value) { out[name] = value; }
  void boards(const char* name, const std::vector<BoardId>& value) {
    out[name] = Json::array();
    for (const BoardId id : value) out[name].push_back(id.value);
  }
  void board(const char* name, const BoardId& value) { out[name] = value.value; }
  void rect(const char* name, const Rect& at) {
    out[name] = Json::array({at.x.nm(), at.y.nm(), at.dx.nm(), at.dy.nm()});
  }
  template <class Kind>
  void kind(const char* name, const Kind& value, Kind) {
    out[name] = static_cast<int>(value);
  }
  /// As laterNumber; none at all is not written.
  template <class T, class Fields>
  void laterList(const char* name, const std::vector<T>& values, Fields&& fields) {
    if (!values.empty()) list(name, values, fields);
  }
  void laterBoards(const char* name, const std::vector<BoardId>& values) {
    if (!values.empty()) boards(name, values);
  }
  template <class T, class Fields>
  void list(const char* name, const std::vector<T>& values, Fields&& fields) {
    out[name] = Json::array();
    for (const T& value : values) {
      Writer row;
      fields(row, value);
      out[name].push_back(row.out);
    }
  }
  Json out = Json::object();
};

/// Takes exactly the fields it is asked for; anything missing, unknown or of another type is a
/// Refusal naming the field.
class Reader {
 public:
  Reader(const Json& in, std::string place) : in_(in), place_(std::move(place)) {
    if (!in.is_object()) refuse("", "is no object");
  }
  void length(const char* name, Length& value) {
    constexpr std::int64_t most = 100'000'000'000;  // 100 m, as parseLength
    value = Length::nanometres(whole(name, 0, most));
  }
  void laterLength(const char* name, Length& value) {
    if (in_.contains(name)) length(name, value);
  }
  void money(const char* name, Money& value) {
    value = Money::tenThousandths(whole(name, 0, std::numeric_limits<std::int64_t>::max()));
  }
  void number(const char* name, int& value, int least, int most) {
    value = static_cast<int>(whole(name, least, most));
  }
  /// A setting that came later: a body without it leaves the value a new book starts with.
  void laterNumber(const char* name, int& value, int least, int most) {
    if (in_.contains(name)) number(name, value, least, most);
  }
  void flag(const char* name, bool& value) {
    const Json& field = at(name);
    if (!field.is_boolean()) refuse(name, "is neither true nor false");
    value = field.get<bool>();
  }
  /// As laterNumber.
  void laterFlag(const char* name, bool& value) {
    if (in_.contains(name)) flag(name, value);
  }
  void word(const char* name, std::string& value) {
    const Json& field = at(name);
    if (!field.is_string()) refuse(name, "is no text");
    value = field.get<std::string>();
  }
  void words(const char* name, std::vector<std::string>& values) {
    values.clear();
    for (const Json& field : array(name)) {
      if (!field.is_string()) refuse(name, "holds something that is no text");
      values.push_back(field.get<std::string>());
    }
  }
  void boards(const char* name, std::vector<BoardId>& values) {
    values.clear();
    for (const Json& field : array(name)) {
      if (!field.is_number_integer()) refuse(name, "holds something that is no whole number");
      values.push_back(BoardId{field.get<std::int64_t>()});
    }
  }
  template <class T, class Fields>
  void list(const char* name, std::vector<T>& values, Fields&& fields) {
    values.clear();
    for (const Json& field : array(name)) {
      Reader row(field, place_ + "." + name);
      values.emplace_back();
      fields(row, values.back());
      row.end();
    }
  }
  void board(const char* name, BoardId& value) {
    value.value = whole(name, 0, std::numeric_limits<std::int64_t>::max());
  }
  /// x, y, dx, dy.
  void rect(const char* name, Rect& at) {
    const Json& field = array(name);
    if (field.size() != 4) refuse(name, "is no rectangle");
    std::array<Length*, 4> into{&at.x, &at.y, &at.dx, &at.dy};
    for (std::size_t i = 0; i < into.size(); ++i) {
      if (!field[i].is_number_integer()) refuse(name, "is no rectangle");
      *into[i] = Length::nanometres(field[i].get<std::int64_t>());
    }
  }
  template <class Kind>
  void kind(const char* name, Kind& value, Kind last) {
    value = static_cast<Kind>(whole(name, 0, static_cast<std::int64_t>(last)));
  }
  template <class T, class Fields>
  void laterList(const char* name, std::vector<T>& values, Fields&& fields) {
    if (in_.contains(name)) list(name, values, fields);
  }
  void laterBoards(const char* name, std::vector<BoardId>& values) {
    if (in_.contains(name)) boards(name, values);
  }
  /// Call after the last field.
  void end() const {
    for (const auto& [name, value] : in_.items()) {
      if (!taken_.contains(name)) refuse(name, "is not known to this version");
    }
  }

 private:
  [[noreturn]] void refuse(const std::string& name, const std::string& what) const {
    const std::string place = name.empty() ? place_ : place_ + "." + name;
    throw Refusal("bad-settings", Complaint{place, "the stored setting " + what, "", ""});
  }
  const Json& at(const char* name) {
    const auto field = in_.find(name);
    if (field == in_.end()) refuse(name, "is missing");
    taken_.insert(name);
    return *field;
  }
  const Json& array(const char* name) {
    const Json& field = at(name);
    if (!field.is_array()) refuse(name, "is no list");
    return field;
  }
  std::int64_t whole(const char* name, std::int64_t least, std::int64_t most) {
    const Json& field = at(name);
    if (!field.is_number_integer()) refuse(name, "is no whole number");
    const bool tooLarge =
        field.is_number_unsigned() && field.get<std::uint64_t>() > static_cast<std::uint64_t>(most);
    if (tooLarge || field.get<std::int64_t>() < least) refuse(name, "is out of its range");
    return field.get<std::int64_t>();
  }

  const Json& in_;
  std::string place_;
  std::set<std::string> taken_;
};

constexpr auto limitFields = [](auto& walk, auto& limit) {
  walk.word("kind", limit.kind);
  walk.length("largest_nm", limit.largest);
};

constexpr auto demandFields = [](auto& walk, auto& demand) {
  walk.word("name", demand.name);
  walk.words("allowed", demand.allowed);
  walk.flag("unseen", demand.unseen);
  walk.flag("outside_good", demand.outsideGood);
  walk.laterList("limits", demand.limits, limitFields);
};

constexpr auto bandFields = [](auto& walk, auto& band) {
  walk.length("from_nm", band.from);
  walk.number("permille", band.permille, 0, 1000);
};

constexpr auto profileFields = [](auto& walk, auto& shop) {
  constexpr int mostMinutes = 24 * 60;
  walk.length("add_length_nm", shop.addLength);
  walk.length("add_width_nm", shop.addWidth);
  walk.length("add_per_face_nm", shop.addPerFace);
  walk.length("reference_edge_nm", shop.referenceEdge);
  walk.laterFlag("sawn_edge_serves", shop.sawnEdgeServes);
  walk.laterNumber("straight_grain_run_tenths", shop.straightGrain.runTenths, 10, 10'000);
  walk.length("mark_margin_nm", shop.markMargin);
  walk.length("end_trim_nm", shop.endTrim);
  walk.length("crosscut_kerf_nm", shop.crosscutKerf);
  walk.length("rip_kerf_nm", shop.ripKerf);
  walk.length("keep_length_nm", shop.keepLength);
  walk.length("keep_width_nm", shop.keepWidth);
  walk.list("keep_bands", shop.keepBands, bandFields);
  walk.laterFlag("offcuts_at_zero", shop.offcutsAtZero);
  walk.laterLength("short_length_nm", shop.shortLength);
  walk.laterLength("short_width_nm", shop.shortWidth);
  walk.money("hourly_rate_tenthousandths", shop.hourlyRate);
  walk.number("pull_minutes", shop.pullMinutes, 0, mostMinutes);
  walk.number("cut_minutes", shop.cutMinutes, 0, mostMinutes);
  walk.laterNumber("glue_minutes", shop.glueMinutes, 0, mostMinutes);
  walk.number("shortage_factor", shop.shortageFactor, 1, 1000);
  walk.length("planer_width_nm", shop.planerWidth);
  walk.length("jointer_width_nm", shop.jointerWidth);
  walk.length("jointer_shortest_nm", shop.jointerShortest);
  walk.length("planer_thinnest_nm", shop.planerThinnest);
  walk.laterLength("widest_solid_nm", shop.widestSolid);
  walk.laterLength("narrowest_stave_nm", shop.narrowestStave);
  walk.laterLength("widest_stave_nm", shop.widestStave);
  walk.laterLength("joint_stave_nm", shop.jointStave);
  walk.laterLength("glue_trim_nm", shop.glueTrim);
  walk.laterLength("narrowest_piece_nm", shop.narrowestPiece);
  walk.laterLength("thickest_solid_nm", shop.thickestSolid);
  walk.laterLength("lamina_trim_nm", shop.laminaTrim);
  walk.laterLength("resaw_kerf_nm", shop.resawKerf);
  walk.laterLength("resaw_height_nm", shop.resawHeight);
  walk.laterLength("add_sawn_face_nm", shop.addSawnFace);
  walk.list("demands", shop.demands, demandFields);
  walk.money("stop_when_below_tenthousandths", shop.stopWhenBelow);
  walk.number("stop_permille", shop.stopPermille, 0, 1000);
  walk.laterNumber("winter_tenths_celsius", shop.winter.tenthsCelsius, 0, 500);
  walk.laterNumber("winter_humidity", shop.winter.humidity, 5, 95);
  walk.laterNumber("summer_tenths_celsius", shop.summer.tenthsCelsius, 0, 500);
  walk.laterNumber("summer_humidity", shop.summer.humidity, 5, 95);
  walk.laterNumber("made_permille", shop.madePermille, 40, 200);
  walk.laterNumber("markup_permille", shop.markupPermille, 0, 1000);
};

constexpr int mostPieces = 1'000'000;

constexpr auto pieceFields = [](auto& walk, auto& piece) {
  walk.number("depth", piece.depth, 0, mostPieces);
  walk.kind("kind", piece.kind, PieceKind::unusable);
  walk.rect("at_nm", piece.at);
  walk.kind("face_up", piece.faceUp, Face::b);
  walk.kind("front_edge", piece.frontEdge, Edge::far);
  walk.number("line", piece.line, 0, mostPieces);
  walk.number("copy", piece.copy, 0, mostPieces);
};

constexpr auto layupFields = [](auto& walk, auto& layup) {
  walk.number("piece", layup.piece, 0, mostPieces);
  walk.kind("kind", layup.kind, lastLayupKind);
  walk.number("copy", layup.copy, 0, mostPieces);
  walk.number("slot", layup.slot, 0, mostPieces);
  walk.number("section", layup.section, 0, mostPieces);
  walk.flag("turned", layup.turned);
  walk.length("gives_nm", layup.gives);
};

constexpr auto lockFields = [](auto& walk, auto& lock) {
  walk.flag("by_eye", lock.byEye);
  walk.board("board", lock.cutting.board);
  walk.list("pieces", lock.cutting.pieces, pieceFields);
  walk.list("layups", lock.cutting.layups, layupFields);
};

constexpr auto laidFields = [](auto& walk, auto& laid) {
  walk.board("board", laid.board);
  walk.number("line", laid.line, 0, mostPieces);
  walk.rect("at_nm", laid.at);
  walk.kind("face_up", laid.faceUp, Face::b);
  walk.kind("front_edge", laid.frontEdge, Edge::far);
};

constexpr auto wishFields = [](auto& walk, auto& wish) {
  walk.word("words", wish.words);
  walk.boards("boards", wish.boards);
  walk.money("each_tenthousandths", wish.each);
  walk.laterFlag("by_itself", wish.byItself);
};

constexpr auto choicesFields = [](auto& walk, auto& choices) {
  walk.flag("trust_unseen", choices.trustUnseen);
  walk.boards("kept_out", choices.keptOut);
  walk.laterBoards("pins", choices.pins);
  walk.laterList("locks", choices.locks, lockFields);
  walk.laterList("laid", choices.laid, laidFields);
  walk.laterList("wishes", choices.wishes, wishFields);
};

template <class T, class Fields>
std::string written(const T& value, Fields&& fields) {
  Writer walk;
  fields(walk, value);
  return walk.out.dump();
}

template <class T, class Fields>
T readBack(const std::string& body, const char* what, Fields&& fields) {
  const Json in = Json::parse(body, nullptr, /*allow_exceptions=*/false);
  if (in.is_discarded()) {
    throw Refusal("bad-settings", Complaint{what, "the stored settings are not JSON", "", ""});
  }
  T value;
  Reader walk(in, what);
  fields(walk, value);
  walk.end();
  return value;
}

}  // namespace

std::string writeProfile(const ShopProfile& shop) { return written(shop, profileFields); }
ShopProfile readProfile(const std::string& body) {
  return readBack<ShopProfile>(body, "profile", profileFields);
}
std::string writeChoices(const Choices& choices) { return written(choices, choicesFields); }
Choices readChoices(const std::string& body) {
  return readBack<Choices>(body, "choices", choicesFields);
}

}  // namespace flitch::exchange
