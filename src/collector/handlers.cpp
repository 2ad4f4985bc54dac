#include "handlers.h"

#include "answers.h"
#include "authority.h"
#include "hand_intake.h"
#include "negotiation.h"
#include "visit_list.h"

namespace trowelbell::collector {
namespace {

constexpr std::string_view kReadMethods = "GET, HEAD, OPTIONS";
constexpr std::string_view kReportMethods = "PUT, OPTIONS";
constexpr std::string_view kHandMethods = "POST, OPTIONS";

Response options_answer(std::string_view allow) {
  Response response;
  response.status = 204;
  response.fields = {{"Allow", std::string(allow)}};
  return response;
}

Response latest_answer(const Request& request, const Route& route, Service& service) {
  const std::optional<StoredReport> report = service.archive.latest(route.visit);
  if (!report)
    return problem_answer(404, "no-report", "There is no report of this visit yet",
                          "Ask the team to open the app where there is a signal, or to send the "
                          "report as a file.");
  Response response;
  const std::string etag = '"' + report->digest + '"';
  response.fields = {
      {"Content-Type", "application/json"}, {"Cache-Control", "no-store"}, {"ETag", etag}};
  if (names_etag(request.if_none_match, etag))
    response.status = 304;
  else
    response.body = report->body;
  return response;
}

Response read(const Request& request, const Route& route, Service& service) {
  if (route.endpoint == Endpoint::site) return service.site.answer(route.path, request);
  if (route.endpoint == Endpoint::health)
    return json_answer(200, {{"status", "ok"}, {"reports", service.reports()}});
  if (!bearer_matches(request.authorization, service.coordinator_key_digest))
    return coordinator_key_answer();
  if (route.endpoint == Endpoint::visits) return visit_list_answer(route.query, service.archive);
  return latest_answer(request, route, service);
}

bool is_by_hand(const Route& route) {
  return route.endpoint == Endpoint::by_hand || route.endpoint == Endpoint::parts ||
         route.endpoint == Endpoint::picture;
}

Decision take_by_hand(const Request& request, const Route& route, Service& service) {
  if (!bearer_matches(request.authorization, service.coordinator_key_digest))
    return coordinator_key_answer();
  if (route.endpoint == Endpoint::parts) return parts_answer(request);
  if (route.endpoint == Endpoint::picture) return picture_answer(request, route.query);
  return take_report_by_hand(request, service.archive, service.now_ms());
}

}  // namespace

Decision decide(const Request& request, const Route& route, Service& service) {
  if (request.method == "OPTIONS" && request.target == "*")
    return options_answer("GET, HEAD, OPTIONS, POST, PUT");
  if (route.endpoint == Endpoint::unknown) return not_found_answer();
  const bool report = route.endpoint == Endpoint::report;
  const bool by_hand = is_by_hand(route);
  const std::string_view methods = report ? kReportMethods : by_hand ? kHandMethods : kReadMethods;
  if (request.method == "OPTIONS") return options_answer(methods);
  if (report) {
    if (request.method != "PUT") return not_allowed_answer(methods);
    return take_report(request, route, service.archive, service.now_ms());
  }
  if (by_hand) {
    if (request.method != "POST") return not_allowed_answer(methods);
    return take_by_hand(request, route, service);
  }
  const bool head = request.method == "HEAD";
  if (!head && request.method != "GET") return not_allowed_answer(methods);
  Response response = read(request, route, service);
  response.head = head;
  return response;
}

bool may_be_long(std::string_view authorization, const Route& route, const Service& service) {
  return (route.endpoint == Endpoint::parts || route.endpoint == Endpoint::picture) &&
         bearer_matches(authorization, service.coordinator_key_digest);
}

}  // namespace trowelbell::collector
