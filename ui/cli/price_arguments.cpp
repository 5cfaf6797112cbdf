#include "ui/cli/price_arguments.h"

#include <CLI/CLI.hpp>

#include "inventory/exchange/columns.h"

namespace flitch::cli {

void PriceArguments::addPrice(CLI::App& app, const AddCommand& add) {
  CLI::App* sub = add(app, "price", "What stock costs to buy again: show it, or take in a list",
                      [this] { return price_; });
  sub->add_option("prices", price_.file, "CSV file with a head row; without one they are shown")
      ->type_name("PRICES.csv");
  sub->add_option("--on", price_.on, "As on this day, 2026-05-31 (else today)")->type_name("DATE");
  sub->add_option("--csv", price_.csv, "Write the rows to this file")->type_name("FILE");
  sub->footer(columnHelp("Columns of a price list, in any order:", exchange::priceColumns()) +
              "\n\n" + sub->get_footer());
}

void PriceArguments::addDemand(CLI::App& app, const AddCommand& add) {
  CLI::App* sub = add(app, "demand", "The shop's demand table: show it, or set it anew",
                      [this] { return demands_; });
  sub->add_option(
         "demands", demands_.file,
         "CSV file: a column demand, one for each kind of mark (empty, any, or the largest "
         "size), unseen, outside_good; without a file the table is shown")
      ->type_name("DEMANDS.csv");
  sub->add_option("--csv", demands_.csv, "Write the table to this file")->type_name("FILE");
}

void PriceArguments::addCopy(CLI::App& job, const AddCommand& add) {
  CLI::App* change = add(job, "change", "Give a job other parts, or other named sizes",
                         [this] { return change_; });
  change->add_option("name", change_.name, "The job")->required()->type_name("JOB");
  change
      ->add_option("parts", change_.parts,
                   "CSV file with all its parts; those of the same name keep their letter")
      ->type_name("PARTS.csv");
  change->add_option("--size", change_.sizes, "One of its named sizes comes to this: width=60")
      ->type_name("NAME=SIZE");
  CLI::App* sub = add(job, "copy", "Add a copy of a job: times so many, with other sizes",
                      [this] { return copy_; });
  sub->add_option("from", copy_.from, "The job to copy")->required()->type_name("JOB");
  sub->add_option("name", copy_.name, "The new job's name")->required()->type_name("NAME");
  sub->add_option("--times", copy_.times, "So many of the whole job")
      ->check(CLI::Range(1, 1000))
      ->type_name("N");
  sub->add_option("--size", copy_.sizes, "One of its named sizes comes to this: width=60")
      ->type_name("NAME=SIZE");
  sub->add_option("--customer", copy_.customer, "For whom (else the same)")->type_name("NAME");
}

void PriceArguments::addBuy(CLI::App& job, const AddCommand& add) {
  CLI::App* sub = add(job, "buy",
                      "What to buy for a job: what its newest plan lacks, what of an offer, or "
                      "which grade",
                      [this] { return buy_; });
  sub->add_option("name", buy_.job, "The job's name")->required()->type_name("JOB");
  auto* offer = sub->add_option("--offer", buy_.offer,
                                "A supplier's tally, planned as if owned: which of it to buy");
  offer->type_name("TALLY.csv");
  sub->add_flag("--grades", buy_.grades,
                "What the parts would take of each grade, on stock such as the book has seen")
      ->excludes(offer);
  sub->add_option("--on", buy_.on, "At the prices of this day, 2026-05-31 (else today)")
      ->type_name("DATE");
  sub->add_option("--seconds", buy_.seconds, "Time to search at most, for each plan")
      ->check(CLI::Range(0.0, 600.0))
      ->type_name("S")
      ->capture_default_str();
}

void PriceArguments::addFit(CLI::App& app, const AddCommand& add) {
  CLI::App* sub = add(
      app, "fit", "What a board is good for, or which boards give a piece with least loss", [this] {
        if (fit_.tag.empty() == fit_.size.empty()) {
          throw WrongUse{"give a board's TAG, or --size '30 x 4 x 3/4'"};
        }
        return fit_;
      });
  sub->add_option("tag", fit_.tag, "A board: the parts of jobs that it serves")->type_name("TAG");
  auto* size = sub->add_option("--size", fit_.size, "Finished: length x width x thickness");
  size->type_name("SIZE");
  sub->add_option("--species", fit_.species, "Of this species alone")
      ->needs(size)
      ->type_name("NAME");
  sub->add_option("--face-a", fit_.faceA, "What the better face must be")
      ->needs(size)
      ->capture_default_str();
  sub->add_option("--face-b", fit_.faceB, "What the other face must be")
      ->needs(size)
      ->capture_default_str();
  sub->add_option("--edges", fit_.edges, "What the long edges must be")
      ->needs(size)
      ->capture_default_str();
}

void PriceArguments::addToJob(CLI::App& job, const AddCommand& add) {
  addCopy(job, add);
  addBuy(job, add);
  CLI::App* lines =
      add(job, "lines", "What a job costs beside its lumber: show it, or set all of it anew",
          [this] { return lines_; });
  lines->add_option("name", lines_.job, "The job's name")->required()->type_name("JOB");
  lines->add_option("lines", lines_.file, "CSV file with a head row; without one they are shown")
      ->type_name("LINES.csv");
  lines->add_option("--csv", lines_.csv, "Write the rows to this file")->type_name("FILE");
  lines->footer(columnHelp("Columns of a job's lines, in any order:", exchange::jobLineColumns()) +
                "\n\n" + lines->get_footer());
  CLI::App* estimate =
      add(job, "estimate", "What a job costs, at what its boards cost and at today's prices",
          [this] { return estimate_; });
  estimate->add_option("name", estimate_.job, "The job's name")->required()->type_name("JOB");
  estimate->add_option("--on", estimate_.on, "At the prices of this day, 2026-05-31 (else today)")
      ->type_name("DATE");
  estimate->add_option("--csv", estimate_.csv, "Write the rows to this file")->type_name("FILE");
  addPaper(estimate, estimate_.paper);
  addQuote(job, add);
}

void PriceArguments::addQuote(CLI::App& job, const AddCommand& add) {
  CLI::App* sub = add(job, "quote", "Give a customer a price without costs; it is kept", [this] {
    const bool says = !quote_.title.empty() || !quote_.words.empty() || !quote_.terms.empty() ||
                      !quote_.price.empty() || !quote_.validUntil.empty() || !quote_.on.empty();
    if (quote_.again && says) throw WrongUse{"--again prints the newest quote as it was given"};
    return quote_;
  });
  sub->add_option("name", quote_.job, "The job's name")->required()->type_name("JOB");
  sub->add_option("--title", quote_.title, "What is made, in a line (else the job's name)")
      ->type_name("TEXT");
  sub->add_option("--text", quote_.words, "What is made, in full")->type_name("TEXT");
  sub->add_option("--terms", quote_.terms, "What is left out, when it is paid, when it is ready")
      ->type_name("TEXT");
  sub->add_option("--price", quote_.price,
                  "The price (else the estimate's sum at today's prices, to the whole unit)")
      ->type_name("AMOUNT");
  sub->add_option("--on", quote_.on, "Day it is given, 2026-05-31 (else today)")->type_name("DATE");
  sub->add_option("--valid-until", quote_.validUntil, "Last day it holds")->type_name("DATE");
  sub->add_flag("--again", quote_.again, "Show the newest quote again and give none");
  addPaper(sub, quote_.paper);
}

}  // namespace flitch::cli
