// From a request to its answer. Nothing here touches a socket or waits for the disk: a report that
// is in order comes out as a NewReport, and the answer follows from what became of it.
#pragma once

#include <functional>

#include "archive.h"
#include "message.h"
#include "report_intake.h"
#include "route.h"
#include "site.h"

namespace trowelbell::collector {

// What the handlers look at; must outlive every call.
struct Service {
  const Site& site;
  Archive& archive;
  Digest coordinator_key_digest;
  std::function<std::int64_t()> now_ms;   // since 1970
  std::function<std::int64_t()> reports;  // stored so far
};

Decision decide(const Request& request, const Route& route, Service& service);

// Whether a request with this Authorization field may have a body as long as a picture: only the
// coordinator's, and only where pictures and texts are taken in.
bool may_be_long(std::string_view authorization, const Route& route, const Service& service);

}  // namespace trowelbell::collector
