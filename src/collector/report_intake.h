// What a phone sends: checked from the key to the last number before anything is written.
#pragma once

#include <variant>

#include "archive.h"
#include "message.h"
#include "route.h"

namespace trowelbell::collector {

// An answer at once, or a report to be written first.
using Decision = std::variant<Response, NewReport>;

// PUT of one report. A NewReport when everything is in order, the refusal otherwise.
Decision take_report(const Request& request, const Route& route, Archive& archive,
                     std::int64_t now_ms);

// POST of one report that the coordinator got as a file, a text or QR codes, under her key: the
// visit needs no key, but a brief. Everything else is as for a phone.
Decision take_report_by_hand(const Request& request, Archive& archive, std::int64_t now_ms);

// The answer to a report that was written, or not.
Response report_answer(const NewReport& report, const Outcome& outcome);

}  // namespace trowelbell::collector
