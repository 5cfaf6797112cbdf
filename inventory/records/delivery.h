#pragma once
#include <optional>
#include <string>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/invoice.h"
#include "inventory/records/table.h"

namespace flitch {

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
  std::optional<GrainSlope> grain{};  ///< none: not looked at
  std::string grade;
  PriceBasis basis = PriceBasis::perFoot;
  Money price;      ///< of one foot, board, m³, running foot or lot as `basis` says
  std::string lot;  ///< lines of one lot share its price; empty: this line is the lot
  /// Lines of one word came as one board, cut for the van: counted and billed as one, its figures
  /// shared by their wood. Price and billed feet are those of its first line.
  std::string cutFrom;
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
  std::vector<InvoiceLine> extras;
  std::vector<InvoiceClaim> claims;
};

/// The figures of one board of a line: billed and measured feet, price, landed cost (price and its
/// shares of the invoice's other lines), and how an exact half went.
struct TallyFigures {
  std::size_t line = 0;  ///< index into the draft's lines
  Feet billed, measured;
  Money price, landed;
  Half half = Half::none;
  std::optional<std::size_t> billedWith;  ///< the first board of those that share its price
};

/// Figures of every board of the draft, in order (a line with count n gives n). Exact halves of a
/// count go up first, then in turn. `billed` counts by the draft's rule on the mean width unless
/// the line says; an offcut counts by volume, since surface measure knows whole feet only;
/// `measured` is the wood that is there: mean face area x nominal thickness. Boards cut from one
/// are counted at their joined length. Prices of boards cut from one are shared by wood, those of a
/// lot by billed feet, both by split(): landed costs add up to the invoice to the last unit. Throws
/// Refusal when a discount takes more off a board than it cost.
[[nodiscard]] std::vector<TallyFigures> figures(const DeliveryDraft& draft);

/// What the invoice asks in all: its boards and its other lines.
[[nodiscard]] Money invoiceTotal(const std::vector<TallyFigures>& figures);

/// The tally beside what the invoice claims, a row per species and thickness in the order of the
/// tally, then those the invoice alone knows: boards, feet and money as counted, as claimed, and
/// the claim less the count; last the invoice's other lines. What is over in all is that of the
/// kinds claimed, or of a claim for the whole load, if there is one.
[[nodiscard]] Table againstInvoice(const DeliveryDraft& draft,
                                   const std::vector<TallyFigures>& figures);

}  // namespace flitch
