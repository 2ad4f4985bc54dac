// The coordinator's list: visits with their newest reports, and the totals.
#pragma once

#include "archive.h"
#include "message.h"

namespace trowelbell::collector {

// Query: show=all|waiting|in, limit=1..1000 (500), after=<the "next" of the page before>.
// {"visits": [...], "totals": {...}, "next": "..." where there are more}; 400 for a query out of
// order.
Response visit_list_answer(std::string_view query, Archive& archive);

}  // namespace trowelbell::collector
