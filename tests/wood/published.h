#pragma once
#include <map>
#include <string>
#include <vector>

/// Rows of a file of published figures in data/, by column name.
using PublishedRow = std::map<std::string, std::string>;
[[nodiscard]] std::vector<PublishedRow> published(const std::string& file);
