#pragma once
#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace flitch::pages {

/// A folder that a phone drops photos into. Files are left where they are.
class PhotoFolder {
 public:
  /// Throws Refusal when there is no such folder, or it cannot be read.
  explicit PhotoFolder(std::string folder);
  [[nodiscard]] const std::string& path() const { return folder_; }

  /// JPEG and PNG files (by name) that came since, in order of name, each handed out once. A file
  /// is left until its size is the same as at the last look: it may still be coming.
  [[nodiscard]] std::vector<std::string> look();
  /// All that lie there and were not handed out, however new.
  [[nodiscard]] std::vector<std::string> lookOnce();

 private:
  [[nodiscard]] std::map<std::string, std::int64_t> sizes() const;

  std::string folder_;
  std::map<std::string, std::int64_t> before_;
  std::set<std::string> done_;
};

}  // namespace flitch::pages
