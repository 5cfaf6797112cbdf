#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/wood/length.h"
#include "inventory/wood/measure.h"
#include "inventory/wood/moisture.h"

namespace flitch::cli {

/// Pages go to one PDF, to a folder of PNGs, or to both.
struct PaperTo {
  std::string pdf;
  std::string pngFolder;
  [[nodiscard]] bool any() const { return !pdf.empty() || !pngFolder.empty(); }
};
struct LabelsTo {
  PaperTo paper;
  std::string stock = "roll-100x50";
  int startAt = 1;  ///< first free label of the first sheet
  int copies = 1;
  std::string printer;  ///< whose alignment is taken; empty: none
};

struct BookCreate {
  std::string name;
  Unit unit = Unit::inches;
  std::string currency = "$";
  CountingRule rule = CountingRule::surfaceMeasure;
};
struct BookCheck {};
struct BookInfo {};
struct Receive {
  std::string tally, supplier, reference, invoice;
  std::string on;                    ///< ISO date, empty: today
  std::optional<CountingRule> rule;  ///< none: the book's
};
/// Either a file, or quick marks and looked-at states of one board.
struct Mark {
  std::string file;
  std::string board;
  std::string marks;    ///< `12-17, 60-end, good 14-78`
  std::string lookedA;  ///< no, rough, planed, or empty: as it is
  std::string lookedB;
};
struct Rack {
  std::string words;
  std::string csv;
  bool grade = false;         ///< say what grade each looks like
  bool shortOfGrade = false;  ///< those alone that look like less than was paid
  std::string lost;           ///< size of a board found without its tag: "10' x 7 1/2"
};
/// Boards as named or scanned: tags, and a file of codes ("-": standard input).
struct Codes {
  std::vector<std::string> tags;
  std::string file;
};
/// One thing done to boards on the rack.
struct BoardWork {
  enum class What { move, note, keepBack, letGo, reading, retire, newTag, measure };
  Codes boards;
  What what = What::move;
  std::string bay, note, moisture, on, reason, tag;
  MoistureState state = MoistureState::ready;
  /// Of a board measured again, by the column of a tally: thickness, outline_a, bow, ...; the rest
  /// stays.
  std::map<std::string, std::string> measured;
};
struct Return {
  std::string tag, reason, expect;
  std::string credit;  ///< empty: the board goes back now
  std::string on;
};
struct Count {
  std::string bay;
  Codes codes;
  int untagged = 0;
  bool look = false;  ///< say what is missing, post nothing
};
struct JobAdd {
  std::string name, parts, customer;
  std::string sizeFile;
  std::vector<std::string> sizes;  ///< `width=24`
  int times = 1;
};
/// Other parts for a job, or other named sizes.
struct JobChange {
  std::string name, parts;
  std::vector<std::string> sizes;
};
/// A copy under another name: times so many, some sizes other.
struct JobCopy {
  std::string from, name, customer;
  std::vector<std::string> sizes;
  int times = 1;
};
/// The shop's demand table; with a file it is set anew.
struct Demands {
  std::string file, csv;
};
struct JobList {};
struct JobShow {
  std::string name;
};
/// Board feet kept for a job before its boards are chosen; 0: no more.
struct JobAside {
  std::string name, species, nominal, feet;
};
/// What stock costs to buy again; with a file rows are added.
struct Price {
  std::string file, on, csv;
};
/// What a job costs beside its lumber; with a file all of it is set anew.
struct JobLines {
  std::string job, file, csv;
};
/// What to buy for a job: what its plan lacks, what of an offer, or which grade.
struct JobBuy {
  std::string job, offer, on;
  bool grades = false;
  double seconds = 5;  ///< of each plan
};
/// What a board is good for, or which boards give a piece.
struct Fit {
  std::string tag;
  std::string size, species, faceA = "clear", faceB = "sound", edges = "sound";
};
struct JobEstimate {
  std::string job, on, csv;
  PaperTo paper;
};
struct JobQuote {
  std::string job, title, words, terms, price, on, validUntil;
  bool again = false;
  PaperTo paper;
};
struct Plan {
  std::string job;
  double seconds = 10;
  std::int64_t seed = 1;
  std::uint64_t effort = 0;  ///< counted work, 0: no limit
  bool trustUnseen = false;
  bool reserve = false;
  std::vector<std::string> pins, keepOut, locks, lay, prefer;  ///< as desk::Settled reads them
  bool beside = false;  ///< show the two newest plans, make none
  std::string curves;   ///< file for cost and bound over time
  PaperTo paper;
};
struct Tag {
  std::vector<std::string> tags;
  bool all = false;
  bool newest = false;            ///< boards of the newest delivery
  int blank = 0;                  ///< so many blank tags
  int tally = 0;                  ///< a tally sheet of so many tags that hang on no board yet
  std::string job;                ///< part labels of its newest plan
  std::vector<std::string> bays;  ///< tags of bays
  LabelsTo labels;
};
struct Scan {
  std::vector<std::string> pictures;
};
/// What happened at the saw or after it.
enum class SawVerb {
  asPlanned,
  otherwise,  ///< one board, not as planned
  knot,       ///< a mark found at the saw
  replan,     ///< what is left of the job planned again
  spoiled,    ///< parts came to nothing
  usedUp      ///< a board, without a plan
};
struct Saw {
  SawVerb verb = SawVerb::asPlanned;
  std::vector<std::string> tags;
  std::string job;
  std::vector<std::string> lost;      ///< hand marks
  std::vector<std::string> cutShort;  ///< "C2 31 1/2"
  std::vector<std::string> offcuts;   ///< "30 x 4", or "none"
  std::string otherwise;              ///< what a maker pencils beside a board: "B3 lost, keep 14"
  bool bin = false;                   ///< shorts go to the bin of their species
  std::string instead;                ///< tag of the board that was sawn
  std::string knot;                   ///< marks as `flitch mark --at` takes them
  double seconds = 0.9;               ///< for planning again
  std::string left;                   ///< length of a board used up that goes back to the rack
  std::string why;
  LabelsTo labels;
};
/// Boards to fetch for a job, with those scanned ticked off.
struct Pull {
  std::string job;
  std::vector<std::string> scanned;  ///< codes; "-": a line each from standard input
  bool afresh = false;               ///< forget what was ticked off before
  std::string csv;
  PaperTo paper;
};
/// A job's cuts by station.
struct WorkList {
  std::string job;
  std::string csv;
  PaperTo paper;
};
enum class Report {
  waste,
  offcuts,
  stock,
  entries,
  yield,
  clear,
  actual,
  learned,
  kept,
  old,
  family,
  passport,
  returns,
  claim
};
struct Ledger {
  Report report = Report::waste;
  std::string job;
  std::string by = "job";          ///< yield, actual: what the rows are
  std::string on;                  ///< a day, empty: today
  int months = 12;                 ///< old: least age
  std::vector<std::string> names;  ///< family: a tag; passport: a job and a hand mark
  int delivery = 0;                ///< of the claim, 0: the newest
  std::string wetAbove;            ///< of the claim, empty: the usual
  std::string csv;
  PaperTo paper;
};
/// Label stocks and printers: shown, or one of either set.
struct Paper {
  std::string stock, page, label, first, step, care;  ///< sizes as written: "70x37 mm"
  int columns = 1, rows = 1;
  std::string printer;
  double right = 0, down = 0;     ///< mm
  double wide = 100, high = 100;  ///< percent
};
/// Photos of boards: taken in from files or a folder, placed, or listed.
struct Photos {
  enum class What { take, watch, place, list };
  What what = What::take;
  std::vector<std::string> files;
  std::string board;    ///< by its tag; empty: the one whose tag is seen
  std::string face;     ///< "A", "B" or empty
  std::string on;       ///< ISO date, empty: today
  std::string folder;   ///< watched
  bool once = false;    ///< take what lies there, then end
  int number = 0;       ///< of the photo placed
  std::string corners;  ///< "x,y x,y x,y x,y", pixels
  std::string save;     ///< folder for the pictures listed
};
struct Undo {};
/// Bins of untagged shorts: shown, one made, or something done with one.
struct Bins {
  std::string name, species, note;
  std::string put, used, thrown, holds;  ///< board feet as written
  std::string job, why;
};
/// Temperatures and airs as written: a bare figure is read in the book's unit.
struct WoodAir {
  std::string temperature;
  double humidity = 50;
};
struct WoodMove {
  std::string species, width;
  Sawn sawn = Sawn::flat;
  Fixing fixing = Fixing::centre;
  std::optional<double> made, driest, wettest;  ///< none: as the shop's settings say
};
/// Either a board by its tag, or sizes.
struct WoodWeight {
  std::string board;
  std::string species, thickness, width, length;
  std::optional<double> moisture;  ///< none: the board's newest reading, else 12 %
};
struct WoodMeasure {
  std::string nominal, width, length;
  std::string otherWidth;  ///< at the other end of a tapering board, or empty
};
struct WoodReady {
  std::string board;
  std::string winter, summer;  ///< empty: as the shop's settings say
};
struct WoodGrade {
  std::string board;
};
struct WoodSpecies {
  std::string name;  ///< empty: all
};
struct WoodSpeciesAdd {
  std::string name, botanical, source;
  std::map<std::string, std::string> figures;  ///< by key of figureKinds(), as written
};
struct Shop {
  std::string key, value;  ///< no value: show that setting; no key either: show all
};

using Command =
    std::variant<BookCreate, BookCheck, BookInfo, Receive, Mark, Rack, BoardWork, Return, Count,
                 JobAdd, JobList, JobShow, JobAside, JobChange, JobCopy, JobLines, JobEstimate,
                 JobQuote, JobBuy, Price, Demands, Fit, Plan, Tag, Scan, Saw, Pull, WorkList,
                 Ledger, Paper, Photos, Undo, Bins, WoodAir, WoodMove, WoodWeight, WoodMeasure,
                 WoodReady, WoodGrade, WoodSpecies, WoodSpeciesAdd, Shop>;

struct Options {
  std::string book;  ///< empty for `scan` alone
  std::string hand;  ///< who does it, for the journal
  bool json = false;
  bool sure = false;    ///< take tag numbers written without their check character
  std::string command;  ///< as typed: "book create"
  Command what;
};

/// Nothing to run: help or version (exit code 0, for stdout) or wrong usage (2, for stderr).
struct Said {
  std::string text;
  int exitCode = 0;
};

/// "flitch 0.1.0".
[[nodiscard]] std::string programName();

/// Reads the arguments behind the program's name. Never throws for what a user typed.
[[nodiscard]] std::variant<Options, Said> parse(const std::vector<std::string>& arguments);

/// True when the command paints pages and needs Qt's Gui.
[[nodiscard]] bool paints(const Command& command);

/// All commands as typed, for tests that try each.
[[nodiscard]] const std::vector<std::string>& commandNames();

}  // namespace flitch::cli
