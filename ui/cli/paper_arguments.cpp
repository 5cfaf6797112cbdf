#include "ui/cli/paper_arguments.h"

#include <CLI/CLI.hpp>

namespace flitch::cli {

Paper PaperArguments::read() const {
  if (!paper_.stock.empty() && !paper_.printer.empty()) {
    throw WrongUse{"set a label stock or a printer, one at a time"};
  }
  if (!paper_.stock.empty() && paper_.label.empty()) {
    throw WrongUse{"a label stock needs the size of its labels: --label 70x37"};
  }
  return paper_;
}

void PaperArguments::addTo(CLI::App& app, const AddCommand& add) {
  CLI::App* sub = add(app, "paper", "Show label stocks and printers; add a stock, align a printer",
                      [this] { return read(); });
  CLI::Option* stock =
      sub->add_option("--stock", paper_.stock, "Keep a label stock of your own under this name")
          ->type_name("NAME");
  const auto ofStock = [&](const char* name, std::string& value, const char* help) {
    sub->add_option(name, value, help)->type_name("SIZE")->needs(stock);
  };
  ofStock("--label", paper_.label, "Width and height of a label: 70x37 mm, 4in x 2in");
  ofStock("--page", paper_.page, "Of the page (else the label is the page: a roll)");
  ofStock("--first", paper_.first, "Where the first label begins, from the left and from the top");
  ofStock("--step", paper_.step, "From one label to the next (else as large as the label)");
  for (const auto& [name, value] :
       {std::pair("--columns", &paper_.columns), std::pair("--rows", &paper_.rows)}) {
    sub->add_option(name, *value, "Labels in it")
        ->check(CLI::Range(1, 50))
        ->type_name("N")
        ->needs(stock)
        ->capture_default_str();
  }
  sub->add_option("--care", paper_.care, "What light, water and wax do to it")
      ->type_name("TEXT")
      ->needs(stock);
  CLI::Option* printer =
      sub->add_option("--printer", paper_.printer, "Keep how the printer of this name lies")
          ->type_name("NAME");
  for (const auto& [name, value, help] :
       {std::tuple("--right", &paper_.right, "Move the ink to the right, below zero to the left"),
        std::tuple("--down", &paper_.down, "Move the ink down, below zero up")}) {
    sub->add_option(name, *value, help)->type_name("MM")->needs(printer);
  }
  for (const auto& [name, value, help] :
       {std::tuple("--wide", &paper_.wide, "Stretch it across: 100.4 where it comes out small"),
        std::tuple("--high", &paper_.high, "Stretch it down")}) {
    sub->add_option(name, *value, help)
        ->type_name("PERCENT")
        ->needs(printer)
        ->capture_default_str();
  }
}

Photos PhotoArguments::read() const {
  const int ways = (photos_.files.empty() ? 0 : 1) + (photos_.folder.empty() ? 0 : 1) +
                   (photos_.number > 0 ? 1 : 0) + (of_.empty() ? 0 : 1);
  if (ways != 1) {
    throw WrongUse{"say one thing: PICTURE..., --watch FOLDER, --place NUMBER or --of TAG"};
  }
  if (photos_.number > 0 && (photos_.corners.empty() || photos_.face.empty())) {
    throw WrongUse{"--place needs --face and --corners 'x,y x,y x,y x,y'"};
  }
  Photos photos = photos_;
  using What = Photos::What;
  photos.what = !of_.empty()              ? What::list
                : photos_.number > 0      ? What::place
                : !photos_.folder.empty() ? What::watch
                                          : What::take;
  if (!of_.empty()) photos.board = of_;
  return photos;
}

void PhotoArguments::addTo(CLI::App& app, const AddCommand& add) {
  CLI::App* sub = add(app, "photo", "Keep photos of boards; a tag in the photo says of which",
                      [this] { return read(); });
  sub->add_option("pictures", photos_.files, "JPEG or PNG files")->type_name("PICTURE");
  sub->add_option("--board", photos_.board, "Of this board (else of the one whose tag is seen)")
      ->type_name("TAG");
  sub->add_option("--face", photos_.face, "The face seen")
      ->check(CLI::IsMember(std::vector<std::string>{"A", "B"}));
  sub->add_option("--on", photos_.on, "Day it was taken, 2026-05-31 (else today)")
      ->type_name("DATE");
  CLI::Option* watch =
      sub->add_option("--watch", photos_.folder, "Take in what comes to this folder, until Ctrl+C")
          ->type_name("FOLDER");
  sub->add_flag("--once", photos_.once, "Take what lies there now, then end")->needs(watch);
  CLI::Option* place =
      sub->add_option("--place", photos_.number, "Lay this photo to scale under the marks")
          ->check(CLI::Range(1, 1'000'000'000))
          ->type_name("NUMBER");
  sub->add_option("--corners", photos_.corners,
                  "Pixels from its top left: tag end near, far end near, far end far, tag end far")
      ->type_name("'x,y ...'")
      ->needs(place);
  CLI::Option* of =
      sub->add_option("--of", of_, "List the photos of a board, by its tag")->type_name("TAG");
  sub->add_option("--save", photos_.save, "Write them to this folder too, those placed to scale")
      ->type_name("FOLDER")
      ->needs(of);
}

}  // namespace flitch::cli
