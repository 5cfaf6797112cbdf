#include "ui/cli/wood_arguments.h"

#include <CLI/CLI.hpp>

#include "inventory/wood/species_figures.h"

namespace flitch::cli {
namespace {

const std::map<std::string, Sawn> sawnWords{
    {"flat", Sawn::flat}, {"rift", Sawn::rift}, {"quarter", Sawn::quarter}};
const std::map<std::string, Fixing> fixingWords{{"centre", Fixing::centre}, {"edge", Fixing::edge}};

/// `--radial-shrinkage` of the key `radial_shrinkage`.
std::string optionOf(std::string_view key) {
  std::string option = "--";
  for (const char c : key) option.push_back(c == '_' ? '-' : c);
  return option;
}

}  // namespace

void WoodArguments::addTo(CLI::App& wood, const AddCommand& add) {
  CLI::App* air =
      add(wood, "air", "Moisture that wood comes to in such air", [this] { return air_; });
  air->add_option("temperature", air_.temperature, "70F, 21C; bare: F, in a metric book C")
      ->required()
      ->type_name("TEMPERATURE");
  air->add_option("humidity", air_.humidity, "Relative, percent")
      ->required()
      ->check(CLI::Range(0.0, 100.0))
      ->type_name("PERCENT");
  addMove(wood, add);
  addWeight(wood, add);
  addMeasure(wood, add);
  CLI::App* ready =
      add(wood, "ready", "Whether a board is ready for the rooms its piece will live in",
          [this] { return ready_; });
  ready->add_option("board", ready_.board, "By its tag")->required()->type_name("TAG");
  ready->add_option("--winter", ready_.winter, "Their driest air (else the shop's winter-air)")
      ->type_name("'70F 30'");
  ready->add_option("--summer", ready_.summer, "Their wettest air (else the shop's summer-air)")
      ->type_name("'75F 60'");
  CLI::App* grade = add(wood, "grade",
                        "What grade a board looks like, and the cuttings that say so: an estimate, "
                        "an inspector decides",
                        [this] { return grade_; });
  grade->add_option("board", grade_.board, "By its tag")->required()->type_name("TAG");
  addSpecies(wood, add);
}

void WoodArguments::addMove(CLI::App& wood, const AddCommand& add) {
  CLI::App* move =
      add(wood, "move", "How far a panel or part moves over a season, and what it asks", [this] {
        move_.sawn = sawnWords.at(sawn_);
        move_.fixing = fixingWords.at(fixing_);
        return move_;
      });
  move->add_option("species", move_.species, "Of the table or the maker's own")
      ->required()
      ->type_name("SPECIES");
  move->add_option("width", move_.width, "Across the grain")->required()->type_name("WIDTH");
  move->add_option("--sawn", sawn_, "How the growth rings lie to the face")
      ->check(CLI::IsMember(wordsOf(sawnWords)))
      ->capture_default_str();
  move->add_option("--fixing", fixing_, "Where it is held: in its middle or along an edge")
      ->check(CLI::IsMember(wordsOf(fixingWords)))
      ->capture_default_str();
  const auto moisture = [move](const char* name, std::optional<double>& value, const char* help) {
    move->add_option(name, value, help)->check(CLI::Range(0.0, 30.0))->type_name("PERCENT");
  };
  moisture("--made", move_.made, "Moisture when it is made (else the shop's made-moisture)");
  moisture("--driest", move_.driest, "At the driest of the year (else by the shop's winter-air)");
  moisture("--wettest", move_.wettest,
           "At the wettest of the year (else by the shop's summer-air)");
}

void WoodArguments::addWeight(CLI::App& wood, const AddCommand& add) {
  CLI::App* weight = add(wood, "weight", "What a board or panel weighs", [this] {
    if (weight_.board.empty() == weight_.length.empty()) {
      throw WrongUse{"give SPECIES THICKNESS WIDTH LENGTH, or one board with --board TAG"};
    }
    return weight_;
  });
  auto* species = weight->add_option("species", weight_.species, "Of the table or the maker's own")
                      ->type_name("SPECIES");
  weight->add_option("thickness", weight_.thickness, "As it is, not nominal")
      ->type_name("THICKNESS");
  weight->add_option("width", weight_.width, "Across the grain")->type_name("WIDTH");
  weight->add_option("length", weight_.length, "In inches, millimetres in a metric book")
      ->type_name("LENGTH");
  weight->add_option("--board", weight_.board, "A board of the book, by its tag")
      ->excludes(species)
      ->type_name("TAG");
  weight->add_option("--moisture", weight_.moisture, "Moisture (else the newest reading, else 12)")
      ->check(CLI::Range(0.0, 200.0))
      ->type_name("PERCENT");
}

void WoodArguments::addMeasure(CLI::App& wood, const AddCommand& add) {
  CLI::App* measure =
      add(wood, "measure", "Board feet by each way of counting, and the thickness to expect",
          [this] { return measure_; });
  measure->add_option("nominal", measure_.nominal, "8/4, 27 mm")->required()->type_name("NOMINAL");
  measure->add_option("width", measure_.width, "In inches, millimetres in a metric book")
      ->required()
      ->type_name("WIDTH");
  measure->add_option("length", measure_.length, "In feet, millimetres in a metric book")
      ->required()
      ->type_name("LENGTH");
  measure->add_option("--to", measure_.otherWidth, "Width at the other end, where it tapers")
      ->type_name("WIDTH");
}

void WoodArguments::addSpecies(CLI::App& wood, const AddCommand& add) {
  CLI::App* list = add(wood, "species", "Figures of all species, or of one with their sources",
                       [this] { return species_; });
  list->add_option("name", species_.name, "One species")->type_name("SPECIES");
  CLI::App* own = add(*list, "add", "Add a species, or your own figures of one, to the book",
                      [this] { return added_; });
  own->add_option("name", added_.name, "Its name in the shop")->required()->type_name("NAME");
  own->add_option("--botanical", added_.botanical, "Botanical name")->type_name("NAME");
  own->add_option("--source", added_.source, "Where the figures come from")
      ->required()
      ->type_name("TEXT");
  for (const FigureKind& kind : figureKinds()) {
    own->add_option(optionOf(kind.key), added_.figures[std::string(kind.key)],
                    std::string(kind.title))
        ->type_name("FIGURE");
  }
}

}  // namespace flitch::cli
