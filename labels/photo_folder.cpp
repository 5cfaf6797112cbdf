#include "labels/photo_folder.h"

#include <QDir>
#include <QFileInfo>

#include "inventory/records/refusal.h"

namespace flitch::pages {

PhotoFolder::PhotoFolder(std::string folder) : folder_(std::move(folder)) {
  const QFileInfo info(QString::fromStdString(folder_));
  if (!info.isDir() || !info.isReadable())
    throw Refusal("no-folder", {"--watch", "There is no folder to read there.", folder_,
                                "a folder that a phone drops photos into"});
}

std::map<std::string, std::int64_t> PhotoFolder::sizes() const {
  std::map<std::string, std::int64_t> found;
  const QDir dir(QString::fromStdString(folder_));
  // Names match in either case.
  for (const QFileInfo& file :
       dir.entryInfoList({"*.jpg", "*.jpeg", "*.png"}, QDir::Files, QDir::Name))
    found[file.absoluteFilePath().toStdString()] = file.size();
  return found;
}

std::vector<std::string> PhotoFolder::look() {
  const auto now = sizes();
  std::vector<std::string> ready;
  for (const auto& [path, size] : now) {
    const auto before = before_.find(path);
    if (before == before_.end() || before->second != size) continue;
    if (done_.insert(path).second) ready.push_back(path);
  }
  before_ = now;
  return ready;
}

std::vector<std::string> PhotoFolder::lookOnce() {
  before_ = sizes();
  return look();
}

}  // namespace flitch::pages
