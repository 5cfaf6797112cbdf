#pragma once
#include <optional>
#include <string>
#include <vector>

#include "inventory/records/board.h"

namespace flitch {

/// How a line of a tally is priced.
enum class PriceBasis { perFoot, each, perCubicMetre };

/// One line of a tally: one board, or `count` equal ones.
struct TallyLine {
  int line = 0;                ///< of the file, for messages and for marks by line
  std::optional<TagCode> tag;  ///< pre-numbered; none: the book gives the next
  int count = 1;
  std::string species;
  Nominal nominal;
  BoardKind kind = BoardKind::plank;  ///< offcut: an opening offcut without a parent
  std::array<Outline, 2> outline;
  std::optional<Length> thickness;  ///< measured at its thinnest
  Warp warp;
  std::string grade;
  PriceBasis basis = PriceBasis::perFoot;
  Money price;                 ///< per foot, each or per m³ as `basis` says
  std::optional<Feet> billed;  ///< of one board, as on the invoice; else by the counting rule
  std::optional<int> moistureTenths;
  MoistureState moistureState = MoistureState::ready;
  std::string log;
  int placeInLog = 0;
  std::string bay;
  std::array<Looked, 2> looked{Looked::no, Looked::no};
  bool keptBack = false;
  std::string note;
};

/// A load as entered, before it is received.
struct DeliveryDraft {
  std::string supplier;
  std::string reference;
  std::string receivedOn;  ///< ISO date
  CountingRule rule = CountingRule::surfaceMeasure;
  std::vector<TallyLine> lines;
};

/// The figures of one board of a line: billed and measured feet, price, and how an exact half went.
struct TallyFigures {
  Feet billed, measured;
  Money price;
  Half half = Half::none;
};

/// Figures of every board of the draft, in order (a line with count n gives n). Exact halves of a
/// surface measure go up first, then in turn. `billed` counts by the draft's rule on the mean width
/// unless the line says; an offcut counts by volume, since surface measure knows whole feet only;
/// `measured` is the wood that is there: mean face area x nominal thickness.
[[nodiscard]] std::vector<TallyFigures> figures(const DeliveryDraft& draft);

}  // namespace flitch
