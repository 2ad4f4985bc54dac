#include "handlers.h"

#include "answers.h"
#include "authority.h"
#include "negotiation.h"
#include "visit_list.h"

namespace trowelbell::collector {
namespace {

constexpr std::string_view kReadMethods = "GET, HEAD, OPTIONS";
constexpr std::string_view kReportMethods = "PUT, OPTIONS";

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

}  // namespace

Decision decide(const Request& request, const Route& route, Service& service) {
  if (request.method == "OPTIONS" && request.target == "*")
    return options_answer("GET, HEAD, OPTIONS, PUT");
  if (route.endpoint == Endpoint::unknown) return not_found_answer();
  const bool report = route.endpoint == Endpoint::report;
  const std::string_view methods = report ? kReportMethods : kReadMethods;
  if (request.method == "OPTIONS") return options_answer(methods);
  if (report) {
    if (request.method != "PUT") return not_allowed_answer(methods);
    return take_report(request, route, service.archive, service.now_ms());
  }
  const bool head = request.method == "HEAD";
  if (!head && request.method != "GET") return not_allowed_answer(methods);
  Response response = read(request, route, service);
  response.head = head;
  return response;
}

}  // namespace trowelbell::collector
