#pragma once
#include <string>

namespace flitch::acceptance {

/// Plays transcripts/NAME.txt in a fresh folder and holds what the program says against it:
///   `# words`           for the reader
///   `== NAME` ... `==`  a file of the shop
///   `$ command`         run by the shell; then come
///   `! line`            what it says on stderr,
///   `? N`               its exit code where it is not 0,
///   any other line      what it says on stdout. `{*}` stands for anything within a line.
/// With FLITCH_ACCEPT=1 in the environment the file is written again from what the program says
/// (lines that matched are kept as they are): read the difference before you commit it.
void play(const std::string& name);

}  // namespace flitch::acceptance
