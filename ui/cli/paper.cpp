#include "ui/cli/paper.h"

#include <QDir>
#include <QFileInfo>
#include <QImage>

#include "labels/label_stock.h"

namespace flitch::cli {

namespace {

constexpr int pngDpi = 300;

const pages::LabelStock& stockOf(const LabelsTo& labels) {
  const pages::LabelStock* stock = pages::findLabelStock(labels.stock);
  if (stock == nullptr) {
    std::string names;
    for (const pages::LabelStock& known : pages::labelStocks()) {
      names += (names.empty() ? "" : ", ") + std::string(known.name);
    }
    throw Refusal("unknown-stock", Complaint{"--stock", "there is no label stock " + labels.stock,
                                             labels.stock, names});
  }
  if (labels.startAt > stock->perPage()) {
    throw Refusal(
        "bad-start",
        Complaint{"--start-at", "the sheet has no label " + std::to_string(labels.startAt),
                  std::to_string(labels.startAt), "1 to " + std::to_string(stock->perPage())});
  }
  return *stock;
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

void writeTags(const std::vector<Board>& boards, const LabelsTo& labels, Answer& answer) {
  const pages::LabelStock& stock = stockOf(labels);
  std::vector<pages::Page> tags;
  for (const Board& board : boards) tags.push_back(pages::boardTag(board, stock, answer.unit()));
  writePages(pages::impose(tags, stock, labels.startAt), labels.paper, "Tags", answer);
}

void writeBlankTags(const std::vector<TagCode>& codes, const LabelsTo& labels, Answer& answer) {
  const pages::LabelStock& stock = stockOf(labels);
  std::vector<pages::Page> tags;
  for (const TagCode code : codes) tags.push_back(pages::blankTag(code, stock));
  writePages(pages::impose(tags, stock, labels.startAt), labels.paper, "Blank tags", answer);
}

void writeBayTags(const std::vector<pages::BayTag>& bays, const LabelsTo& labels, Answer& answer) {
  const pages::LabelStock& stock = stockOf(labels);
  std::vector<pages::Page> pages;
  for (const pages::BayTag& bay : bays) pages.push_back(pages::bayTag(bay, stock));
  writePages(pages::impose(pages, stock, labels.startAt), labels.paper, "Bay tags", answer);
}

void writePartLabels(const std::vector<pages::PartLabel>& parts, const LabelsTo& labels,
                     Answer& answer) {
  const pages::LabelStock& stock = stockOf(labels);
  std::vector<pages::Page> pages;
  for (const pages::PartLabel& part : parts) pages.push_back(pages::partLabel(part, stock));
  writePages(pages::impose(pages, stock, labels.startAt), labels.paper, "Part labels", answer);
}

void checkLabels(const LabelsTo& labels) {
  static_cast<void>(stockOf(labels));
  checkPaper(labels.paper);
}

}  // namespace flitch::cli
