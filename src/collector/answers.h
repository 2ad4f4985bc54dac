// The answers every part gives: JSON, and problems as RFC 9457 describes them.
#pragma once

#include "core/json.h"
#include "message.h"

namespace trowelbell::collector {

Response json_answer(int status, const Json& value);

// application/problem+json. `kind` ends the type URN ("urn:trowelbell:problem:<kind>"); `detail` is
// plain English that says what to do.
Response problem_answer(int status, std::string_view kind, std::string_view title,
                        std::string_view detail);
// 422, with one {"detail", "pointer"} for each problem; pointers are JSON Pointers (RFC 6901).
Response invalid_report_answer(const Problems& problems);

// The ones that the connection itself can give, before there is a request.
Response too_large_answer();
Response header_too_large_answer();
Response malformed_answer();
Response busy_answer();     // 503, the queue or the house is full
Response failure_answer();  // 500

Response not_found_answer();
Response not_allowed_answer(std::string_view allow);
Response unauthorized_answer();  // a report's key
Response coordinator_key_answer();

// What a browser must know about every answer: no third party, no guessing of types, no referrer.
const std::vector<Field>& security_fields();

}  // namespace trowelbell::collector
