#pragma once
#include <vector>

#include "inventory/records/job_line.h"
#include "inventory/records/price.h"
#include "inventory/store/database.h"

namespace flitch::store {

/// Replacement prices that stand, in the order they were added.
[[nodiscard]] std::vector<ReplacementPrice> readPrices(Database& database);
std::int64_t insertPrice(Database& database, const ReplacementPrice& price, EntryId entry);

/// Lines of the newest bill of the job that stands; none without one.
[[nodiscard]] std::vector<JobLine> readJobLines(Database& database, JobId job);
/// A new bill; returns its id.
std::int64_t insertJobLines(Database& database, JobId job, const std::vector<JobLine>& lines,
                            EntryId entry);

/// Quotes of a job that stand, oldest first.
[[nodiscard]] std::vector<Quote> readQuotes(Database& database, JobId job);
/// The quote with its id and number.
Quote insertQuote(Database& database, const Quote& quote, EntryId entry);

}  // namespace flitch::store
