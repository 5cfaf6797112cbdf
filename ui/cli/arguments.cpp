#include "ui/cli/arguments.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>
#include <memory>

#include "inventory/desk/saw_paper.h"
#include "inventory/exchange/columns.h"
#include "ui/cli/paper_arguments.h"
#include "ui/cli/price_arguments.h"
#include "ui/cli/wood_arguments.h"

namespace flitch::cli {

namespace {

const char* const exitCodes =
    "Exit codes: 0 done; 1 could not be done (the reason is on stderr, the book is as it was);\n"
    "2 wrong usage; 3 done, but parts are short or wait. --book, --hand, --json and --sure may\n"
    "stand before or after any command.";

const std::map<std::string, Unit> unitWords{{"inches", Unit::inches},
                                            {"millimetres", Unit::millimetres}};
const std::map<std::string, CountingRule> ruleWords{{"surface", CountingRule::surfaceMeasure},
                                                    {"volume", CountingRule::volume},
                                                    {"tenths", CountingRule::volumeTenths},
                                                    {"half-inch", CountingRule::halfInch},
                                                    {"gross-green", CountingRule::grossGreen}};
const std::map<std::string, Report> reportWords{
    {"waste", Report::waste},     {"offcuts", Report::offcuts},   {"stock", Report::stock},
    {"entries", Report::entries}, {"yield", Report::yield},       {"clear", Report::clear},
    {"actual", Report::actual},   {"kept", Report::kept},         {"old", Report::old},
    {"family", Report::family},   {"passport", Report::passport}, {"returns", Report::returns},
    {"claim", Report::claim},     {"learned", Report::learned}};

const std::map<std::string, MoistureState> stateWords{{"wet", MoistureState::wet},
                                                      {"resting", MoistureState::resting},
                                                      {"ready", MoistureState::ready}};

/// The options of the program: a member for each argument, filled while CLI11 parses.
class Reader {
 public:
  Reader() {
    app_.require_subcommand(1);
    app_.fallthrough();
    app_.set_help_flag("-h,--help", "Show this help");
    app_.set_version_flag("--version", programName());
    app_.footer(exitCodes);
    app_.add_option("--book", options_.book, "The shop's book (else the variable FLITCH_BOOK)")
        ->envname("FLITCH_BOOK")
        ->type_name("FILE");
    app_.add_option("--hand", options_.hand, "Who does it, for the journal (else the login name)")
        ->envname("FLITCH_HAND")
        ->type_name("NAME");
    app_.add_flag("--json", options_.json, "Print one JSON document");
    app_.add_flag("--sure", options_.sure,
                  "Take tag numbers written without their check character");
    addBook();
    addReceive();
    addMark();
    addRack();
    addBoard();
    addReturn();
    addCount();
    addJob();
    prices_.addPrice(app_, adding());
    prices_.addDemand(app_, adding());
    prices_.addFit(app_, adding());
    addPlan();
    addTag();
    addScan();
    addSaw();
    addBin();
    addLedger();
    addPaperCommand();
    addPhoto();
    addUndo();
    addWood();
    addShop();
  }

  std::variant<Options, Said> read(const std::vector<std::string>& arguments) {
    std::vector<std::string> backwards(arguments.rbegin(), arguments.rend());
    try {
      app_.parse(backwards);
      for (const auto& [sub, command] : commands_) {
        if (!sub->parsed()) continue;
        options_.command = nameOf(sub);
        options_.what = command();
      }
      if (options_.book.empty() && !std::holds_alternative<Scan>(options_.what)) {
        throw WrongUse{"no book is named. Accepted: --book FILE, or the variable FLITCH_BOOK"};
      }
      return options_;
    } catch (const CLI::CallForHelp&) {
      return Said{app_.help(), 0};
    } catch (const CLI::CallForVersion&) {
      return Said{programName() + "\n", 0};
    } catch (const CLI::RequiredError& error) {
      const CLI::App& at = innermost();
      return wrong(at.get_subcommands({}).empty() ? error.what() : whichCommand(at));
    } catch (const CLI::ParseError& error) {
      return wrong(error.what());
    } catch (const WrongUse& error) {
      return wrong(error.sentence);
    }
  }

 private:
  [[nodiscard]] std::string nameOf(const CLI::App* sub) const {
    return sub->get_parent() == &app_ ? sub->get_name()
                                      : nameOf(sub->get_parent()) + " " + sub->get_name();
  }

  /// The command that was named last.
  [[nodiscard]] const CLI::App& innermost() const {
    const CLI::App* at = &app_;
    while (!at->get_subcommands().empty()) at = at->get_subcommands().back();
    return *at;
  }

  /// What to say where a command is missing, or is none that there is.
  [[nodiscard]] std::string whichCommand(const CLI::App& at) const {
    std::string names;
    for (const CLI::App* command : at.get_subcommands([](const CLI::App*) { return true; })) {
      names += (names.empty() ? "" : ", ") + command->get_name();
    }
    const std::vector<std::string> left = app_.remaining(true);
    return (left.empty() ? std::string("a command is missing")
                         : "there is no command " + left.front()) +
           ". Accepted: " + names;
  }

  [[nodiscard]] Said wrong(std::string sentence) const {
    const std::string name = &innermost() == &app_ ? "flitch" : "flitch " + nameOf(&innermost());
    std::replace(sentence.begin(), sentence.end(), '\n', ' ');
    return {name + ": " + sentence + ". See " + name + " --help\n", 2};
  }

  CLI::App* add(CLI::App& parent, const std::string& name, const std::string& text, Build build) {
    CLI::App* sub = parent.add_subcommand(name, text);
    sub->footer(exitCodes);
    commands_.emplace_back(sub, std::move(build));
    return sub;
  }

  /// add() for argument classes of their own.
  [[nodiscard]] AddCommand adding() {
    return [this](CLI::App& parent, const std::string& name, const std::string& text, Build build) {
      return add(parent, name, text, std::move(build));
    };
  }

  static void addLabels(CLI::App* sub, LabelsTo& labels) {
    addPaper(sub, labels.paper);
    sub->add_option("--stock", labels.stock, "Label stock, by name")
        ->type_name("NAME")
        ->capture_default_str();
    sub->add_option("--start-at", labels.startAt, "First free label of the first sheet")
        ->check(CLI::Range(1, 1000))
        ->type_name("N")
        ->capture_default_str();
    sub->add_option("--copies", labels.copies, "So many of each")
        ->check(CLI::Range(1, 100))
        ->type_name("N")
        ->capture_default_str();
    sub->add_option("--printer", labels.printer, "Lay the ink as this printer needs it")
        ->type_name("NAME");
  }

  void addBook() {
    CLI::App* book = app_.add_subcommand("book", "Make, prove or describe a book");
    book->require_subcommand(1);
    book->footer(exitCodes);
    auto* create = add(*book, "create", "Make a new, empty book at --book FILE", [this] {
      create_.unit = unitWords.at(unit_);
      create_.rule = ruleWords.at(createRule_);
      return create_;
    });
    create->add_option("--name", create_.name, "The shop's name")->type_name("NAME");
    create->add_option("--unit", unit_, "Unit the book is kept in")
        ->check(CLI::IsMember(wordsOf(unitWords)))
        ->capture_default_str();
    create->add_option("--currency", create_.currency, "Currency sign")
        ->type_name("SIGN")
        ->capture_default_str();
    create
        ->add_option("--rule", createRule_, "How suppliers count board feet, unless said otherwise")
        ->check(CLI::IsMember(wordsOf(ruleWords)))
        ->capture_default_str();
    add(*book, "check", "Prove the book again: every account, every cut",
        [] { return BookCheck{}; });
    add(*book, "info", "Name, unit, schema, boards, jobs, newest entry", [] { return BookInfo{}; });
  }

  void addReceive() {
    auto* sub = add(app_, "receive", "Take a delivery in from its tally", [this] {
      if (!receiveRule_.empty()) receive_.rule = ruleWords.at(receiveRule_);
      return receive_;
    });
    sub->add_option("tally", receive_.tally, "CSV file with a head row")
        ->required()
        ->type_name("TALLY.csv");
    sub->add_option("--supplier", receive_.supplier, "Who delivered")
        ->required()
        ->type_name("NAME");
    sub->add_option("--ref", receive_.reference, "Their paper's number")->type_name("TEXT");
    sub->add_option("--on", receive_.on, "Day it came, 2026-05-31 (else today)")->type_name("DATE");
    sub->add_option("--rule", receiveRule_,
                    "How they count board feet (else as last time, else as the book says)")
        ->check(CLI::IsMember(wordsOf(ruleWords)));
    sub->add_option("--invoice", receive_.invoice,
                    "CSV file: freight, tax, discount, and what the invoice claims")
        ->type_name("INVOICE.csv");
    sub->footer(columnHelp("Columns of a tally, in any order:", exchange::tallyColumns()) + "\n\n" +
                columnHelp("Columns of an invoice, in any order:", exchange::invoiceColumns()) +
                "\n\n" + exitCodes);
  }

  void addMark() {
    auto* sub = add(app_, "mark", "Add marks from a file, or to one board", [this] {
      if (mark_.file.empty() == mark_.board.empty()) {
        throw WrongUse{"give a file of marks, or one board with --board TAG"};
      }
      if (!mark_.board.empty() && mark_.marks.empty() && mark_.lookedA.empty() &&
          mark_.lookedB.empty()) {
        throw WrongUse{"say what is found: --at '12-17, good 14-78', --looked-a or --looked-b"};
      }
      return mark_;
    });
    sub->add_option("marks", mark_.file, "CSV file with a head row")->type_name("MARKS.csv");
    auto* board =
        sub->add_option("--board", mark_.board, "One board, by its tag")->type_name("TAG");
    sub->add_option("--at", mark_.marks, "Quick marks: 12-17, 60-end, K 12-17, good 14-78")
        ->needs(board)
        ->type_name("MARKS");
    const std::vector<std::string> looked{"no", "rough", "planed"};
    sub->add_option("--looked-a", mark_.lookedA, "Face A was looked at")
        ->needs(board)
        ->check(CLI::IsMember(looked));
    sub->add_option("--looked-b", mark_.lookedB, "Face B was looked at")
        ->needs(board)
        ->check(CLI::IsMember(looked));
    sub->footer(columnHelp("Columns of a file of marks, in any order:", exchange::markColumns()) +
                "\n\n" + exitCodes);
  }

  void addRack() {
    auto* sub = add(app_, "rack", "Show the stock on hand", [this] {
      for (const auto& word : words_) rack_.words += (rack_.words.empty() ? "" : " ") + word;
      return rack_;
    });
    sub->add_option("words", words_, "Words in any order: cherry 4/4 \">8'\" b3 free")
        ->type_name("WORDS");
    sub->add_option("--csv", rack_.csv, "Write the rows to this file")->type_name("FILE");
    sub->add_flag("--grade", rack_.grade,
                  "Say what grade each looks like: an estimate, an inspector decides");
    sub->add_flag("--short-of-grade", rack_.shortOfGrade,
                  "Those alone that look like less than the grade paid, and the money at stake")
        ->excludes("--grade");
    sub->add_option("--lost", rack_.lost,
                    "Which board is this, found without its tag? Its length and width, as measured")
        ->type_name("\"10' x 7 1/2\"")
        ->excludes("--grade")
        ->excludes("--short-of-grade");
  }

  static void addCodes(CLI::App* sub, Codes& codes, const char* name) {
    sub->add_option(name, codes.tags, "Boards, by their tags")->type_name("TAG");
    sub->add_option("--codes", codes.file, "Scanned codes, one a line (- for standard input)")
        ->type_name("FILE");
  }

  void addBoard() {
    auto* sub = add(app_, "board", "Move, note, keep back, measure, retire or tag boards anew",
                    [this] { return boardWork(); });
    addCodes(sub, boardWork_.boards, "tags");
    sub->add_option("--bay", boardWork_.bay, "Move them to this bay: its name or its tag")
        ->type_name("BAY");
    note_ = sub->add_option("--note", boardWork_.note, "Add to their notes; \"\" takes them away")
                ->type_name("TEXT");
    sub->add_flag("--keep-back", keepBack_, "Hold them for something special");
    sub->add_flag("--let-go", letGo_, "Hold them back no longer");
    sub->add_option("--moisture", boardWork_.moisture, "A reading: 8, 8.5")->type_name("PERCENT");
    sub->add_option("--state", state_, "Of the reading: wet, resting or ready")
        ->check(CLI::IsMember(wordsOf(stateWords)))
        ->capture_default_str();
    sub->add_option("--on", boardWork_.on, "Day of the reading, 2026-05-31 (else today)")
        ->type_name("DATE");
    retire_ = sub->add_option("--retire", boardWork_.reason, "Take them off the rack, and why")
                  ->type_name("REASON");
    sub->add_flag("--new-tag", newTag_,
                  "The tag is lost or worn: the next takes its place, or the one named by --as");
    sub->add_option("--as", boardWork_.tag, "A blank tag that hangs on it now")->type_name("TAG");
    const auto measured = [&](const char* name, const char* column, const char* what) {
      sub->add_option_function<std::string>(
             name,
             [this, column](const std::string& typed) { boardWork_.measured[column] = typed; },
             what)
          ->type_name("SIZE");
    };
    measured("--thickness", "thickness", "Measured again, at its thinnest; \"\": not measured");
    measured("--outline-a", "outline_a", "Edges of face A: \"8 3/4 - 8 1/4\", 0:0-14; end:0-16");
    measured("--outline-b", "outline_b", "Edges of face B; \"\": as face A");
    measured("--bow", "bow", "Out of the plane along the length");
    measured("--bent-at", "bent_at", "Where the bow is a kink");
    measured("--crook", "crook", "In the plane along the length");
    measured("--hollow", "hollow", "The edge that is hollow with crook: near or far");
    measured("--cup", "cup", "Across the width");
    measured("--twist", "twist", "A corner lifted");
    measured("--grain-slope", "grain_slope", "How steeply the grain runs out: 1 in 12, straight");
  }

  BoardWork boardWork() {
    using What = BoardWork::What;
    const std::vector<std::pair<bool, What>> asked{{!boardWork_.bay.empty(), What::move},
                                                   {note_->count() > 0, What::note},
                                                   {keepBack_, What::keepBack},
                                                   {letGo_, What::letGo},
                                                   {!boardWork_.moisture.empty(), What::reading},
                                                   {retire_->count() > 0, What::retire},
                                                   {newTag_, What::newTag},
                                                   {!boardWork_.measured.empty(), What::measure}};
    int ways = 0;
    for (const auto& [is, what] : asked) {
      if (!is) continue;
      ++ways;
      boardWork_.what = what;
    }
    if (ways != 1) {
      throw WrongUse{
          "say one thing: --bay, --note, --keep-back, --let-go, --moisture, --retire, --new-tag, "
          "or "
          "what was measured again"};
    }
    needCodes(boardWork_.boards);
    const bool one = boardWork_.boards.tags.size() == 1 && boardWork_.boards.file.empty();
    if (boardWork_.what == What::newTag && !one) throw WrongUse{"--new-tag is for one board"};
    if (boardWork_.what == What::measure && !one) {
      throw WrongUse{"what was measured again is of one board"};
    }
    boardWork_.state = stateWords.at(state_);
    return boardWork_;
  }

  static void needCodes(const Codes& codes) {
    if (codes.tags.empty() && codes.file.empty()) {
      throw WrongUse{"say which boards: TAG..., or --codes FILE"};
    }
  }

  void addReturn() {
    auto* sub =
        add(app_, "return", "Send a board back to its supplier, or note the credit", [this] {
          if (return_.credit.empty() == return_.reason.empty()) {
            throw WrongUse{"say why it goes back, --reason TEXT, or what came, --credit AMOUNT"};
          }
          return return_;
        });
    sub->add_option("tag", return_.tag, "The board, by its tag")->required()->type_name("TAG");
    sub->add_option("--reason", return_.reason, "Why it goes back")->type_name("TEXT");
    sub->add_option("--expect", return_.expect, "The credit asked (else what it cost)")
        ->type_name("AMOUNT");
    sub->add_option("--credit", return_.credit, "The credit that came for it")->type_name("AMOUNT");
    sub->add_option("--on", return_.on, "Day the credit came, 2026-05-31 (else today)")
        ->type_name("DATE");
  }

  void addCount() {
    auto* sub =
        add(app_, "count", "Count a bay by the codes scanned there", [this] { return count_; });
    sub->add_option("bay", count_.bay, "The bay: its name or its tag")
        ->required()
        ->type_name("BAY");
    addCodes(sub, count_.codes, "tags");
    sub->add_option("--untagged", count_.untagged, "Pieces that lie there without a tag")
        ->check(CLI::Range(0, 100'000))
        ->type_name("N");
    sub->add_flag("--look", count_.look, "Say what is missing and post nothing");
  }

  void addJob() {
    CLI::App* job = app_.add_subcommand("job", "Add and show jobs");
    job->require_subcommand(1);
    job->footer(exitCodes);
    auto* sub = add(*job, "add", "Add a job with its parts", [this] { return jobAdd_; });
    sub->add_option("name", jobAdd_.name, "The job's name")->required()->type_name("NAME");
    sub->add_option("parts", jobAdd_.parts, "CSV file with a head row")
        ->required()
        ->type_name("PARTS.csv");
    sub->add_option("--customer", jobAdd_.customer, "For whom")->type_name("NAME");
    sub->add_option("--sizes", jobAdd_.sizeFile, "CSV file of sizes that parts' sizes may name")
        ->type_name("SIZES.csv");
    sub->add_option("--size", jobAdd_.sizes, "One such size: width=24, \"door=width/2 - 1/8\"")
        ->type_name("NAME=SIZE");
    sub->add_option("--times", jobAdd_.times, "So many of the whole job")
        ->check(CLI::Range(1, 1000))
        ->type_name("N");
    sub->footer(columnHelp("Columns of a parts list, in any order:", exchange::partColumns()) +
                "\n\n" + columnHelp("Columns of a file of sizes:", exchange::sizeColumns()) +
                "\n\n" + exitCodes);
    add(*job, "list", "All jobs", [] { return JobList{}; });
    auto* show =
        add(*job, "show", "A job's parts and its newest plan", [this] { return jobShow_; });
    show->add_option("name", jobShow_.name, "The job's name")->required()->type_name("NAME");
    auto* aside = add(*job, "aside", "Set board feet aside for a job before its boards are chosen",
                      [this] { return jobAside_; });
    aside->add_option("name", jobAside_.name, "The job's name")->required()->type_name("NAME");
    aside->add_option("species", jobAside_.species, "Of which wood")
        ->required()
        ->type_name("SPECIES");
    aside->add_option("nominal", jobAside_.nominal, "How thick: 4/4, 8/4, 27 mm")
        ->required()
        ->type_name("QUARTERS");
    aside->add_option("feet", jobAside_.feet, "How much, in place of what was set aside; 0: none")
        ->required()
        ->type_name("BF");
    prices_.addToJob(*job, adding());
  }

  void addPlan() {
    auto* sub = add(app_, "plan", "Choose boards for a job, lay out the cuts, keep the plan",
                    [this] { return plan_; });
    sub->add_option("job", plan_.job, "The job's name")->required()->type_name("JOB");
    sub->add_option("--seconds", plan_.seconds, "Time to search at most")
        ->check(CLI::Range(0.0, 3600.0))
        ->type_name("S")
        ->capture_default_str();
    sub->add_option("--seed", plan_.seed, "Same seed and effort: same plan")
        ->type_name("N")
        ->capture_default_str();
    sub->add_option("--effort", plan_.effort, "Counted work at most (0: no limit)")
        ->type_name("N")
        ->capture_default_str();
    sub->add_flag("--trust-unseen", plan_.trustUnseen, "Take faces nobody looked at for clear");
    sub->add_flag("--reserve", plan_.reserve, "Hold the plan's boards for the job");
    sub->add_option("--pin", plan_.pins, "Boards that must be used, even kept back ones")
        ->type_name("TAG");
    sub->add_option("--keep-out", plan_.keepOut, "Boards that may not be used")->type_name("TAG");
    sub->add_option("--lock", plan_.locks,
                    "Boards cut as the last plan has them, hand marks and all; all: every one "
                    "not sawn yet, of a changed job those whose parts ask the same")
        ->type_name("TAG");
    sub->add_option("--lay", plan_.lay,
                    "A blank laid by hand: \"C@T0042-F 12,1 1/2\", its corner from the tag end and "
                    "the near edge; then ,B for face B up, ,far for the front edge at the far edge")
        ->type_name("PART@TAG X,Y");
    sub->add_option("--prefer", plan_.prefer,
                    "A wish: offcuts, oldest or delivery N first; a sum after it is what each "
                    "other board counts more in the choice, never in the price (3.00)")
        ->type_name("WISH");
    sub->add_flag("--beside", plan_.beside,
                  "Show the job's two newest plans side by side; plan nothing");
    sub->add_option("--curves", plan_.curves, "Write cost and bound over time to this CSV file")
        ->type_name("FILE");
    addPaper(sub, plan_.paper);
  }

  void addTag() {
    auto* sub = add(app_, "tag", "Print tags of boards, or labels of a job's parts", [this] {
      const int ways = (tag_.tags.empty() ? 0 : 1) + (tag_.all ? 1 : 0) + (tag_.newest ? 1 : 0) +
                       (tag_.blank > 0 ? 1 : 0) + (tag_.tally > 0 ? 1 : 0) +
                       (tag_.job.empty() ? 0 : 1) + (tag_.bays.empty() ? 0 : 1);
      if (ways != 1) {
        throw WrongUse{
            "say which tags: TAG..., --all, --last, --blank N, --tally-sheet N, --job JOB or "
            "--bay BAY"};
      }
      if (!tag_.labels.paper.any()) throw WrongUse{"say where they go: --pdf FILE or --png FOLDER"};
      return tag_;
    });
    sub->add_option("tags", tag_.tags, "Boards, by their tags")->type_name("TAG");
    sub->add_flag("--all", tag_.all, "Every board on the rack");
    sub->add_flag("--last", tag_.newest, "The boards of the newest delivery");
    sub->add_option("--blank", tag_.blank, "So many pre-numbered tags without data")
        ->check(CLI::Range(1, 1000))
        ->type_name("N");
    sub->add_option("--tally-sheet", tag_.tally,
                    "A tally on paper: lines with the numbers of the next N blank tags printed")
        ->check(CLI::Range(1, 1000))
        ->type_name("N");
    sub->add_option("--job", tag_.job, "Part labels of the job's newest plan, in cutting order")
        ->type_name("JOB");
    sub->add_option("--bay", tag_.bays, "Tags of bays, by name; a new name makes a new bay")
        ->type_name("BAY");
    addLabels(sub, tag_.labels);
  }

  void addScan() {
    auto* sub = add(app_, "scan", "Read tags from pictures", [this] { return scan_; });
    sub->add_option("pictures", scan_.pictures, "PNG, JPEG, ... files")
        ->required()
        ->type_name("IMAGE");
  }

  void addSaw() {
    auto* sub =
        add(app_, "saw", "Fetch and saw a job's boards; record what was sawn", [this]() -> Command {
          if (const auto paper = onPaper()) return *paper;
          saw_.verb = sawVerb();
          if (saw_.verb == SawVerb::spoiled) saw_.lost = spoiled_;
          return saw_;
        });
    sub->add_option("tags", saw_.tags, "Boards, by their tags")->type_name("TAG");
    sub->add_option("--job", saw_.job,
                    "All boards of the job's newest plan not sawn yet; the job it was for")
        ->type_name("JOB");
    sub->add_flag("--as-planned", asPlanned_, "They were sawn as the cut sheet says");
    sub->add_option("--lost", saw_.lost, "But for these blanks, which came to nothing: C2 E1")
        ->type_name("MARK");
    sub->add_option("--cut-short", saw_.cutShort,
                    "One board: a blank came out so long and no longer: \"C2 31 1/2\"")
        ->type_name("MARK LENGTH");
    sub->add_option("--offcut", saw_.offcuts,
                    "One board: all offcuts really kept of it, as measured: \"30 x 4\"; or none")
        ->type_name("SIZE");
    sub->add_option("--instead", saw_.instead, "This board was sawn in place of the planned one")
        ->type_name("TAG");
    sub->add_option("--otherwise", saw_.otherwise,
                    std::string("One board: what went otherwise, as pencilled beside it: ") +
                        desk::paperWords)
        ->type_name("LINE");
    sub->add_flag("--bin", saw_.bin,
                  "Shorts too small for a tag and worth it go to the bin of their species");
    sub->add_option("--knot", saw_.knot,
                    "Found before the cut: mark it, as with mark --at, and plan again around it")
        ->type_name("MARKS");
    sub->add_flag("--replan", replan_,
                  "Plan what is left of the job again, changing as little as possible");
    sub->add_option("--seconds", saw_.seconds, "Time to plan again at most")
        ->check(CLI::Range(0.1, 600.0))
        ->type_name("S")
        ->capture_default_str();
    sub->add_option("--spoiled", spoiled_, "Sawn parts that came to nothing since: C2 E1")
        ->type_name("MARK");
    sub->add_flag("--used-up", usedUp_, "The board was used up by hand, without a plan");
    sub->add_option("--left", saw_.left, "So much of its length, at the tag end, is left")
        ->type_name("LENGTH");
    sub->add_option("--why", saw_.why, "A word on the reason")->type_name("TEXT");
    addOnPaper(sub);
    addLabels(sub, saw_.labels);
  }

  /// What happened at the saw; whatever does not go together is wrong use.
  [[nodiscard]] SawVerb sawVerb() {
    usedUp_ = usedUp_ || !saw_.left.empty();
    const bool spoiled = !spoiled_.empty();
    const bool knot = !saw_.knot.empty();
    const bool line = !saw_.otherwise.empty();
    const bool sizes = !saw_.cutShort.empty() || !saw_.offcuts.empty() || !saw_.instead.empty();
    const bool differs = line || sizes;
    const int ways = (asPlanned_ ? 1 : 0) + (spoiled ? 1 : 0) + (usedUp_ ? 1 : 0) + (knot ? 1 : 0) +
                     (differs ? 1 : 0);
    if (ways == 0 && replan_) {
      if (saw_.job.empty() || !saw_.tags.empty() || !saw_.lost.empty()) {
        throw WrongUse{"--replan goes with --job JOB and no tags"};
      }
      return SawVerb::replan;
    }
    if (ways != 1 || (replan_ && !knot && !differs)) {
      throw WrongUse{
          "say what happened: --as-planned, --otherwise, --knot, --cut-short, --offcut, --instead, "
          "--spoiled or --used-up"};
    }
    if ((knot || differs || usedUp_) && saw_.tags.size() != 1) {
      throw WrongUse{
          "--used-up, --otherwise, --knot, --cut-short, --offcut and --instead go with one TAG"};
    }
    if (!asPlanned_ && !differs && !saw_.lost.empty()) {
      throw WrongUse{"--lost goes with --as-planned, --cut-short, --offcut and --instead"};
    }
    if (line && (sizes || saw_.bin || !saw_.lost.empty())) {
      throw WrongUse{"--otherwise says all of it: the others go without it"};
    }
    if (saw_.bin && !asPlanned_ && !differs) {
      throw WrongUse{"--bin goes with --as-planned, --cut-short, --offcut and --instead"};
    }
    if (differs) return SawVerb::otherwise;
    if (knot) return SawVerb::knot;
    if (asPlanned_ && saw_.tags.empty() && saw_.job.empty()) {
      throw WrongUse{"say which boards: TAG..., or --job JOB for all of its plan"};
    }
    if (spoiled && (saw_.job.empty() || !saw_.tags.empty())) {
      throw WrongUse{"--spoiled goes with --job JOB and no tags"};
    }
    return asPlanned_ ? SawVerb::asPlanned : spoiled ? SawVerb::spoiled : SawVerb::usedUp;
  }

  void addBin() {
    auto* sub =
        add(app_, "bin", "Bins of untagged shorts, by estimated board feet", [this]() -> Command {
          const bool made = !bins_.species.empty() || !bins_.note.empty();
          const int works = (bins_.put.empty() ? 0 : 1) + (bins_.used.empty() ? 0 : 1) +
                            (bins_.thrown.empty() ? 0 : 1) + (bins_.holds.empty() ? 0 : 1) +
                            (made ? 1 : 0);
          if (works > 1 || (works == 1 && bins_.name.empty()) ||
              (works == 0 && !bins_.name.empty()) || (made && bins_.species.empty())) {
            throw WrongUse{
                "one thing at a time: NAME with --species, --put, --used, --thrown or "
                "--holds; without a name all bins are shown"};
          }
          return bins_;
        });
    sub->add_option("name", bins_.name, "The bin, by its name or its species")->type_name("NAME");
    sub->add_option("--species", bins_.species, "Make it, for shorts of this species")
        ->type_name("SPECIES");
    sub->add_option("--note", bins_.note, "With --species: where it stands")->type_name("TEXT");
    sub->add_option("--put", bins_.put, "So many board feet of shorts were found and put in")
        ->type_name("FEET");
    sub->add_option("--used", bins_.used, "So many were used")->type_name("FEET");
    sub->add_option("--thrown", bins_.thrown, "So many were thrown away")->type_name("FEET");
    sub->add_option("--holds", bins_.holds, "It holds so many, estimated anew")->type_name("FEET");
    sub->add_option("--job", bins_.job, "The job they were used for")->type_name("JOB");
    sub->add_option("--why", bins_.why, "A word on the reason")->type_name("TEXT");
  }

  /// What is asked for before the saw: pull list, work lists.
  void addOnPaper(CLI::App* sub) {
    auto* pull = sub->add_option("--pull", pull_.job, "Show what to fetch for a job, bay by bay");
    pull->type_name("JOB");
    sub->add_option("--scanned", pull_.scanned,
                    "Tick this board off; a wrong one is refused (-: codes from standard input)")
        ->type_name("CODE")
        ->needs(pull);
    sub->add_flag("--afresh", pull_.afresh, "With --pull: forget what was ticked off before")
        ->needs(pull);
    sub->add_option("--lists", workList_.job, "Show a job's cuts by station")
        ->type_name("JOB")
        ->excludes(pull);
    sub->add_option("--csv", benchCsv_, "With --pull or --lists: write the rows to this file")
        ->type_name("FILE");
  }

  /// Pull list or work lists, when they are what is asked for.
  [[nodiscard]] std::optional<Command> onPaper() {
    const bool pull = !pull_.job.empty();
    if (!pull && workList_.job.empty()) {
      if (!benchCsv_.empty()) throw WrongUse{"--csv goes with --pull and --lists"};
      return std::nullopt;
    }
    if (!saw_.tags.empty() || !saw_.job.empty() || asPlanned_ || usedUp_ || replan_ ||
        !spoiled_.empty() || !saw_.knot.empty()) {
      throw WrongUse{"--pull and --lists show a whole job and record nothing"};
    }
    (pull ? pull_.csv : workList_.csv) = benchCsv_;
    (pull ? pull_.paper : workList_.paper) = saw_.labels.paper;
    return pull ? Command(pull_) : Command(workList_);
  }

  void addLedger() {
    auto* sub = add(app_, "ledger", "Reports: where the wood and the money are", [this] {
      ledger_.report = reportWords.at(report_);
      checkLedger();
      return ledger_;
    });
    sub->add_option("report", report_,
                    "waste: what became of boards sawn; yield: the same by what --by says; clear: "
                    "what a board foot in parts cost, by supplier and grade; actual: planned "
                    "against sawn; learned: what sawing taught of yield and blanks lost; offcuts: "
                    "those on the rack; kept: how much of what was kept was "
                    "used; stock: the rack by species and thickness, today or --on a past day; "
                    "old: boards lying long; family TAG: what became of a board; passport JOB "
                    "MARK: where a part comes from; returns: boards sent back; claim: what "
                    "is wrong with a delivery; entries: the journal")
        ->required()
        ->check(CLI::IsMember(wordsOf(reportWords)));
    sub->add_option("names", ledger_.names, "A tag for family; a job and a hand mark for passport")
        ->type_name("NAME");
    sub->add_option("--job", ledger_.job,
                    "Of one job alone: boards sawn for it, offcuts they left, stock held for it")
        ->type_name("JOB");
    by_ = sub->add_option("--by", ledger_.by, "What a row of yield or actual is");
    by_->check(CLI::IsMember(std::vector<std::string>{"job", "species", "thickness", "grade",
                                                      "supplier", "delivery", "month", "board"}))
        ->capture_default_str();
    sub->add_option("--on", ledger_.on, "Stock, kept, old: as on this day (else today)")
        ->type_name("DATE");
    months_ = sub->add_option("--months", ledger_.months, "Old: months on the rack at least");
    months_->check(CLI::Range(1, 1200))->type_name("N")->capture_default_str();
    sub->add_option("--delivery", ledger_.delivery, "Of the claim: its number (else the newest)")
        ->check(CLI::Range(1, 1'000'000))
        ->type_name("N");
    sub->add_option("--wet-above", ledger_.wetAbove,
                    "Of the claim: moisture above which a board is wet (else 10 %)")
        ->type_name("PERCENT");
    sub->add_option("--csv", ledger_.csv, "Write the rows to this file")->type_name("FILE");
    addPaper(sub, ledger_.paper);
  }

  void checkLedger() const {
    const Report report = ledger_.report;
    const auto is = [&](std::initializer_list<Report> reports) {
      return std::find(reports.begin(), reports.end(), report) != reports.end();
    };
    const std::size_t names = report == Report::passport ? 2 : report == Report::family ? 1 : 0;
    if (ledger_.names.size() != names) {
      throw WrongUse{
          "say it so: ledger family TAG, ledger passport JOB MARK, any other report alone"};
    }
    if (!ledger_.job.empty() && !is({Report::waste, Report::offcuts, Report::stock, Report::yield,
                                     Report::clear, Report::actual, Report::learned})) {
      throw WrongUse{"--job goes with waste, offcuts, stock, yield, clear, actual and learned"};
    }
    if (by_->count() > 0 && !is({Report::yield, Report::actual})) {
      throw WrongUse{"--by goes with yield and actual"};
    }
    if (!ledger_.on.empty() && !is({Report::stock, Report::kept, Report::old})) {
      throw WrongUse{"--on goes with stock, kept and old"};
    }
    if (!ledger_.on.empty() && !ledger_.job.empty()) {
      throw WrongUse{"the stock of a past day is not known by job: --on or --job"};
    }
    if (months_->count() > 0 && report != Report::old) throw WrongUse{"--months goes with old"};
    const bool ofClaim = ledger_.delivery > 0 || !ledger_.wetAbove.empty();
    if (ofClaim && report != Report::claim) {
      throw WrongUse{"--delivery and --wet-above go with claim"};
    }
  }

  void addPhoto() { photo_.addTo(app_, adding()); }

  void addPaperCommand() { paper_.addTo(app_, adding()); }

  void addUndo() {
    add(app_, "undo", "Take back the last entry, where nothing later stands on it",
        [] { return Undo{}; });
  }

  void addWood() {
    CLI::App* wood = app_.add_subcommand("wood", "What the published figures say of wood");
    wood->require_subcommand(1);
    wood->footer(exitCodes);
    wood_.addTo(*wood, adding());
  }

  void addShop() {
    auto* sub = add(app_, "shop", "Show the shop's settings or one of them, or set one",
                    [this] { return shop_; });
    sub->add_option("key", shop_.key, "The setting, as `flitch shop` lists it")->type_name("KEY");
    sub->add_option("value", shop_.value, "Its new value")->type_name("VALUE");
  }

  CLI::App app_{"flitch: the book of a small shop's lumber", "flitch"};
  std::vector<std::pair<CLI::App*, Build>> commands_;
  Options options_;
  std::string unit_ = "inches", createRule_ = "surface", receiveRule_, report_;
  std::vector<std::string> words_;
  std::string benchCsv_;
  bool asPlanned_ = false;
  bool replan_ = false;
  BookCreate create_;
  Receive receive_;
  Mark mark_;
  Rack rack_;
  BoardWork boardWork_;
  std::string state_ = "ready";
  bool keepBack_ = false, letGo_ = false, newTag_ = false;
  CLI::Option* note_ = nullptr;
  CLI::Option* retire_ = nullptr;
  Return return_;
  Count count_;
  JobAdd jobAdd_;
  JobShow jobShow_;
  JobAside jobAside_;
  Plan plan_;
  Tag tag_;
  Scan scan_;
  Saw saw_;
  Bins bins_;
  std::vector<std::string> spoiled_;
  bool usedUp_ = false;
  Pull pull_;
  WorkList workList_;
  Ledger ledger_;
  CLI::Option* by_ = nullptr;
  CLI::Option* months_ = nullptr;
  PaperArguments paper_;
  PhotoArguments photo_;
  WoodArguments wood_;
  PriceArguments prices_;
  Shop shop_;
};

}  // namespace

std::string columnHelp(const char* head, std::span<const exchange::ImportColumn> columns) {
  std::size_t wide = 0;
  for (const auto& c : columns) wide = std::max(wide, c.name.size());
  std::string help = head;
  for (const auto& c : columns) {
    help += "\n  " + std::string(c.name) + std::string(wide - c.name.size() + 2, ' ') +
            std::string(c.text);
    if (c.needed) help += " (needed)";
  }
  return help;
}

void addPaper(CLI::App* sub, PaperTo& paper) {
  sub->add_option("--pdf", paper.pdf, "Write the pages to this PDF")->type_name("FILE");
  sub->add_option("--png", paper.pngFolder, "Write the pages to this folder as PNG, 300 dpi")
      ->type_name("FOLDER");
}

std::string programName() { return "flitch " FLITCHBOOK_VERSION; }

std::variant<Options, Said> parse(const std::vector<std::string>& arguments) {
  return Reader().read(arguments);
}

bool paints(const Command& command) {
  if (const auto* plan = std::get_if<Plan>(&command)) return plan->paper.any();
  if (const auto* saw = std::get_if<Saw>(&command)) return saw->labels.paper.any();
  if (const auto* pull = std::get_if<Pull>(&command)) return pull->paper.any();
  if (const auto* ledger = std::get_if<Ledger>(&command)) return ledger->paper.any();
  if (const auto* lists = std::get_if<WorkList>(&command)) return lists->paper.any();
  if (const auto* estimate = std::get_if<JobEstimate>(&command)) return estimate->paper.any();
  if (const auto* quote = std::get_if<JobQuote>(&command)) return quote->paper.any();
  return std::holds_alternative<Tag>(command);
}

const std::vector<std::string>& commandNames() {
  static const std::vector<std::string> names{"book create",  "book check",
                                              "book info",    "receive",
                                              "mark",         "rack",
                                              "board",        "return",
                                              "count",        "job add",
                                              "job list",     "job show",
                                              "job change",   "job copy",
                                              "job lines",    "job estimate",
                                              "job quote",    "job buy",
                                              "price",        "demand",
                                              "fit",          "plan",
                                              "tag",          "scan",
                                              "saw",          "bin",
                                              "ledger",       "paper",
                                              "photo",        "undo",
                                              "wood air",     "wood move",
                                              "wood weight",  "wood measure",
                                              "wood ready",   "wood grade",
                                              "wood species", "wood species add",
                                              "shop"};
  return names;
}

}  // namespace flitch::cli
