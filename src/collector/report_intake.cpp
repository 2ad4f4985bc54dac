#include "report_intake.h"

#include "answers.h"
#include "authority.h"
#include "core/report.h"
#include "negotiation.h"

namespace trowelbell::collector {
namespace {

// "application/json", with or without parameters.
bool is_json_type(std::string_view content_type) {
  std::string type(content_type.substr(0, content_type.find(';')));
  while (!type.empty() && (type.back() == ' ' || type.back() == '\t')) type.pop_back();
  for (char& c : type) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
  return type == "application/json";
}

Response unsupported_answer() {
  Response response =
      problem_answer(415, "media-type", "A report must be plain JSON",
                     "Send it as Content-Type: application/json, without Content-Encoding.");
  response.fields.push_back({"Accept", "application/json"});
  return response;
}

void check_address(const ReportFacts& facts, const Route& route, Problems& problems) {
  if (facts.visit != route.visit)
    problems.push_back({"/visit", "must be the visit of the address"});
  if (facts.device != route.device)
    problems.push_back({"/device", "must be the device of the address"});
  if (facts.revision != route.revision)
    problems.push_back({"/revision", "must be the revision of the address"});
}

std::int64_t all_mishaps(const ReportFacts& facts) {
  std::int64_t count = 0;
  for (const auto& [card, times] : facts.mishaps) count += times;
  return count;
}

// What the coordinator's list shows of a report. Its note and hand-over stay in the report.
Json list_facts(const ReportFacts& facts, std::int64_t received_at) {
  return {{"device", facts.device},        {"revision", facts.revision},
          {"received_at", received_at},    {"began_at", facts.began_at},
          {"ended_at", facts.ended_at},    {"bell_at", facts.bell_at},
          {"came", facts.children.came()}, {"children", children_json(facts.children)},
          {"adults", facts.adults},        {"adult_minutes", facts.adult_minutes},
          {"kits", kits_json(facts.kits)}, {"mishaps", facts.mishaps},
          {"taken_by", facts.taken_by}};
}

// What is in a report in order, or why it is refused.
std::variant<Response, ReportFacts> read_body(const Request& request, const Route* address) {
  if (!is_json_type(request.content_type) || !request.content_encoding.empty())
    return unsupported_answer();
  Problems problems;
  const std::optional<Json> document = parse_json(request.body, kReportLimits, problems);
  if (!document)
    return problem_answer(400, "not-json", "The report cannot be read",
                          "The report " +
                              (problems.empty() ? "is not JSON" : problems.front().what) +
                              ". Nothing was stored. Send it again.");
  ReportFacts facts = read_report(*document, problems);
  if (problems.empty() && address != nullptr) check_address(facts, *address, problems);
  if (!problems.empty()) return invalid_report_answer(problems);
  return facts;
}

NewReport new_report(const Request& request, const ReportFacts& facts, std::int64_t now_ms) {
  NewReport report;
  report.visit = facts.visit;
  report.device = facts.device;
  report.revision = facts.revision;
  report.body = request.body;
  report.digest = hex(sha256(request.body));
  report.received_at = now_ms;
  report.facts = dump_json(list_facts(facts, now_ms));
  report.sums = {facts.children.came(), facts.children.present, facts.children.absent,
                 facts.kits.given,      all_mishaps(facts),     facts.adult_minutes};
  report.only_if_absent = names_etag(request.if_none_match, "*");
  return report;
}

}  // namespace

Decision take_report(const Request& request, const Route& route, Archive& archive,
                     std::int64_t now_ms) {
  // An unknown visit is compared with a digest that no key has, and so costs the same time.
  const Digest key_digest = archive.key_digest(route.visit).value_or(Digest{});
  if (!bearer_matches(request.authorization, key_digest)) return unauthorized_answer();
  auto body = read_body(request, &route);
  if (auto* refusal = std::get_if<Response>(&body)) return std::move(*refusal);
  return new_report(request, std::get<ReportFacts>(body), now_ms);
}

Decision take_report_by_hand(const Request& request, Archive& archive, std::int64_t now_ms) {
  auto body = read_body(request, nullptr);
  if (auto* refusal = std::get_if<Response>(&body)) return std::move(*refusal);
  const auto& facts = std::get<ReportFacts>(body);
  if (!archive.key_digest(facts.visit))
    return problem_answer(404, "no-visit", "The visit of this report is not known here",
                          "Nothing was stored. Start the collector with the brief of the visit " +
                              facts.visit + ", or give the report to the collector that has it.");
  return new_report(request, facts, now_ms);
}

Response report_answer(const NewReport& report, const Outcome& outcome) {
  switch (outcome.kept) {
    case Kept::created:
    case Kept::already:
      return json_answer(outcome.kept == Kept::created ? 201 : 200,
                         {{"visit", report.visit},
                          {"device", report.device},
                          {"revision", report.revision},
                          {"digest", report.digest},
                          {"received_at", outcome.received_at}});
    case Kept::conflict:
      if (report.only_if_absent)
        return problem_answer(412, "exists", "The report is already here",
                              "The request asked to store it only if it was not. Nothing was "
                              "changed; leave out If-None-Match to have it confirmed.");
      return problem_answer(409, "conflict", "Another report has this address",
                            "The report that came first is kept and nothing was changed. Send the "
                            "changed report with the next revision number.");
    case Kept::visit_full: {
      Response response = problem_answer(
          429, "too-many", "There are too many reports of this visit",
          "Nothing was stored. Save the report as a file and send it to the coordinator.");
      response.fields.push_back({"Retry-After", "3600"});
      return response;
    }
    case Kept::failed:
      break;
  }
  Response response = problem_answer(
      503, "storage", "The collector could not write to its disk",
      "Nothing was stored. Keep the report: the app tries again by itself. Whoever runs the "
      "collector should check that the disk has room.");
  response.fields.push_back({"Retry-After", "30"});
  return response;
}

}  // namespace trowelbell::collector
