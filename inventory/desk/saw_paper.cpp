#include "inventory/desk/saw_paper.h"

#include <algorithm>
#include <cctype>
#include <sstream>

#include "inventory/records/job.h"
#include "inventory/records/refusal.h"

namespace flitch::desk {

std::vector<std::string> marksOf(const Cutting& cutting) {
  std::vector<std::pair<int, int>> blanks;
  for (const Piece& piece : cutting.pieces) {
    if (piece.kind == PieceKind::blank) blanks.emplace_back(piece.line, piece.copy);
  }
  std::sort(blanks.begin(), blanks.end());
  std::vector<std::string> marks;
  for (const auto& [line, number] : blanks) marks.push_back(handMark(line, number));
  return marks;
}

PaperLine readPaper(const std::string& text, const Cutting& cutting) {
  constexpr const char* accepted = "nothing: as planned; no; B3 lost";
  std::string upper = text;
  std::transform(upper.begin(), upper.end(), upper.begin(), [](unsigned char letter) {
    return letter == ',' || letter == ';' ? ' ' : static_cast<char>(std::toupper(letter));
  });
  std::istringstream from(upper);
  std::vector<std::string> words;
  for (std::string word; from >> word;) words.push_back(word);
  PaperLine line;
  if (words.empty()) return line;
  if (words.size() == 1 && words[0] == "NO") {
    line.sawn = false;
    return line;
  }
  if (words.back() != "LOST" || words.size() == 1) {
    throw Refusal("bad-line",
                  Complaint{"", "`" + text + "` does not say what went otherwise", text, accepted});
  }
  words.pop_back();
  const std::vector<std::string> marks = marksOf(cutting);
  for (const std::string& word : words) {
    if (std::find(marks.begin(), marks.end(), word) == marks.end()) {
      std::string there;
      for (const std::string& mark : marks) there += (there.empty() ? "" : ", ") + mark;
      throw Refusal("no-such-blank",
                    Complaint{"", "This board gives no blank " + word, word, there});
    }
    if (std::find(line.lost.begin(), line.lost.end(), word) == line.lost.end()) {
      line.lost.push_back(word);
    }
  }
  return line;
}

}  // namespace flitch::desk
