#include "answers.h"

namespace trowelbell::collector {
namespace {

Response json_response(int status, std::string_view type, const Json& value) {
  Response response;
  response.status = status;
  response.fields = {{"Content-Type", std::string(type)}, {"Cache-Control", "no-store"}};
  response.body = dump_json(value);
  return response;
}

Json problem_body(int status, std::string_view kind, std::string_view title,
                  std::string_view detail) {
  return {{"type", "urn:trowelbell:problem:" + std::string(kind)},
          {"title", title},
          {"status", status},
          {"detail", detail}};
}

constexpr std::string_view kProblemType = "application/problem+json";

}  // namespace

std::string_view Response::field(std::string_view name) const {
  for (const Field& field : fields)
    if (field.name == name) return field.value;
  return {};
}

Response json_answer(int status, const Json& value) {
  return json_response(status, "application/json", value);
}

Response problem_answer(int status, std::string_view kind, std::string_view title,
                        std::string_view detail) {
  return json_response(status, kProblemType, problem_body(status, kind, title, detail));
}

Response invalid_report_answer(const Problems& problems) {
  Json body = problem_body(422, "not-a-report", "The report is not in order",
                           "Nothing was stored. Each entry of errors says what is wrong and where. "
                           "Save the report as a file and send it to the coordinator.");
  Json& errors = body["errors"] = Json::array();
  for (const Problem& problem : problems)
    errors.push_back({{"detail", problem.what}, {"pointer", problem.path}});
  return json_response(422, kProblemType, body);
}

Response too_large_answer() {
  return problem_answer(
      413, "too-large", "The report is too large",
      "A report may have at most 64 KiB. Nothing was stored. Save the report as a "
      "file and send it to the coordinator.");
}

Response header_too_large_answer() {
  return problem_answer(431, "header-too-large", "The request's header is too large",
                        "The header may have at most 8 KiB. Clear this site's cookies or use "
                        "another browser, then try again.");
}

Response malformed_answer() {
  return problem_answer(400, "not-http", "The request is not HTTP in order",
                        "Check the address and what stands between you and the collector, then try "
                        "again.");
}

Response busy_answer() {
  Response response =
      problem_answer(503, "busy", "The collector is busy",
                     "Nothing was stored. Try again in a few seconds; the app does so by itself.");
  response.fields.push_back({"Retry-After", "2"});
  return response;
}

Response failure_answer() {
  return problem_answer(500, "failure", "Something went wrong in the collector",
                        "Nothing was changed. Try again; if it stays, tell whoever runs the "
                        "collector to look at its messages.");
}

Response not_found_answer() {
  return problem_answer(404, "not-found", "There is nothing at this address",
                        "Check the address, or start from the collector's first page.");
}

Response not_allowed_answer(std::string_view allow) {
  Response response = problem_answer(
      405, "method", "This address does not take that method",
      "It takes " + std::string(allow) + ". Check the program that sent the request.");
  response.fields.push_back({"Allow", std::string(allow)});
  return response;
}

Response unauthorized_answer() {
  // One answer for an unknown visit and for a wrong key, so that visits cannot be found by asking.
  Response response =
      problem_answer(401, "key", "The visit or its key is not known here",
                     "Open the newest brief of this visit and try again, or ask the coordinator "
                     "whether this collector has the brief.");
  response.fields.push_back({"WWW-Authenticate", "Bearer realm=\"trowelbell\""});
  return response;
}

Response coordinator_key_answer() {
  Response response =
      problem_answer(401, "coordinator-key", "The coordinator's key is missing or wrong",
                     "Open the coordinator's link that the collector printed when it started.");
  response.fields.push_back({"WWW-Authenticate", "Bearer realm=\"trowelbell\""});
  return response;
}

const std::vector<Field>& security_fields() {
  static const std::vector<Field> fields = {
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
       "img-src 'self' data: blob:; font-src 'self'; connect-src 'self'; worker-src 'self'; "
       "manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"Referrer-Policy", "no-referrer"},
      {"Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"}};
  return fields;
}

}  // namespace trowelbell::collector
