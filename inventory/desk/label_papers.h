#pragma once
#include "inventory/records/label_paper.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// Keeps a label stock of the maker's own; one of the same name before holds no longer. Throws
/// Refusal with everything wrong with its numbers.
EntryId addLabelPaper(store::Book& book, const LabelPaper& paper, const store::Hand& hand);
/// Keeps how a printer lies. Throws Refusal for figures no printer has.
EntryId setPrinter(store::Book& book, const PrinterAlignment& printer, const store::Hand& hand);

}  // namespace flitch::desk
