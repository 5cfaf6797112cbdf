#include "ui/cli/arguments.h"

#include <catch2/catch.hpp>
#include <sstream>

using namespace flitch;
using namespace flitch::cli;

namespace {

template <class Wanted>
Wanted ask(const std::vector<std::string>& arguments) {
  const auto parsed = parse(arguments);
  if (const auto* said = std::get_if<Said>(&parsed)) {
    FAIL(said->text);
  }
  const Options& options = std::get<Options>(parsed);
  REQUIRE(std::holds_alternative<Wanted>(options.what));
  return std::get<Wanted>(options.what);
}

Options options(const std::vector<std::string>& arguments) {
  const auto parsed = parse(arguments);
  REQUIRE(std::holds_alternative<Options>(parsed));
  return std::get<Options>(parsed);
}

Said said(const std::vector<std::string>& arguments) {
  const auto parsed = parse(arguments);
  REQUIRE(std::holds_alternative<Said>(parsed));
  return std::get<Said>(parsed);
}

}  // namespace

TEST_CASE("the book, the hand and --json stand before or after the command") {
  for (const std::vector<std::string>& arguments :
       {std::vector<std::string>{"--book", "a.flitch", "--json", "--hand", "Ida", "book", "info"},
        std::vector<std::string>{"book", "info", "--book", "a.flitch", "--json", "--hand", "Ida"},
        std::vector<std::string>{"book", "--json", "--book", "a.flitch", "info", "--hand",
                                 "Ida"}}) {
    const Options got = options(arguments);
    CHECK(got.book == "a.flitch");
    CHECK(got.hand == "Ida");
    CHECK(got.json);
    CHECK(got.command == "book info");
    CHECK(std::holds_alternative<BookInfo>(got.what));
  }
}

TEST_CASE("a command without a book is wrong usage, but for scan") {
  const Said wrong = said({"rack"});
  CHECK(wrong.exitCode == 2);
  CHECK(wrong.text ==
        "flitch rack: no book is named. Accepted: --book FILE, or the variable FLITCH_BOOK. See "
        "flitch rack --help\n");
  CHECK(ask<Scan>({"scan", "a.png", "b.png"}).pictures ==
        std::vector<std::string>{"a.png", "b.png"});
}

TEST_CASE("each command's arguments come through") {
  const std::string book = "--book=b";
  const BookCreate create = ask<BookCreate>({book, "book", "create", "--name", "Ours", "--unit",
                                             "millimetres", "--currency", "€", "--rule", "volume"});
  CHECK(create.name == "Ours");
  CHECK(create.unit == Unit::millimetres);
  CHECK(create.currency == "€");
  CHECK(create.rule == CountingRule::volume);

  const Receive receive =
      ask<Receive>({book, "receive", "t.csv", "--supplier", "Yard", "--ref", "R-1", "--on",
                    "2026-05-31", "--rule", "surface", "--invoice", "i.csv"});
  CHECK(receive.invoice == "i.csv");
  CHECK(receive.tally == "t.csv");
  CHECK(receive.supplier == "Yard");
  CHECK(receive.reference == "R-1");
  CHECK(receive.on == "2026-05-31");
  CHECK(receive.rule == CountingRule::surfaceMeasure);
  CHECK_FALSE(ask<Receive>({book, "receive", "t.csv", "--supplier", "Yard"}).rule.has_value());

  CHECK(ask<Mark>({book, "mark", "m.csv"}).file == "m.csv");
  const Mark mark = ask<Mark>(
      {book, "mark", "--board", "T0042-F", "--at", "12-17, good 20-end", "--looked-a", "rough"});
  CHECK(mark.board == "T0042-F");
  CHECK(mark.marks == "12-17, good 20-end");
  CHECK(mark.lookedA == "rough");
  CHECK(mark.lookedB.empty());

  CHECK(ask<Rack>({book, "rack", "cherry", "4/4", ">8'"}).words == "cherry 4/4 >8'");

  const JobAdd add = ask<JobAdd>({book, "job", "add", "Chest", "p.csv", "--customer", "Archive"});
  CHECK(add.name == "Chest");
  CHECK(add.parts == "p.csv");
  CHECK(add.customer == "Archive");
  CHECK(ask<JobShow>({book, "job", "show", "Chest"}).name == "Chest");

  const Plan plan = ask<Plan>({book, "plan", "Chest", "--seconds", "2.5", "--seed", "-3",
                               "--effort", "9", "--trust-unseen", "--reserve", "--pdf", "c.pdf"});
  CHECK(plan.job == "Chest");
  CHECK(plan.seconds == 2.5);
  CHECK(plan.seed == -3);
  CHECK(plan.effort == 9);
  CHECK(plan.trustUnseen);
  CHECK(plan.reserve);
  CHECK(plan.paper.pdf == "c.pdf");

  const Tag tag = ask<Tag>({book, "tag", "T0042-F", "T0044-B", "--pdf", "t.pdf", "--stock",
                            "a4-3x8", "--start-at", "5"});
  CHECK(tag.tags.size() == 2);
  CHECK(tag.labels.stock == "a4-3x8");
  CHECK(tag.labels.startAt == 5);
  CHECK(ask<Tag>({book, "tag", "--blank", "12", "--png", "out"}).blank == 12);
  CHECK(ask<Tag>({book, "tag", "--last", "--png", "out"}).newest);
  CHECK(ask<Tag>({book, "tag", "--job", "Chest", "--png", "out"}).job == "Chest");

  const Saw saw = ask<Saw>({book, "saw", "--job", "Chest", "--as-planned", "--pdf", "o.pdf"});
  CHECK(saw.job == "Chest");
  CHECK(saw.labels.paper.pdf == "o.pdf");
  CHECK(ask<Saw>({book, "saw", "T0042-F", "--as-planned"}).tags.size() == 1);
  const Saw lost = ask<Saw>({book, "saw", "--job", "Chest", "--as-planned", "--lost", "C2", "E1"});
  CHECK(lost.verb == SawVerb::asPlanned);
  CHECK(lost.lost == std::vector<std::string>{"C2", "E1"});
  CHECK(ask<Saw>({book, "saw", "--job", "Chest", "--spoiled", "C2"}).verb == SawVerb::spoiled);
  CHECK(ask<Saw>({book, "saw", "T0042-F", "--used-up", "--left", "20"}).verb == SawVerb::usedUp);
  CHECK(ask<Saw>({book, "saw", "T0042-F", "--left", "20"}).verb == SawVerb::usedUp);

  const Ledger ledger = ask<Ledger>({book, "ledger", "waste", "--job", "Chest", "--csv", "w.csv"});
  CHECK(ledger.report == Report::waste);
  CHECK(ledger.job == "Chest");
  CHECK(ledger.csv == "w.csv");
  CHECK(ask<Ledger>({book, "ledger", "entries"}).report == Report::entries);

  CHECK(ask<Shop>({book, "shop"}).key.empty());
  CHECK(ask<Shop>({book, "shop", "kerf"}).value.empty());
  CHECK(ask<Tag>({book, "tag", "--bay", "B3", "--bay", "C1", "--pdf", "b.pdf"}).bays ==
        std::vector<std::string>{"B3", "C1"});
  CHECK(ask<Ledger>({book, "ledger", "returns"}).report == Report::returns);
  CHECK(options({book, "board", "42", "--sure", "--let-go"}).sure);
  const BoardWork moved = ask<BoardWork>({book, "board", "T1", "T2", "--bay", "B3"});
  CHECK(moved.boards.tags == std::vector<std::string>{"T1", "T2"});
  CHECK(moved.what == BoardWork::What::move);
  CHECK(moved.bay == "B3");
  const BoardWork read = ask<BoardWork>({book, "board", "--codes", "c.txt", "--moisture", "8.5",
                                         "--state", "wet", "--on", "2026-05-31"});
  CHECK(read.boards.file == "c.txt");
  CHECK(read.what == BoardWork::What::reading);
  CHECK(read.moisture == "8.5");
  CHECK(read.state == MoistureState::wet);
  CHECK(read.on == "2026-05-31");
  CHECK(ask<BoardWork>({book, "board", "T1", "--note", ""}).what == BoardWork::What::note);
  CHECK(ask<BoardWork>({book, "board", "T1", "--retire", "rot"}).reason == "rot");
  CHECK(ask<BoardWork>({book, "board", "T1", "--new-tag", "--as", "T2"}).tag == "T2");
  CHECK(ask<BoardWork>({book, "board", "T1", "--keep-back"}).what == BoardWork::What::keepBack);
  const Return sent = ask<Return>({book, "return", "T1", "--reason", "rot", "--expect", "70"});
  CHECK(sent.reason == "rot");
  CHECK(sent.expect == "70");
  CHECK(ask<Return>({book, "return", "T1", "--credit", "70"}).credit == "70");
  const Count count = ask<Count>({book, "count", "B3", "T1", "--untagged", "2", "--look"});
  CHECK(count.bay == "B3");
  CHECK(count.codes.tags == std::vector<std::string>{"T1"});
  CHECK(count.untagged == 2);
  CHECK(count.look);

  const Shop shop = ask<Shop>({book, "shop", "kerf", "3/32"});
  CHECK(shop.key == "kerf");
  CHECK(shop.value == "3/32");
}

TEST_CASE("wrong usage is exit code 2, one line, with the way to the help") {
  const std::vector<std::vector<std::string>> wrong{
      {},
      {"saw-everything"},
      {"book"},
      {"book", "burn"},
      {"receive", "t.csv"},
      {"receive", "--supplier", "Yard"},
      {"receive", "t.csv", "--supplier", "Yard", "--rule", "weight"},
      {"mark"},
      {"mark", "m.csv", "--board", "T1"},
      {"mark", "--board", "T1"},
      {"mark", "--at", "12-17"},
      {"job", "add", "Chest"},
      {"plan"},
      {"plan", "Chest", "--seconds", "soon"},
      {"plan", "Chest", "--seconds", "-1"},
      {"plan", "Chest", "Bench"},
      {"tag", "--pdf", "t.pdf"},
      {"tag", "--all"},
      {"tag", "--all", "--last", "--pdf", "t.pdf"},
      {"tag", "--all", "--job", "Chest", "--pdf", "t.pdf"},
      {"tag", "--blank", "0", "--pdf", "t.pdf"},
      {"scan"},
      {"saw", "T1"},
      {"saw", "--as-planned"},
      {"saw", "--job", "Chest"},
      {"saw", "--spoiled", "C2"},
      {"saw", "T0042-F", "--job", "Chest", "--spoiled", "C2"},
      {"saw", "--job", "Chest", "--used-up"},
      {"saw", "T0042-F", "--used-up", "--as-planned"},
      {"saw", "T0042-F", "--as-planned", "--left", "20"},
      {"saw", "T0042-F", "--used-up", "--lost", "C2"},
      {"ledger"},
      {"ledger", "gold"},
      {"ledger", "entries", "--job", "Chest"},
      {"board", "T1"},
      {"board", "--bay", "B3"},
      {"board", "T1", "--bay", "B3", "--let-go"},
      {"board", "T1", "T2", "--new-tag"},
      {"board", "T1", "--moisture", "8", "--state", "damp"},
      {"return", "T1"},
      {"return", "T1", "--reason", "rot", "--credit", "4"},
      {"return", "--reason", "rot"},
      {"count"},
      {"count", "B3", "--untagged", "-1"},
      {"ledger", "returns", "--job", "Chest"},
      {"ledger", "claim", "--job", "Chest"},
      {"ledger", "stock", "--delivery", "2"},
      {"undo", "everything"}};
  for (std::vector<std::string> arguments : wrong) {
    arguments.insert(arguments.begin(), {"--book", "b.flitch"});
    std::ostringstream shown;
    for (const std::string& argument : arguments) shown << argument << ' ';
    INFO(shown.str());
    const Said answer = said(arguments);
    CHECK(answer.exitCode == 2);
    CHECK(answer.text.rfind("flitch", 0) == 0);
    CHECK(answer.text.find('\n') == answer.text.size() - 1);
    CHECK(answer.text.find("--help") != std::string::npos);
  }
}

TEST_CASE("every command has a help that names its exit codes") {
  for (const std::string& name : commandNames()) {
    INFO(name);
    std::istringstream stream(name);
    std::vector<std::string> arguments;
    for (std::string word; stream >> word;) arguments.push_back(word);
    arguments.emplace_back("--help");
    const Said help = said(arguments);
    CHECK(help.exitCode == 0);
    CHECK(help.text.find("Exit codes") != std::string::npos);
    CHECK(help.text.find(arguments[arguments.size() - 2]) != std::string::npos);
  }
  CHECK(said({"--help"}).text.find("receive") != std::string::npos);
  CHECK(said({"receive", "--help"}).text.find("price_per_bf") != std::string::npos);
  CHECK(said({"mark", "--help"}).text.find("x_from") != std::string::npos);
  CHECK(said({"job", "add", "--help"}).text.find("face_a") != std::string::npos);
  CHECK(said({"--version"}).exitCode == 0);
}

TEST_CASE("only commands that paint need a painter") {
  CHECK(paints(Tag{}));
  CHECK_FALSE(paints(Rack{}));
  Plan plan;
  CHECK_FALSE(paints(plan));
  plan.paper.pdf = "c.pdf";
  CHECK(paints(plan));
  Saw saw;
  CHECK_FALSE(paints(saw));
  saw.labels.paper.pngFolder = "out";
  CHECK(paints(saw));
}
