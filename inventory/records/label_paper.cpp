#include "inventory/records/label_paper.h"

#include <cstdlib>

#include "inventory/records/refusal.h"

namespace flitch {
namespace {

constexpr Length mostPage = Length::millimetres(2000);
constexpr int mostLabels = 50;  // in a row or column

class Complaints {
 public:
  void add(bool wrong, const char* place, std::string sentence, std::string value,
           std::string accepted) {
    if (wrong) all_.push_back({place, std::move(sentence), std::move(value), std::move(accepted)});
  }
  void refuse(const char* code) {
    if (!all_.empty()) throw Refusal(code, std::move(all_));
  }

 private:
  std::vector<Complaint> all_;
};

std::string mm(Length length) { return text(length, LengthStyle::millimetres) + " mm"; }

/// One direction of the sheet.
struct Way {
  const char *page, *label, *count, *step;
  Length room, size, first, pitch;
  int number;
};

void look(const Way& way, Complaints& wrong) {
  wrong.add(way.room <= Length{} || way.room > mostPage, way.page, "the page has no such size",
            mm(way.room), "up to 2 m");
  wrong.add(way.size <= Length{}, way.label, "the label has no such size", mm(way.size),
            "above zero");
  wrong.add(way.number < 1 || way.number > mostLabels, way.count, "a sheet has not so many labels",
            std::to_string(way.number), "1 to 50");
  if (way.number < 1 || way.number > mostLabels) return;
  wrong.add(way.number > 1 && way.pitch < way.size, way.step, "labels would lie on each other",
            mm(way.pitch), "at least " + mm(way.size));
  const Length end = way.first + way.pitch * (way.number - 1) + way.size;
  wrong.add(end > way.room, way.count, "the last label would end off the page, at " + mm(end),
            mm(way.room), "labels that lie on the page");
}

}  // namespace

void validate(const LabelPaper& paper) {
  Complaints wrong;
  wrong.add(paper.name.empty(), "--stock", "a label stock needs a name", "", "small-labels");
  look({"--page", "--label", "--columns", "--step", paper.pageWidth, paper.labelWidth, paper.left,
        paper.across, paper.columns},
       wrong);
  look({"--page", "--label", "--rows", "--step", paper.pageHeight, paper.labelHeight, paper.top,
        paper.down, paper.rows},
       wrong);
  wrong.refuse("bad-label-stock");
}

void validate(const PrinterAlignment& printer) {
  constexpr std::int64_t farthest = 20'000'000;
  constexpr int most = 500;
  Complaints wrong;
  wrong.add(printer.name.empty(), "--printer", "a printer needs a name", "", "office");
  for (const auto& [place, by] :
       {std::pair("--right", printer.right), std::pair("--down", printer.down)})
    wrong.add(std::abs(by) > farthest, place, "so far off, the paper lies wrong",
              std::to_string(by / 1'000'000) + " mm", "-20 to 20 mm");
  for (const auto& [place, by] :
       {std::pair("--wide", printer.wide), std::pair("--high", printer.high)})
    wrong.add(std::abs(by - 10'000) > most, place, "no printer is so far out of scale",
              std::to_string(by / 100) + " %", "95 to 105 %");
  wrong.refuse("bad-printer");
}

}  // namespace flitch
