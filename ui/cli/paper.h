#pragma once
#include <optional>
#include <vector>

#include "inventory/store/snapshot.h"
#include "labels/tag_page.h"
#include "ui/cli/arguments.h"
#include "ui/cli/output.h"

namespace flitch::cli {

/// Throws Refusal when the pages could not be written there: asked before anything is done, since a
/// command that fails leaves the book as it was.
void checkPaper(const PaperTo& paper);

/// Writes pages where the command asked for and says so in the answer.
void writePages(const std::vector<pages::Page>& pages, const PaperTo& paper,
                const std::string& title, Answer& answer);

/// Labels as they will be printed.
struct LabelPrint {
  pages::LabelStock stock;
  std::optional<PrinterAlignment> printer;
  int startAt = 1, copies = 1;
  PaperTo paper;
};
/// What the command asks of labels. Throws Refusal for an unknown stock or printer, naming those
/// there are, for a first label the sheet does not have, and when nothing could be written there:
/// asked before anything is done.
[[nodiscard]] LabelPrint labelPrint(const LabelsTo& labels, const store::Snapshot& snapshot);

void writeTags(const std::vector<Board>& boards, const LabelPrint& labels, Answer& answer);
void writeBlankTags(const std::vector<TagCode>& tags, const LabelPrint& labels, Answer& answer);
void writeBayTags(const std::vector<pages::BayTag>& bays, const LabelPrint& labels, Answer& answer);
void writePartLabels(const std::vector<pages::PartLabel>& parts, const LabelPrint& labels,
                     Answer& answer);

}  // namespace flitch::cli
