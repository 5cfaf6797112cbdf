#include "tests/acceptance/transcript.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <vector>

#include "tests/acceptance/program.h"

namespace flitch::acceptance {

namespace {

using Lines = std::vector<std::string>;

Lines linesOf(const std::string& text) {
  Lines lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

bool matches(std::string_view pattern, std::string_view line) {
  const std::size_t wild = pattern.find("{*}");
  if (wild == std::string_view::npos) return pattern == line;
  if (line.substr(0, wild) != pattern.substr(0, wild)) return false;
  const std::string_view rest = pattern.substr(wild + 3);
  for (std::size_t at = wild; at <= line.size(); ++at) {
    if (matches(rest, line.substr(at))) return true;
  }
  return false;
}

/// A command and what it should say; blank lines at the end only part it from the next.
struct Step {
  std::string command;
  Lines out, err;
  int exitCode = 0;
};

void trimEnd(Lines& lines) {
  while (!lines.empty() && lines.back().empty()) lines.pop_back();
}

/// What was said, written as a transcript; a line that matches the one written before keeps it.
Lines accepted(const Lines& said, const Lines& before) {
  Lines lines;
  for (std::size_t i = 0; i < said.size(); ++i) {
    const bool same = i < before.size() && matches(before[i], said[i]);
    lines.push_back(same ? before[i] : said[i]);
  }
  return lines;
}

class Player {
 public:
  explicit Player(std::string path) : path_(std::move(path)) {}

  void play() {
    std::ifstream file(path_);
    REQUIRE(file);
    for (std::string line; std::getline(file, line);) take(line);
    endStep();
    CHECK(steps_ > 0);
    if (std::getenv("FLITCH_ACCEPT") != nullptr) std::ofstream(path_) << rewritten_;
  }

 private:
  void take(const std::string& line) {
    const std::string head = line.substr(0, 2);
    if (inFile_) {
      rewritten_ += line + "\n";
      if (line == "==") {
        bench_.write(fileName_, fileBytes_);
        inFile_ = false;
      } else {
        fileBytes_ += line + "\n";
      }
    } else if (line.rfind("== ", 0) == 0) {
      endStep();
      rewritten_ += line + "\n";
      fileName_ = line.substr(3);
      fileBytes_.clear();
      inFile_ = true;
    } else if (head == "$ ") {
      endStep();
      step_.command = line.substr(2);
    } else if (head == "# ") {
      endStep();
      rewritten_ += line + "\n";
    } else if (step_.command.empty()) {
      rewritten_ += line + "\n";
    } else if (head == "! ") {
      step_.err.push_back(line.substr(2));
    } else if (head == "? ") {
      step_.exitCode = std::stoi(line.substr(2));
    } else {
      step_.out.push_back(line);
    }
  }

  void endStep() {
    if (step_.command.empty()) return;
    ++steps_;
    const Ran ran = bench_.shell(step_.command);
    Lines out = linesOf(ran.out);
    Lines err = linesOf(ran.err);
    trimEnd(out);
    trimEnd(step_.out);
    INFO("$ " << step_.command << "\n" << ran.out << ran.err);
    compare(step_.out, out);
    compare(step_.err, err);
    CHECK(ran.exitCode == step_.exitCode);
    rewritten_ += "$ " + step_.command + "\n";
    for (const std::string& line : accepted(out, step_.out)) rewritten_ += line + "\n";
    for (const std::string& line : accepted(err, step_.err)) rewritten_ += "! " + line + "\n";
    if (ran.exitCode != 0) rewritten_ += "? " + std::to_string(ran.exitCode) + "\n";
    rewritten_ += "\n";
    step_ = {};
  }

  static void compare(const Lines& expected, const Lines& said) {
    for (std::size_t i = 0; i < std::max(expected.size(), said.size()); ++i) {
      const std::string want = i < expected.size() ? expected[i] : "(nothing)";
      const std::string got = i < said.size() ? said[i] : "(nothing)";
      if (!matches(want, got)) CHECK(got == want);
    }
  }

  std::string path_;
  Bench bench_;
  bool inFile_ = false;
  std::string fileName_, fileBytes_, rewritten_;
  Step step_;
  int steps_ = 0;
};

}  // namespace

void play(const std::string& name) {
  Player(std::string(FLITCHBOOK_SOURCE) + "/tests/acceptance/transcripts/" + name + ".txt").play();
}

}  // namespace flitch::acceptance
