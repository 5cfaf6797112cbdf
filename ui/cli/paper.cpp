#include "ui/cli/paper.h"

#include <QDir>
#include <QFileInfo>
#include <QImage>
#include <algorithm>

#include "labels/label_stock.h"

namespace flitch::cli {

namespace {

constexpr int pngDpi = 300;

template <class Named>
std::string namesOf(const std::vector<Named>& all) {
  std::string names;
  for (const Named& one : all) names += (names.empty() ? "" : ", ") + one.name;
  return names;
}

/// The one of that name. Throws Refusal naming those there are.
template <class Named>
Named named(const std::vector<Named>& all, const std::string& name, const char* option,
            const std::string& what) {
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const Named& one) { return one.name == name; });
  if (found != all.end()) return *found;
  throw Refusal(
      "unknown-" + what.substr(what.rfind(' ') + 1),
      Complaint{option, "there is no " + what + " " + name, name,
                all.empty() ? "one kept with flitch paper " + std::string(option) : namesOf(all)});
}

Refusal cannotWrite(const std::string& option, const std::string& what) {
  return {"cannot-write",
          Complaint{option, what + " cannot be written", what, "a path in a folder to write in"}};
}

void writePngs(const std::vector<pages::Page>& pages, const std::string& folder) {
  const QString path = QString::fromStdString(folder);
  if (!QDir().mkpath(path)) throw cannotWrite("--png", folder);
  int number = 0;
  for (const pages::Page& page : pages) {
    const QString file =
        QDir(path).filePath(QStringLiteral("page-%1.png").arg(++number, 2, 10, QLatin1Char('0')));
    if (!pages::toImage(page, pngDpi).save(file)) throw cannotWrite("--png", file.toStdString());
  }
}

}  // namespace

void checkPaper(const PaperTo& paper) {
  if (!paper.pdf.empty()) {
    const QFileInfo file(QString::fromStdString(paper.pdf));
    const QFileInfo folder(file.absolutePath());
    const bool writable =
        file.exists() ? file.isFile() && file.isWritable() : folder.isDir() && folder.isWritable();
    if (!writable) throw cannotWrite("--pdf", paper.pdf);
  }
  if (!paper.pngFolder.empty()) {
    const QString folder = QString::fromStdString(paper.pngFolder);
    if (!QDir().mkpath(folder) || !QFileInfo(folder).isWritable()) {
      throw cannotWrite("--png", paper.pngFolder);
    }
  }
}

void writePages(const std::vector<pages::Page>& pages, const PaperTo& paper,
                const std::string& title, Answer& answer) {
  const std::string count = counted(pages.size(), "page", "pages");
  if (!paper.pdf.empty()) {
    pages::writePdf(pages, paper.pdf, QString::fromStdString(title));
    answer.say(paper.pdf + ": " + count);
    answer.put("pdf", paper.pdf);
  }
  if (!paper.pngFolder.empty()) {
    writePngs(pages, paper.pngFolder);
    answer.say(paper.pngFolder + ": " + count);
    answer.put("png_folder", paper.pngFolder);
  }
  answer.put("pages", static_cast<std::int64_t>(pages.size()));
}

LabelPrint labelPrint(const LabelsTo& labels, const store::Snapshot& snapshot) {
  checkPaper(labels.paper);
  LabelPrint print;
  print.stock =
      named(pages::labelStocks(snapshot.labelPapers()), labels.stock, "--stock", "label stock");
  if (!labels.printer.empty())
    print.printer = named(snapshot.printers(), labels.printer, "--printer", "printer");
  if (labels.startAt > print.stock.perPage()) {
    throw Refusal(
        "bad-start",
        Complaint{"--start-at", "the sheet has no label " + std::to_string(labels.startAt),
                  std::to_string(labels.startAt), "1 to " + std::to_string(print.stock.perPage())});
  }
  print.startAt = labels.startAt;
  print.copies = labels.copies;
  print.paper = labels.paper;
  return print;
}

namespace {

/// Lays one label for each of `things` and writes the sheets.
template <class Things, class Draw>
void writeLabels(const Things& things, const Draw& draw, const LabelPrint& labels,
                 const std::string& title, Answer& answer) {
  std::vector<pages::Page> drawn;
  for (const auto& thing : things) drawn.push_back(draw(thing));
  std::vector<pages::Page> sheets =
      pages::impose(drawn, labels.stock, labels.startAt, labels.copies);
  if (labels.printer) sheets = pages::aligned(std::move(sheets), *labels.printer);
  writePages(sheets, labels.paper, title, answer);
}

}  // namespace

void writeTags(const std::vector<Board>& boards, const LabelPrint& labels, Answer& answer) {
  const auto draw = [&](const Board& board) {
    return pages::boardTag(board, labels.stock, answer.unit());
  };
  writeLabels(boards, draw, labels, "Tags", answer);
}

void writeBlankTags(const std::vector<TagCode>& codes, const LabelPrint& labels, Answer& answer) {
  const auto draw = [&](TagCode code) { return pages::blankTag(code, labels.stock); };
  writeLabels(codes, draw, labels, "Blank tags", answer);
}

void writeBayTags(const std::vector<pages::BayTag>& bays, const LabelPrint& labels,
                  Answer& answer) {
  const auto draw = [&](const pages::BayTag& bay) { return pages::bayTag(bay, labels.stock); };
  writeLabels(bays, draw, labels, "Bay tags", answer);
}

void writePartLabels(const std::vector<pages::PartLabel>& parts, const LabelPrint& labels,
                     Answer& answer) {
  const auto draw = [&](const pages::PartLabel& part) {
    return pages::partLabel(part, labels.stock);
  };
  writeLabels(parts, draw, labels, "Part labels", answer);
}

}  // namespace flitch::cli
