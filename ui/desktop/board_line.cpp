#include "ui/desktop/board_line.h"

#include <array>

#include "inventory/wood/moisture.h"
#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {

constexpr const char* boardWords =
    "bay B3 · note for the door · keep back · let go · moisture 8.5 ready · retire split in two · "
    "return honeycombed end · new tag";

/// What stands behind a first word, as typed.
std::string behind(const std::string& text, std::size_t word) {
  const std::string_view all = trimmed(text);
  return std::string(trimmed(all.substr(std::min(word, all.size()))));
}

BoardWords moistureOf(const std::string& said) {
  BoardWords words;
  words.what = BoardWords::What::reading;
  std::string figure = said;
  for (const MoistureState state :
       {MoistureState::wet, MoistureState::resting, MoistureState::ready}) {
    const std::string_view name = word(state);
    if (!figure.ends_with(name)) continue;
    words.state = state;
    figure = std::string(trimmed(std::string_view(figure).substr(0, figure.size() - name.size())));
    break;
  }
  words.tenthsPercent = parseMoisture(figure);
  return words;
}

}  // namespace

BoardWords readBoardWords(const std::string& text) {
  using What = BoardWords::What;
  const Unreadable unreadable(inBackticks(text) + " does not say what was done", shortened(text),
                              boardWords);
  const std::string written = plain(text);
  if (written == "keep back") return {What::keepBack, "", 0, MoistureState::ready};
  if (written == "let go") return {What::letGo, "", 0, MoistureState::ready};
  if (written == "new tag") return {What::newTag, "", 0, MoistureState::ready};
  const std::size_t end = written.find(' ');
  const std::string verb = written.substr(0, end);
  const std::string said = behind(text, verb.size());
  if (verb == "note") return {What::note, said, 0, MoistureState::ready};
  if (said.empty()) throw unreadable;
  if (verb == "bay") return {What::move, said, 0, MoistureState::ready};
  if (verb == "retire") return {What::retire, said, 0, MoistureState::ready};
  if (verb == "return") return {What::sendBack, said, 0, MoistureState::ready};
  if (verb == "moisture") return moistureOf(plain(said));
  throw unreadable;
}

QString readingOf(const BoardWords& words) {
  using What = BoardWords::What;
  switch (words.what) {
    case What::move: return "to bay " + q(words.text);
    case What::note:
      return words.text.empty() ? QString("notes taken away") : "noted: " + q(words.text);
    case What::keepBack: return "kept back";
    case What::letGo: return "no longer kept back";
    case What::reading:
      return q(moistureText(words.tenthsPercent)) + " today, " + q(std::string(word(words.state)));
    case What::retire: return "off the rack: " + q(words.text);
    case What::sendBack: return "back to the yard, its cost expected as credit: " + q(words.text);
    case What::newTag: return "the next tag hangs on it, in place of its own";
  }
  return {};
}

BoardLine::BoardLine(const Look& look, QWidget* parent) : SaidLine(look, parent) {
  setAccessibleName("What was done to the boards");
  setAbout("What was done to the boards", "bay B3", QString(boardWords));
  connect(this, &SaidLine::edited, this, &BoardLine::read);
  connect(this, &SaidLine::entered, this, [this] {
    if (!trouble() && !typed().isEmpty()) emit said(readBoardWords(typed().toStdString()));
  });
}

void BoardLine::clear() {
  setTyped("");
  read();
}

void BoardLine::read() {
  if (typed().isEmpty()) {
    tell("", false);
    return;
  }
  try {
    tell(readingOf(readBoardWords(typed().toStdString())), false);
  } catch (const Unreadable& error) {
    tell(error);
  }
}

}  // namespace flitch::desktop
