#pragma once
#include <stdexcept>
#include <string>

namespace flitch {

/// A text that is not the value it should be. what() is a sentence without place; the caller who
/// knows the place (file, line, column, field) turns it into a Refusal or a Complaint.
struct Unreadable : std::invalid_argument {
  Unreadable(const std::string& sentence, std::string valueRead, std::string acceptedForms)
      : std::invalid_argument(sentence),
        value(std::move(valueRead)),
        accepted(std::move(acceptedForms)) {}

  std::string value;     ///< as read, cut to 60 characters
  std::string accepted;  ///< what would have been taken, e.g. "7 3/8, 7.375, 187.5 mm"
};

}  // namespace flitch
