#include "visit_list.h"

#include <charconv>

#include "answers.h"
#include "core/dates.h"
#include "route.h"

namespace trowelbell::collector {
namespace {

constexpr std::int64_t kMostVisits = 1000;

// Facts that this program wrote; anything else in their place shows as an empty object.
Json stored_facts(const std::string& text) {
  Problems problems;
  return parse_json(text, JsonLimits{}, problems).value_or(Json::object());
}

Json visit_json(const VisitRow& row) {
  Json visit = stored_facts(row.facts);
  visit["visit"] = row.visit;
  visit["date"] = row.date;
  visit["reports"] = row.reports;
  visit["latest"] = row.latest ? stored_facts(*row.latest) : Json();
  return visit;
}

Json totals_json(const Totals& totals) {
  return {{"visits", totals.visits},
          {"reported", totals.reported},
          {"waiting", totals.visits - totals.reported},
          {"came", totals.sums.came},
          {"present", totals.sums.present},
          {"absent", totals.sums.absent},
          {"kits_given", totals.sums.kits_given},
          {"mishaps", totals.sums.mishaps},
          {"adult_minutes", totals.sums.adult_minutes}};
}

// "2027-03-08.visit-id"
std::string place_of(const VisitRow& row) {
  return row.date + "." + row.visit;
}

bool read_query(std::string_view text, VisitQuery& query) {
  const std::string show = query_value(text, "show");
  if (show == "waiting")
    query.show = Show::waiting;
  else if (show == "in")
    query.show = Show::in;
  else if (!show.empty() && show != "all")
    return false;

  const std::string limit = query_value(text, "limit");
  if (!limit.empty()) {
    const char* end = limit.data() + limit.size();
    const auto [stop, error] = std::from_chars(limit.data(), end, query.most);
    if (error != std::errc() || stop != end || query.most < 1 || query.most > kMostVisits)
      return false;
  }

  const std::string after = query_value(text, "after");
  if (!after.empty()) {
    const std::size_t dot = after.find('.');
    if (dot == std::string::npos || !parse_date(after.substr(0, dot))) return false;
    query.after_date = after.substr(0, dot);
    query.after_visit = after.substr(dot + 1);
  }
  return true;
}

}  // namespace

Response visit_list_answer(std::string_view query_text, Archive& archive) {
  VisitQuery query;
  if (!read_query(query_text, query))
    return problem_answer(400, "query", "The list cannot be shown that way",
                          "Use show=all, waiting or in; limit=1 to 1000; after= the next of the "
                          "page before.");
  const VisitPage page = archive.visits(query);
  Json list = {{"visits", Json::array()}, {"totals", totals_json(page.totals)}};
  for (const VisitRow& row : page.visits) list["visits"].push_back(visit_json(row));
  if (page.more) list["next"] = place_of(page.visits.back());
  return json_answer(200, list);
}

}  // namespace trowelbell::collector
