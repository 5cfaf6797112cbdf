#pragma once
#include <string>
#include <vector>

#include "inventory/wood/rows.h"

/// Rows of a file of published figures in data/, by column name.
[[nodiscard]] std::vector<flitch::PublishedRow> published(const std::string& file);
