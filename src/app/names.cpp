#include "app/names.h"

#include <algorithm>

#include "core/json.h"
#include "core/visit_state.h"

namespace trowelbell {

void Names::load(std::string_view text, std::int64_t now) {
  visits_.clear();
  Problems problems;
  const auto document = parse_json(text, {64 * 1024, 4}, problems);
  if (!document || !document->is_object()) return;
  for (const auto& [visit, stored] : document->items()) {
    const Reader reader(stored, problems);
    OfVisit& of_visit = visits_[visit];
    // A clock that was set back must not make it longer.
    of_visit.until = std::min(reader.whole("until", 0, INT64_MAX), now + kKeptMs);
    for (int place = 1; place <= kMostChildren; ++place) {
      std::string name = reader.text_or(std::to_string(place), kMostBytes, "");
      if (!name.empty()) of_visit.by_place[place] = std::move(name);
    }
  }
  if (!problems.empty()) visits_.clear();
  wipe_old(now);
}

std::string Names::text() const {
  if (visits_.empty()) return "";
  Json document = Json::object();
  for (const auto& [visit, of_visit] : visits_) {
    Json& stored = document[visit] = {{"until", of_visit.until}};
    for (const auto& [place, name] : of_visit.by_place) stored[std::to_string(place)] = name;
  }
  return dump_json(document);
}

std::string Names::of(std::string_view visit, int place) const {
  const auto of_visit = visits_.find(visit);
  if (of_visit == visits_.end()) return "";
  const auto name = of_visit->second.by_place.find(place);
  return name == of_visit->second.by_place.end() ? "" : name->second;
}

void Names::set(std::string_view visit, int place, std::string_view name, std::int64_t now) {
  OfVisit& of_visit =
      visits_.try_emplace(std::string(visit), OfVisit{now + kKeptMs, {}}).first->second;
  if (name.empty()) {
    of_visit.by_place.erase(place);
  } else {
    of_visit.by_place[place] = name;
  }
  if (of_visit.by_place.empty()) wipe(visit);
}

bool Names::wipe(std::string_view visit) {
  const auto found = visits_.find(visit);
  if (found == visits_.end()) return false;
  visits_.erase(found);
  return true;
}

bool Names::wipe_old(std::int64_t now) {
  return std::erase_if(visits_, [now](const auto& entry) { return entry.second.until <= now; }) > 0;
}

}  // namespace trowelbell
