#include "inventory/desk/label_papers.h"

#include "inventory/store/writer.h"

namespace flitch::desk {

EntryId addLabelPaper(store::Book& book, const LabelPaper& paper, const store::Hand& hand) {
  validate(paper);
  return book.change({"label stock added", {}, paper.name, {}}, hand,
                     [&](store::Writer& writer) { writer.addLabelPaper(paper); });
}

EntryId setPrinter(store::Book& book, const PrinterAlignment& printer, const store::Hand& hand) {
  validate(printer);
  return book.change({"printer set", {}, printer.name, {}}, hand,
                     [&](store::Writer& writer) { writer.setPrinter(printer); });
}

}  // namespace flitch::desk
