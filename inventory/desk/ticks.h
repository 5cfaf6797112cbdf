#pragma once
#include "inventory/records/pull_list.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// Ticks of a job's pull list are a draft of the book, the same at every station: they outlast the
/// program and a plan made again, until they are forgotten. Ticks off `list` what was fetched
/// before; boards that are not on it any more are passed over.
void recallTicks(const store::Book& book, PullList& list);
/// Keeps the ticks of the list.
void keepTicks(store::Book& book, const PullList& list);
void forgetTicks(store::Book& book, JobId job);

}  // namespace flitch::desk
