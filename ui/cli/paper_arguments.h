#pragma once
#include "ui/cli/wood_arguments.h"

namespace flitch::cli {

/// The arguments of `flitch paper`; they must stay where they are while CLI11 parses.
class PaperArguments {
 public:
  void addTo(CLI::App& app, const AddCommand& add);

 private:
  [[nodiscard]] Paper read() const;

  Paper paper_;
};

/// The arguments of `flitch photo`, likewise.
class PhotoArguments {
 public:
  void addTo(CLI::App& app, const AddCommand& add);

 private:
  [[nodiscard]] Photos read() const;

  Photos photos_;
  std::string of_;
};

}  // namespace flitch::cli
