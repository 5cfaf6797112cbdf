#pragma once
#include <vector>

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

/// Tags of boards on the stock asked for. Throws Refusal for an unknown stock, naming those there
/// are, and for a first label the sheet does not have.
void writeTags(const std::vector<Board>& boards, const LabelsTo& labels, Answer& answer);
void writeBlankTags(const std::vector<TagCode>& tags, const LabelsTo& labels, Answer& answer);
void writeBayTags(const std::vector<pages::BayTag>& bays, const LabelsTo& labels, Answer& answer);
void writePartLabels(const std::vector<pages::PartLabel>& parts, const LabelsTo& labels,
                     Answer& answer);

/// Throws what writeTags() would: an unknown stock, a label it does not have, nowhere to write.
void checkLabels(const LabelsTo& labels);

}  // namespace flitch::cli
