#include "inventory/records/refusal.h"

#include <utility>

namespace flitch {
namespace {

std::string lines(const std::vector<Complaint>& complaints) {
  std::string out;
  for (const Complaint& complaint : complaints) {
    if (!out.empty()) out += '\n';
    out += text(complaint);
  }
  return out;
}

}  // namespace

std::string text(const Complaint& complaint) {
  std::string out = complaint.sentence;
  if (!complaint.place.empty()) out.insert(0, complaint.place + ": ");
  if (!out.empty() && std::string_view(".?!").find(out.back()) == std::string_view::npos)
    out += '.';
  if (!complaint.accepted.empty()) out += " Accepted: " + complaint.accepted + ".";
  return out;
}

Refusal::Refusal(std::string code, Complaint complaint)
    : Refusal(std::move(code), std::vector<Complaint>{std::move(complaint)}) {}

Refusal::Refusal(std::string code, std::vector<Complaint> complaints)
    : std::runtime_error(lines(complaints)),
      code_(std::move(code)),
      complaints_(std::move(complaints)) {}

Stale::Stale(const std::string& what)
    : Refusal("stale", Complaint{"", what + " was changed at another station", "", ""}) {}

Stale::Stale(Complaint complaint) : Refusal("stale", std::move(complaint)) {}

}  // namespace flitch
