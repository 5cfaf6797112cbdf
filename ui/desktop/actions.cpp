#include "ui/desktop/actions.h"

#include <QKeySequence>
#include <array>
#include <stdexcept>

namespace flitch::desktop {
namespace {

constexpr std::array table{
    ActionRow{Act::toDeliveries, "deliveries", "Deliveries",
              "Get a load into the book faster than onto paper.", "Ctrl+1", everywhere, "",
              "go-jump"},
    ActionRow{Act::toRack, "rack", "Rack", "Find a board, know a board.", "Ctrl+2", everywhere, "",
              "go-jump"},
    ActionRow{Act::toJobs, "jobs", "Jobs",
              "Choose the boards of a job, and know how good the choice is.", "Ctrl+3", everywhere,
              "", "go-jump"},
    ActionRow{Act::toSaw, "saw", "Saw", "Cut by cut, or as planned: what was sawn is entered.",
              "Ctrl+4", everywhere, "", "go-jump"},
    ActionRow{Act::toLedger, "ledger", "Ledger", "What the wood cost, and where it went.", "Ctrl+5",
              everywhere, "", "go-jump"},
    ActionRow{Act::find, "find", "Find or scan", "Type or scan a tag: its board opens.", "Ctrl+F",
              everywhere, "", "edit-find"},
    ActionRow{Act::actions, "actions", "Actions", "Every action of this place and of the program.",
              "F10", everywhere, "", "open-menu"},
    ActionRow{Act::keys, "keys", "Keys of this place", "The sheet of keys.", "F1", everywhere, "",
              "help-contents"},
    ActionRow{Act::nextArea, "next-area", "Next area", "Goes to the next area of the window.", "F6",
              everywhere, "", "go-next"},
    ActionRow{Act::previousArea, "previous-area", "Area before", "Goes to the area before.",
              "Shift+F6", everywhere, "", "go-previous"},
    ActionRow{Act::dayOrNight, "day-night", "Day or night", "Changes between paper and slate.",
              "F9", everywhere, "", "weather-clear-night"},
    ActionRow{Act::fullScreen, "full-screen", "Full screen", "Fills the screen, or gives it back.",
              "F11", everywhere, "", "view-fullscreen"},
    ActionRow{Act::openBook, "open-book", "Open book", "Opens another book.", "Ctrl+O", everywhere,
              "", "document-open"},
    ActionRow{Act::copyBook, "copy-book", "Copy the book",
              "Writes a verified copy of the book beside it.", "Ctrl+S", everywhere, "",
              "document-save-as"},
    ActionRow{Act::undo, "undo", "Undo", "Takes back the last thing written in the book.", "Ctrl+Z",
              everywhere, "something written that nothing stands on", "edit-undo"},
    ActionRow{Act::redo, "redo", "Redo", "Does again what was taken back last.", "Ctrl+Shift+Z",
              everywhere, "something taken back here", "edit-redo"},
    ActionRow{Act::leave, "leave", "Leave", "Closes the window; all is kept.", "Ctrl+Q", everywhere,
              "", "application-exit"},

    ActionRow{Act::clearFilter, "clear-filter", "Clear the filter",
              "Shows every board of the rack.", "Ctrl+L", inRack | inDrawing, "", "edit-clear"},
    ActionRow{Act::takeTally, "take-tally", "Take in a tally from CSV",
              "Receives a delivery from a CSV file; nothing is taken if a cell cannot be read.",
              "Ctrl+I", inRack | inDrawing | inDeliveries, "", "document-import"},
    ActionRow{Act::printTags, "print-tags", "Print tags",
              "Prints the tags of the boards shown, on label sheets or a roll, or as PDF.",
              "Ctrl+P", inRack | inDrawing, "a board shown", "document-print"},
    ActionRow{Act::reprintTag, "reprint-tag", "Reprint one", "Prints the chosen board's tag again.",
              "Ctrl+Shift+P", inRack | inDrawing, "a board chosen", "document-print"},
    ActionRow{Act::sisters, "sisters", "Sisters",
              "Shows the boards of the same log in their sequence.", "Ctrl+Shift+S",
              inRack | inDrawing, "a board of a log chosen", "view-sort-ascending"},
    ActionRow{Act::oldestFirst, "oldest-first", "Oldest first",
              "Orders the boards as they came, those that lie longest first, or by tag again.",
              "Ctrl+Shift+O", inRack | inDrawing, "a board shown", "view-sort-descending"},
    ActionRow{Act::shape, "shape", "Taper and outline",
              "Measures the board again: outline points of both faces, thickness.", "Ctrl+T",
              inRack | inDrawing, "a board chosen", "draw-polygon"},
    ActionRow{Act::warp, "warp", "Warp",
              "Bow, crook, cup and twist as a straightedge or string shows them.", "Ctrl+Shift+W",
              inRack | inDrawing, "a board chosen", "draw-bezier-curves"},
    ActionRow{Act::photoCorners, "photo-corners", "Lay the photo to scale",
              "Pulls the corners of a photo to the board's, so that it lies under the marks.",
              "Ctrl+Shift+J", inRack | inDrawing, "a board with a photo", "transform-move"},
    ActionRow{Act::tallerBoard, "taller-board", "Taller board",
              "More room for the board's drawing.", "Ctrl+Shift+Up", inRack | inDrawing,
              "a board chosen", "zoom-in"},
    ActionRow{Act::lowerBoard, "lower-board", "Lower board", "More room for the list of boards.",
              "Ctrl+Shift+Down", inRack | inDrawing, "a board chosen", "zoom-out"},

    ActionRow{Act::quickMark, "quick-mark", "Quick mark",
              "Goes to the quick field: 12-17, 60-end, good 14-78.", "M", inDrawing,
              "a board chosen", "edit"},
    ActionRow{Act::soundKnot, "sound-knot", "Sound knot", "Puts a sound knot at the cross-hair.",
              "K", inDrawing, "a board chosen", "list-add", "sound knot"},
    ActionRow{Act::unsoundKnot, "unsound-knot", "Unsound knot",
              "Puts an unsound knot at the cross-hair.", "U", inDrawing, "a board chosen",
              "list-add", "unsound knot"},
    ActionRow{Act::check, "check", "Check", "Puts a check at the cross-hair.", "C", inDrawing,
              "a board chosen", "list-add", "check"},
    ActionRow{Act::split, "split", "Split", "Puts a split at the cross-hair.", "S", inDrawing,
              "a board chosen", "list-add", "split"},
    ActionRow{Act::wane, "wane", "Wane", "Puts wane at the edge nearest to the cross-hair.", "W",
              inDrawing, "a board chosen", "list-add", "wane"},
    ActionRow{Act::hole, "hole", "Hole", "Puts a hole at the cross-hair.", "H", inDrawing,
              "a board chosen", "list-add", "hole"},
    ActionRow{Act::stain, "stain", "Stain", "Puts a stain at the cross-hair.", "T", inDrawing,
              "a board chosen", "list-add", "stain"},
    ActionRow{Act::sapwood, "sapwood", "Sapwood",
              "Puts a strip of sapwood at the edge nearest to the cross-hair.", "L", inDrawing,
              "a board chosen", "list-add", "sapwood"},
    ActionRow{Act::pith, "pith", "Pith", "Puts pith at the cross-hair.", "P", inDrawing,
              "a board chosen", "list-add", "pith"},
    ActionRow{Act::barkPocket, "bark-pocket", "Bark pocket",
              "Puts a bark pocket at the cross-hair.", "B", inDrawing, "a board chosen", "list-add",
              "bark pocket"},
    ActionRow{Act::gum, "gum", "Gum", "Puts a gum streak at the cross-hair.", "G", inDrawing,
              "a board chosen", "list-add", "gum"},
    ActionRow{Act::markFace, "mark-face", "Face of the mark",
              "Changes the mark's face: A, B, through.", "F", inDrawing, "a mark chosen",
              "object-flip-vertical"},
    ActionRow{Act::lookedAt, "looked-at", "Looked at",
              "Says that the face under the cross-hair was looked at: no, rough, planed.", "V",
              inDrawing, "a board chosen", "view-visible"},
    ActionRow{Act::clearCuttings, "clear-cuttings", "Clear cuttings",
              "Draws the clear cuttings that the board's estimated grade rests on, or not.",
              "Ctrl+G", inRack | inDrawing, "a board with an estimate", "view-grid"},
    ActionRow{Act::addPhoto, "add-photo", "Photo",
              "Keeps a photo of the board, JPEG or PNG, scaled down.", "Ctrl+J", inRack | inDrawing,
              "a board chosen", "camera-photo"},
    ActionRow{Act::figures, "figures", "Figures of the mark",
              "Goes to the mark's place and size as figures.", "Return", inDrawing, "a mark chosen",
              "document-edit"},
    ActionRow{Act::nextMark, "next-mark", "Next mark", "Chooses the next mark of the board.",
              "PgDown", inDrawing, "a mark", "go-next"},
    ActionRow{Act::previousMark, "previous-mark", "Mark before", "Chooses the mark before.", "PgUp",
              inDrawing, "a mark", "go-previous"},
    ActionRow{Act::removeMark, "remove-mark", "Remove the mark",
              "Takes the chosen mark off the board.", "Del", inDrawing, "a mark chosen",
              "edit-delete"},
    ActionRow{Act::alongEdge, "along-edge", "Along the edge",
              "Makes the chosen mark a strip along its edge, over the whole length.", "E",
              inDrawing, "a mark chosen", "align-horizontal-left"},
    ActionRow{Act::zone, "zone", "Zone",
              "Puts a zone: good, show, plain, rift or quarter; again changes what it is.", "Z",
              inDrawing, "a board chosen", "draw-rectangle"},
    ActionRow{Act::snapping, "snapping", "Snap",
              "A pull is drawn to edges, marks and whole inches, or not; Alt lets go for once.",
              "N", inDrawing, "a board chosen", "snap-to-grid"},

    ActionRow{
        Act::takeJob, "take-job", "Take in a job from CSV",
        "Adds a job from a CSV file of parts, named as the file; NAME-sizes.csv beside it holds "
        "sizes they name.",
        "Ctrl+I", inJobs, "", "document-import"},
    ActionRow{Act::nextJob, "next-job", "Next job", "Shows the next job of the book.", "Ctrl+J",
              inJobs | whilePlanning, "two jobs", "go-next"},
    ActionRow{Act::plan, "plan", "Plan", "Finds boards and cuts for the job's parts.",
              "Ctrl+Return", inJobs, "a job with parts", "system-run"},
    ActionRow{Act::stop, "stop", "Stop, keep this plan",
              "Ends planning and keeps the best plan so far.", "Esc", whilePlanning,
              "a plan being made", "process-stop"},
    ActionRow{Act::trustUnseen, "trust-unseen", "Trust unseen faces",
              "Takes faces nobody has looked at for clear in the next plan, or not.", "Ctrl+U",
              inJobs, "a job", "view-hidden"},
    ActionRow{Act::lockBoard, "lock-board", "Lock the board's cuts",
              "The next plan cuts this board exactly so, or may cut it otherwise again.", "Ctrl+L",
              inJobs, "a board of the plan chosen", "object-locked"},
    ActionRow{Act::pinBoard, "pin-board", "Must be used",
              "The next plan takes this board in any case, or need not again.", "Ctrl+B", inJobs,
              "a board of the plan chosen", "emblem-favorite"},
    ActionRow{Act::keepOutBoard, "keep-out-board", "Keep the board out",
              "The next plan leaves this board on the rack, or may take it again.", "Ctrl+D",
              inJobs, "a board of the plan chosen", "edit-delete"},
    ActionRow{Act::settleNothing, "settle-nothing", "Settle nothing",
              "The next plan chooses freely: no lock, nothing kept out.", "Ctrl+Shift+D", inJobs,
              "something settled", "edit-clear"},
    ActionRow{Act::curves, "curves", "Curves", "Shows how cost and bound closed on each other.",
              "Ctrl+Shift+V", inJobs | whilePlanning, "a plan made in this window",
              "view-statistics"},
    ActionRow{Act::cutSheets, "cut-sheets", "Cut sheets", "Writes the plan's cut sheets as PDF.",
              "Ctrl+P", inJobs, "a planned job", "document-print"},
    ActionRow{Act::partLabels, "part-labels", "Part labels",
              "Writes a label for each blank as PDF, in cutting order.", "Ctrl+Shift+L", inJobs,
              "a planned job", "document-print"},
    ActionRow{Act::price, "price", "Price",
              "Shows what the job costs and what to buy for it, or its boards again.", "Ctrl+E",
              inJobs, "a job", "accessories-calculator"},
    ActionRow{Act::estimate, "estimate", "Estimate",
              "Writes what the job costs as PDF, for the shop alone.", "Ctrl+Shift+E", inJobs,
              "the price shown", "document-print"},
    ActionRow{Act::quote, "quote", "Give a quote",
              "Writes a price for the customer as PDF, without costs, and keeps it.", "Ctrl+T",
              inJobs, "the price shown", "document-send"},
    ActionRow{Act::takeLines, "take-lines", "Take in other lines",
              "Hardware, sheet goods, bars and hours of this job from a CSV file.", "Ctrl+Shift+I",
              inJobs, "a job", "document-import"},
    ActionRow{Act::sawAsPlanned, "saw-as-planned", "All as planned",
              "Records every board of the plan as sawn as drawn.", "Ctrl+K", inJobs,
              "a planned job with boards not sawn yet", "dialog-ok"},

    ActionRow{Act::cutAsDrawn, "cut-as-drawn", "Cut as drawn",
              "This cut is made; the last one records the board as sawn.", "Space", inSaw,
              "a board of the plan not sawn yet", "dialog-ok"},
    ActionRow{Act::lookBack, "look-back", "Look back", "Shows the cut before again.", "Backspace",
              inSaw, "a cut made", "go-previous"},
    ActionRow{Act::blankLost, "blank-lost", "Blank lost",
              "Blanks of this board that came to nothing, by hand mark: their copies are wanted "
              "again.",
              "L", inSaw, "a board of the plan not sawn yet", "list-remove"},
    ActionRow{Act::nextBoard, "next-board", "Next board", "Goes to the next board not sawn yet.",
              "N", inSaw, "another board not sawn yet", "go-next"},
    ActionRow{Act::allAsPlanned, "all-as-planned", "All as planned",
              "Records every board not sawn yet as sawn as drawn.", "Ctrl+Return", inSaw,
              "a board of the plan not sawn yet", "dialog-ok"},
    ActionRow{Act::nextSawJob, "next-saw-job", "Next job", "Shows the next planned job.", "Ctrl+J",
              inSaw, "two planned jobs", "go-next"},

    ActionRow{Act::planAround, "plan-around", "Plan around it",
              "Plans what is left again around what happened, changing as little as possible.",
              "Ctrl+R", inSaw, "a planned job", "system-run"},
    ActionRow{Act::fromPaper, "from-paper", "Enter from paper",
              "A line a board: type only what went otherwise, then record all in one go.", "Ctrl+I",
              inSaw, "a board of the plan not sawn yet", "document-edit"},

    ActionRow{Act::receiveLoad, "receive-load", "Receive",
              "Takes the boards of the tally into the book.", "Ctrl+Return", inDeliveries,
              "a tally without a fault", "dialog-ok"},
    ActionRow{Act::newDelivery, "new-delivery", "New delivery",
              "Goes to the tally of the load that is being unloaded.", "Ctrl+N", inDeliveries, "",
              "document-new"},
    ActionRow{Act::invoice, "invoice", "Invoice",
              "Opens what the invoice asks and claims: freight, tax, discount, boards, total.",
              "Ctrl+G", inDeliveries, "the tally open", "accessories-calculator"},
    ActionRow{Act::moreCells, "more-cells", "Taper and outline",
              "Shows the other cells of a line: outline points of both faces, thickness, moisture.",
              "Ctrl+T", inDeliveries, "the tally open", "view-list-details"},
    ActionRow{Act::cutForVan, "cut-for-van", "Cut for the van",
              "This line and a new one came as one board: billed once, two tags, cost shared.",
              "Ctrl+H", inDeliveries, "a line", "edit-cut"},
    ActionRow{Act::claimSheet, "claim-sheet", "Claim sheet",
              "Writes what is wrong with the delivery, with photos, as PDF or as CSV.",
              "Ctrl+Shift+G", inDeliveries, "a delivery with something wrong", "document-export"},
    ActionRow{Act::returnBoard, "return-board", "Return",
              "Sends the chosen board back to its supplier, or takes the credit that came for it.",
              "Ctrl+R", inDeliveries, "a delivery's board chosen", "edit-undo"},
    ActionRow{Act::repeatLine, "repeat-line", "Repeat the line",
              "A new line with the sizes of the one above.", "Ctrl+D", inDeliveries, "a line",
              "list-add"},
    ActionRow{Act::removeLine, "remove-line", "Remove the line", "Takes the line off the tally.",
              "Ctrl+Del", inDeliveries, "a line", "list-remove"},

    ActionRow{Act::goDown, "go-down", "Boards behind",
              "Goes down to the boards of the row, then to a board's family.", "Ctrl+Down",
              inLedger, "a row with boards", "go-down"},
    ActionRow{Act::goUp, "go-up", "Back", "Goes up again to the report.", "Backspace", inLedger,
              "boards shown", "go-up"},
    ActionRow{Act::reportCsv, "report-csv", "Report as CSV", "Writes the rows shown to a file.",
              "Ctrl+E", inLedger, "", "document-export"},
    ActionRow{Act::reportPdf, "report-pdf", "Report as PDF", "Writes the rows shown as pages.",
              "Ctrl+P", inLedger, "", "document-print"},
};

}  // namespace

std::span<const ActionRow> actionTable() { return table; }

const ActionRow& row(Act act) {
  for (const ActionRow& r : table) {
    if (r.act == act) return r;
  }
  throw std::logic_error("an action without a row");
}

std::vector<QString> clashes(std::span<const ActionRow> rows) {
  std::vector<QString> found;
  const auto say = [&](const ActionRow& r, const QString& what) {
    found.push_back(QString("%1: %2").arg(QString(r.id), what));
  };
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const ActionRow& a = rows[i];
    if (QString(a.name).isEmpty()) say(a, "no name");
    if (QString(a.name).size() > 24) say(a, "a name over 24 letters");
    if (QString(a.sentence).isEmpty()) say(a, "no sentence");
    const QKeySequence key(QString(a.key), QKeySequence::PortableText);
    if (key.isEmpty() || key[0].key() == Qt::Key_unknown) say(a, "no key");
    if (a.where == 0) say(a, "live nowhere");
    for (std::size_t j = i + 1; j < rows.size(); ++j) {
      const ActionRow& b = rows[j];
      if (QString(a.id) == QString(b.id)) say(a, "the same id twice");
      if ((a.where & b.where) && key == QKeySequence(QString(b.key), QKeySequence::PortableText)) {
        say(a, QString("the same key as %1, and both can be live").arg(QString(b.id)));
      }
    }
  }
  return found;
}

}  // namespace flitch::desktop
