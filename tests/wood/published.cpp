#include "tests/wood/published.h"

#include <fstream>
#include <sstream>
#include <stdexcept>

std::vector<flitch::PublishedRow> published(const std::string& file) {
  std::ifstream in(std::string(FLITCHBOOK_TEST_DATA) + "/" + file);
  if (!in) throw std::runtime_error("no such file: " + file);
  std::ostringstream text;
  text << in.rdbuf();
  return flitch::publishedRows(text.str());
}
