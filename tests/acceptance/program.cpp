#include "tests/acceptance/program.h"

#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace flitch::acceptance {

namespace fs = std::filesystem;

namespace {

std::string bytesOf(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

}  // namespace

Bench::Bench() {
  std::string name = (fs::temp_directory_path() / "flitch-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
  folder_ = name;
}

Bench::~Bench() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

void Bench::write(const std::string& name, const std::string& bytes) const {
  std::ofstream(folder_ / name, std::ios::binary) << bytes;
}

std::string Bench::read(const std::string& name) const { return bytesOf(folder_ / name); }

Ran Bench::shell(const std::string& line) const {
  const fs::path script = folder_ / ".run.sh";
  std::ofstream(script)
      << "cd '" << folder_.string() << "'\n"
      << "export PATH='" << FLITCHBOOK_BIN << "':\"$PATH\"\n"
      << "export FLITCH_BOOK=shop.flitch FLITCH_HAND=tester TZ=UTC LC_ALL=C.UTF-8\n"
      << "unset DISPLAY WAYLAND_DISPLAY QT_QPA_PLATFORM\n"
      << line << "\n";
  const fs::path out = folder_ / ".out";
  const fs::path err = folder_ / ".err";
  const std::string command =
      "sh '" + script.string() + "' >'" + out.string() + "' 2>'" + err.string() + "' </dev/null";
  const int status = std::system(command.c_str());
  Ran ran{WIFEXITED(status) ? WEXITSTATUS(status) : -1, bytesOf(out), bytesOf(err)};
  for (const fs::path& file : {script, out, err}) fs::remove(file);
  return ran;
}

Ran Bench::flitch(const std::string& arguments, int exitCode) const {
  Ran ran = shell("flitch " + arguments);
  INFO("flitch " << arguments << "\n" << ran.out << ran.err);
  CHECK(ran.exitCode == exitCode);
  return ran;
}

std::string Bench::bookBytes() const {
  std::string all;
  for (const char* name : {"shop.flitch", "shop.flitch-wal"}) all += read(name) + "|";
  return all;
}

}  // namespace flitch::acceptance
