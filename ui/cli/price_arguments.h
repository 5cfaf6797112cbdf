#pragma once
#include "ui/cli/wood_arguments.h"

namespace flitch::cli {

/// The arguments of `flitch price`, `demand` and `fit` and of `flitch job change`, `copy`, `buy`,
/// `lines`, `estimate` and `quote`: a member for each, filled while CLI11 parses; they must stay
/// where they are until then.
class PriceArguments {
 public:
  void addPrice(CLI::App& app, const AddCommand& add);
  void addDemand(CLI::App& app, const AddCommand& add);
  void addFit(CLI::App& app, const AddCommand& add);
  void addToJob(CLI::App& job, const AddCommand& add);

 private:
  void addCopy(CLI::App& job, const AddCommand& add);
  void addBuy(CLI::App& job, const AddCommand& add);
  void addQuote(CLI::App& job, const AddCommand& add);

  Price price_;
  Demands demands_;
  JobChange change_;
  JobCopy copy_;
  JobBuy buy_;
  Fit fit_;
  JobLines lines_;
  JobEstimate estimate_;
  JobQuote quote_;
};

}  // namespace flitch::cli
