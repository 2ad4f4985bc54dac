// Reports that reach the coordinator without a network: parts as texts, and pictures of their QR
// codes. Both only answer what they read; the report they make comes back as any other does,
// through take_report_by_hand.
#pragma once

#include "message.h"

namespace trowelbell::collector {

// POST of texts with parts in them (core/report_parts.h), as text/plain:
//   {"sets": [{"digest", "of", "missing": [2, 5], "damaged", "report"}], "unread", "newer"}
// "report", its text, is there once nothing is missing.
Response parts_answer(const Request& request);

// POST of the grey pixels of a picture, one byte each, row by row; ?width=&height= in `query`:
//   {"texts": ["..."]}, of the QR codes found, none where there is none.
// Whoever asks has made pixels of the picture file, so no such file is ever opened here.
Response picture_answer(const Request& request, std::string_view query);

}  // namespace trowelbell::collector
