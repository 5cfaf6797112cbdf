#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>

#include "inventory/records/board.h"
#include "inventory/records/refusal.h"
#include "inventory/records/setting_range.h"
#include "inventory/records/shop.h"
#include "inventory/wood/air.h"
#include "inventory/wood/writing.h"

namespace flitch {

namespace {

constexpr std::string_view commonPractice = "common practice, no source";

/// A text that may stand as a template argument, so that a setting's reader knows its own key and
/// range without a second table.
template <std::size_t size>
struct Literal {
  char letters[size]{};
  // NOLINTNEXTLINE(google-explicit-constructor): "kerf" must become a Literal by itself
  constexpr Literal(const char (&from)[size]) { std::copy_n(from, size, letters); }
  [[nodiscard]] constexpr std::string_view view() const { return {letters, size - 1}; }
};

[[noreturn]] void refuse(std::string_view key, std::string_view value, std::string_view range) {
  throw Refusal("out-of-range", Complaint{std::string(key),
                                          "\"" + std::string(value.substr(0, 60)) +
                                              "\" is not a value this setting takes",
                                          std::string(value.substr(0, 60)), std::string(range)});
}

Bare bareOf(Unit unit) { return unit == Unit::inches ? Bare::inches : Bare::millimetres; }

/// Digits only, up to 999 999.
std::optional<int> wholeNumber(std::string_view text) {
  int number = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, number);
  if (error != std::errc() || stop != end || number < 0 || number > 999'999) return std::nullopt;
  return number;
}

/// "40 %", "0.5 %", "40": thousandths.
std::optional<int> permilleOf(std::string_view text) {
  if (!text.empty() && text.back() == '%') text.remove_suffix(1);
  text = trimmed(text);
  const std::size_t point = text.find('.');
  const std::optional<int> whole = wholeNumber(text.substr(0, point));
  if (!whole) return std::nullopt;
  if (point == std::string_view::npos) return *whole * 10;
  const std::string_view tenths = text.substr(point + 1);
  const std::optional<int> tenth = wholeNumber(tenths);
  if (!tenth || tenths.size() != 1) return std::nullopt;
  return *whole * 10 + *tenth;
}

std::string permilleText(int permille) {
  std::string out = std::to_string(permille / 10);
  if (permille % 10 != 0) out += "." + std::to_string(permille % 10);
  return out + " %";
}

/// A length from `low` to `high` sixty-fourths of an inch.
template <Literal key, Literal range, auto member, std::int64_t low, std::int64_t high>
constexpr Setting length(std::string_view sentence, std::string_view source = commonPractice) {
  return {key.view(),
          sentence,
          range.view(),
          source,
          [](const ShopProfile& shop, Unit unit) { return lengthText(shop.*member, unit); },
          [](ShopProfile& shop, std::string_view value, Unit unit) {
            const Length read = parseLength(value, bareOf(unit));
            if (read < Length::sixtyFourths(low) || read > Length::sixtyFourths(high)) {
              refuse(key.view(), value, rangeIn(range.view(), unit));
            }
            shop.*member = read;
          }};
}

template <Literal key, Literal range, auto member, int low, int high>
constexpr Setting count(std::string_view sentence, std::string_view source = commonPractice) {
  return {key.view(),
          sentence,
          range.view(),
          source,
          [](const ShopProfile& shop, Unit) { return std::to_string(shop.*member); },
          [](ShopProfile& shop, std::string_view value, Unit) {
            const std::optional<int> read = wholeNumber(trimmed(value));
            if (!read || *read < low || *read > high) refuse(key.view(), value, range.view());
            shop.*member = *read;
          }};
}

/// Money from nothing to `high` units.
template <Literal key, Literal range, auto member, std::int64_t high>
constexpr Setting money(std::string_view sentence, std::string_view source = commonPractice) {
  return {key.view(),
          sentence,
          range.view(),
          source,
          [](const ShopProfile& shop, Unit) { return exactText(shop.*member); },
          [](ShopProfile& shop, std::string_view value, Unit) {
            const Money read = parseMoney(value);
            if (read > Money::units(high)) refuse(key.view(), value, range.view());
            shop.*member = read;
          }};
}

/// One of two words, the first where the member is false.
template <Literal key, Literal range, Literal no, Literal yes, auto member>
constexpr Setting either(std::string_view sentence) {
  return {key.view(),
          sentence,
          range.view(),
          commonPractice,
          [](const ShopProfile& shop, Unit) {
            return std::string(shop.*member ? yes.view() : no.view());
          },
          [](ShopProfile& shop, std::string_view value, Unit) {
            const std::string written = plain(value);
            if (written != no.view() && written != yes.view()) {
              refuse(key.view(), value, range.view());
            }
            shop.*member = written == yes.view();
          }};
}

constexpr std::string_view bandsRange =
    "LENGTH: 0 to 100 %, separated by semicolons; lengths rise and shares do not fall";

std::string bandsText(const ShopProfile& shop, Unit unit) {
  std::string out;
  for (const KeepBand& band : shop.keepBands) {
    if (!out.empty()) out += "; ";
    out += lengthText(band.from, unit) + ": " + permilleText(band.permille);
  }
  return out.empty() ? "none" : out;
}

void setBands(ShopProfile& shop, std::string_view value, Unit unit) {
  std::vector<KeepBand> bands;
  if (trimmed(value) != "none") {
    for (const std::string_view part : divided(value, ';')) {
      const std::vector<std::string_view> halves = divided(part, ':');
      if (halves.size() != 2) refuse("offcut-worth", value, bandsRange);
      const Length from = parseLength(halves[0], bareOf(unit));
      const std::optional<int> permille = permilleOf(halves[1]);
      if (!permille || *permille > 1000) refuse("offcut-worth", value, bandsRange);
      // A longer offcut can be shortened, so it is never worth a smaller share.
      const bool rising =
          bands.empty() || (bands.back().from < from && bands.back().permille <= *permille);
      if (!rising) refuse("offcut-worth", value, bandsRange);
      bands.push_back({from, *permille});
    }
  }
  shop.keepBands = std::move(bands);
}

constexpr std::string_view shareRange = "0 to 50 %";

std::string stopShareText(const ShopProfile& shop, Unit) { return permilleText(shop.stopPermille); }

void setStopShare(ShopProfile& shop, std::string_view value, Unit) {
  const std::optional<int> permille = permilleOf(trimmed(value));
  if (!permille || *permille > 500) refuse("stop-share", value, shareRange);
  shop.stopPermille = *permille;
}

constexpr std::string_view demandRange = "kinds of mark separated by commas, or none";

/// A kind of mark that a demand may allow; throws Refusal naming those there are.
std::string knownKind(std::string_view key, std::string_view asWritten) {
  std::string kind = plain(asWritten);
  std::string names;
  for (const DefectKind& known : startingDefectKinds()) {
    if (known.name == "good" || known.name == "show") continue;
    if (known.name == kind) return kind;
    names += (names.empty() ? "" : ", ") + known.name;
  }
  throw Refusal("unknown-kind",
                Complaint{std::string(key), inBackticks(asWritten) + " is not a kind of mark",
                          shortened(asWritten), names + "; or none"});
}

/// The kinds of mark that may lie on a face or edge of the demand `row`.
template <Literal key, Literal row>
constexpr Setting demand(std::string_view sentence) {
  return {key.view(),
          sentence,
          demandRange,
          commonPractice,
          [](const ShopProfile& shop, Unit) {
            const Demand* found = findDemand(shop, row.view());
            std::string out;
            if (found != nullptr) {
              for (const std::string& kind : found->allowed)
                out += (out.empty() ? "" : ", ") + kind;
            }
            return out.empty() ? std::string("none") : out;
          },
          [](ShopProfile& shop, std::string_view value, Unit) {
            const auto at = std::find_if(shop.demands.begin(), shop.demands.end(),
                                         [](const Demand& d) { return d.name == row.view(); });
            if (at == shop.demands.end()) refuse(key.view(), value, "a demand of the table");
            std::vector<std::string> allowed;
            if (trimmed(value) != "none") {
              for (const std::string_view kind : divided(value, ',')) {
                if (kind.empty()) refuse(key.view(), value, demandRange);
                allowed.push_back(knownKind(key.view(), kind));
              }
            }
            at->allowed = std::move(allowed);
            std::erase_if(at->limits, [&](const MarkLimit& limit) {
              return std::find(at->allowed.begin(), at->allowed.end(), limit.kind) ==
                     at->allowed.end();
            });
          }};
}

constexpr std::string_view markupRange = "0 to 100 %";

std::string markupText(const ShopProfile& shop, Unit) { return permilleText(shop.markupPermille); }

void setMarkup(ShopProfile& shop, std::string_view value, Unit) {
  const std::optional<int> permille = permilleOf(trimmed(value));
  if (!permille || *permille > 1000) refuse("markup", value, markupRange);
  shop.markupPermille = *permille;
}

constexpr std::string_view slopeRange = "1 in 1 to 1 in 1000";

std::string slopeText(const ShopProfile& shop, Unit) { return text(shop.straightGrain); }

void setSlope(ShopProfile& shop, std::string_view value, Unit) {
  const GrainSlope slope = parseGrainSlope(value);
  if (slope == GrainSlope{}) refuse("straight-grain", value, slopeRange);
  shop.straightGrain = slope;
}

constexpr std::string_view madeRange = "4 to 20 %";

std::string madeText(const ShopProfile& shop, Unit) { return permilleText(shop.madePermille); }

void setMade(ShopProfile& shop, std::string_view value, Unit) {
  const std::optional<int> permille = permilleOf(trimmed(value));
  if (!permille || *permille < 40 || *permille > 200) refuse("made-moisture", value, madeRange);
  shop.madePermille = *permille;
}

/// The air of a season: a temperature people live in, and a humidity of the printed table.
template <Literal key, auto member>
constexpr Setting air(std::string_view sentence) {
  return {key.view(),
          sentence,
          "32 to 122 F (0 to 50 C), 5 to 95 % humidity: 70 F 30 %",
          "common practice, no source; measure your own rooms",
          [](const ShopProfile& shop, Unit unit) { return airText((shop.*member).air(), unit); },
          [](ShopProfile& shop, std::string_view value, Unit unit) {
            const Air read = parseAir(value, unit);
            const SeasonAir kept{static_cast<int>(std::lround(read.celsius * 10)),
                                 static_cast<int>(std::lround(read.humidity))};
            const bool lived = kept.tenthsCelsius >= 0 && kept.tenthsCelsius <= 500 &&
                               kept.humidity >= 5 && kept.humidity <= 95;
            if (!lived) refuse(key.view(), value, findSetting(key.view())->range);
            shop.*member = kept;
          }};
}

constexpr std::string_view safetySheet =
    "common practice, no source; check your machine's manual and local rules";

constexpr auto settingTable = std::to_array<Setting>({
    length<"add-length", "0 to 6 in", &ShopProfile::addLength, 0, 384>(
        "Added to a finished length: both ends are squared later."),
    length<"add-width", "0 to 2 in", &ShopProfile::addWidth, 0, 128>(
        "Added to a finished width: jointing and the final rip."),
    length<"add-per-face", "0 to 1/4 in", &ShopProfile::addPerFace, 0, 16>(
        "Clean-up taken off each face."),
    length<"reference-edge", "0 to 1 in", &ShopProfile::referenceEdge, 0, 64>(
        "Taken off the near edge to make it straight before any rip."),
    either<"sawn-edge", "serves or made again", "made again", "serves",
           &ShopProfile::sawnEdgeServes>(
        "Whether the ripped near edge of an offcut serves as its reference edge."),
    Setting{"straight-grain",
            "Steepest grain of a part that must be straight: legs, rails, runners.", slopeRange,
            commonPractice, slopeText, setSlope},
    length<"mark-margin", "0 to 2 in", &ShopProfile::markMargin, 0, 128>(
        "Kept clear round every mark that a face may not show."),
    length<"end-trim", "0 to 6 in", &ShopProfile::endTrim, 0, 384>(
        "Off each end of a board as bought; an end our own saw made needs none."),
    length<"crosscut-kerf", "1/64 to 1/2 in", &ShopProfile::crosscutKerf, 1, 32>(
        "Wood a crosscut turns to dust."),
    length<"rip-kerf", "1/64 to 1/2 in", &ShopProfile::ripKerf, 1, 32>("Wood a rip turns to dust."),
    length<"offcut-length", "1 to 120 in", &ShopProfile::keepLength, 64, 7680>(
        "Shortest offcut worth a tag."),
    length<"offcut-width", "1/2 to 24 in", &ShopProfile::keepWidth, 32, 1536>(
        "Narrowest offcut worth a tag."),
    Setting{"offcut-worth",
            "Share of its part of the board's cost that an offcut keeps, by its length.",
            bandsRange, commonPractice, bandsText, setBands},
    either<"joint-cost", "book value or zero", "book value", "zero", &ShopProfile::offcutsAtZero>(
        "What offcuts carry of their board's cost: book value, by offcut-worth, or zero."),
    length<"short-length", "1 to 60 in", &ShopProfile::shortLength, 64, 3840>(
        "Shortest untagged short worth a bin."),
    length<"short-width", "1/2 to 12 in", &ShopProfile::shortWidth, 32, 768>(
        "Narrowest untagged short worth a bin."),
    money<"hourly-rate", "0 to 1000", &ShopProfile::hourlyRate, 1000>(
        "What an hour of the shop costs."),
    Setting{"markup", "Added to the materials of an estimate.", markupRange, commonPractice,
            markupText, setMarkup},
    count<"pull-minutes", "0 to 120", &ShopProfile::pullMinutes, 0, 120>(
        "Minutes to find a board and bring it to the saw."),
    count<"cut-minutes", "0 to 60", &ShopProfile::cutMinutes, 0, 60>("Minutes a cut takes."),
    count<"glue-minutes", "0 to 60", &ShopProfile::glueMinutes, 0, 60>(
        "Minutes to joint, glue and clamp a stave or a lamina."),
    count<"shortage-factor", "1 to 100", &ShopProfile::shortageFactor, 1, 100>(
        "A missing blank costs its wood at the dearest foot, times this."),
    length<"planer-width", "4 to 60 in", &ShopProfile::planerWidth, 256, 3840>(
        "Widest piece the planer takes."),
    length<"planer-thinnest", "1/16 to 2 in", &ShopProfile::planerThinnest, 4, 128>(
        "Thinnest piece the planer takes: published minima run from 1/4 to 1/2 in.", safetySheet),
    length<"jointer-width", "3 to 60 in", &ShopProfile::jointerWidth, 192, 3840>(
        "Widest piece the jointer takes."),
    length<"jointer-shortest", "8 to 36 in", &ShopProfile::jointerShortest, 512, 2304>(
        "Shortest piece run over the jointer.", safetySheet),
    length<"widest-solid", "1 to 24 in", &ShopProfile::widestSolid, 64, 1536>(
        "A wider part is glued from staves where its recipe is left empty."),
    length<"narrowest-stave", "1 to 12 in", &ShopProfile::narrowestStave, 64, 768>(
        "Narrowest stave of a glued panel, as sawn, where the part does not say."),
    length<"widest-stave", "1 to 24 in", &ShopProfile::widestStave, 64, 1536>(
        "Widest stave of a glued panel, as sawn, where the part does not say."),
    length<"joint-stave", "1/64 to 1/2 in", &ShopProfile::jointStave, 1, 32>(
        "Off the width of a stave to joint both its edges before gluing."),
    length<"glue-trim", "0 to 1 in", &ShopProfile::glueTrim, 0, 64>(
        "Off the width of a panel once it is glued."),
    length<"narrowest-piece", "1/4 to 6 in", &ShopProfile::narrowestPiece, 16, 384>(
        "Narrowest blank milled alone; narrower parts are ganged side by side.", safetySheet),
    length<"thickest-solid", "1/2 to 16 in", &ShopProfile::thickestSolid, 32, 1024>(
        "A thicker part may be laminated where its recipe is left empty."),
    length<"lamina-trim", "0 to 1 in", &ShopProfile::laminaTrim, 0, 64>(
        "Off the width of a laminated part once it is glued."),
    length<"resaw-kerf", "1/64 to 1/2 in", &ShopProfile::resawKerf, 1, 32>(
        "Wood the band saw turns to dust where a blank is resawn."),
    length<"resaw-height", "1 to 24 in", &ShopProfile::resawHeight, 64, 1536>(
        "Widest blank the band saw resaws.", safetySheet),
    length<"add-sawn-face", "0 to 1/2 in", &ShopProfile::addSawnFace, 0, 32>(
        "Clean-up taken off each resawn face."),
    money<"stop-below", "0 to 10000", &ShopProfile::stopWhenBelow, 10'000>(
        "A plan stops by itself when no more than this can be saved, or less than stop-share."),
    Setting{"stop-share", "The share of its cost below which a plan stops by itself.", shareRange,
            commonPractice, stopShareText, setStopShare},
    air<"winter-air", &ShopProfile::winter>(
        "Air of the rooms that pieces live in, at the driest of the year."),
    air<"summer-air", &ShopProfile::summer>(
        "Air of the rooms that pieces live in, at the wettest of the year."),
    Setting{"made-moisture", "Moisture that wood is made up at.", madeRange,
            "6 to 8 % for furniture: a moisture meter maker's help page", madeText, setMade},
    demand<"demand-hidden", "hidden">("Marks a hidden face or edge may carry."),
    demand<"demand-sound", "sound">("Marks a sound face or edge may carry."),
    demand<"demand-clear", "clear">("Marks a clear face or edge may carry."),
    demand<"demand-heart-only", "heart only">("Marks a heart-only face or edge may carry."),
});

}  // namespace

std::span<const Setting> settings() { return settingTable; }

const Setting* findSetting(std::string_view key) {
  const auto at = std::find_if(settingTable.begin(), settingTable.end(),
                               [&](const Setting& s) { return s.key == key; });
  return at == settingTable.end() ? nullptr : &*at;
}

}  // namespace flitch
