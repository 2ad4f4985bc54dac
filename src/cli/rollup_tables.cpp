#include <ostream>

#include "cli/rollup_output.h"
#include "cli/words.h"
#include "core/csv.h"
#include "core/proportion.h"

namespace trowelbell {

namespace {

Json share_json(std::int64_t yes, std::int64_t all) {
  if (all == 0) {
    return nullptr;
  }
  const Interval interval = wilson_95(yes, all);
  return {{"share", static_cast<double>(yes) / static_cast<double>(all)},
          {"low", interval.low},
          {"high", interval.high}};
}

Json totals_json(const Totals& totals, const RollUpResult& result) {
  const HeadCount& children = totals.children;
  Json left_out = Json::array();
  for (const auto& [step, visits] : totals.left_out) {
    left_out.push_back({{"lesson", step.first}, {"step", step.second}, {"visits", visits}});
  }
  Json json = {{"visits", totals.visits},
               {"children",
                {{"places", children.places},
                 {"came", children.came()},
                 {"absent", children.absent},
                 {"unknown", children.unknown},
                 {"attendance", share_json(children.came(), children.came() + children.absent)}}},
               {"kits", kits_json(totals.kits)},
               {"adult_minutes", totals.adult_minutes},
               {"bell",
                {{"ended", totals.ended},
                 {"by_bell", totals.by_bell},
                 {"by_bell_share", share_json(totals.by_bell, totals.ended)}}},
               {"mishaps", Json(totals.mishaps)},
               {"left_out", std::move(left_out)}};
  if (result.cents_per_hour > 0) {
    json["value_cents"] = totals.value_cents;
  }
  if (result.sprouts) {
    json["sprouts"] = {
        {"visits", totals.told},
        {"sprouted", totals.sprouts.sprouted},
        {"children", totals.sprouts.children},
        {"sprout_share", share_json(totals.sprouts.sprouted, totals.sprouts.children)}};
  }
  return json;
}

Json shared_json(const RollUpResult& result) {
  const auto& reports = result.files.reports;
  Json list = Json::array();
  for (const SharedVisit& shared : result.reports.shared) {
    Json others = Json::array();
    for (const std::size_t other : shared.others) {
      others.push_back(reports[other].device);
    }
    list.push_back({{"visit", reports[shared.counts].visit},
                    {"counts", reports[shared.counts].device},
                    {"others", std::move(others)}});
  }
  return list;
}

// A table's cells, column by column.
class CsvTable {
 public:
  explicit CsvTable(const RollUpResult& result) : result_(result) {
    const Totals& all = result.totals.all;
    for (const auto& entry : all.mishaps) {
      mishaps_.push_back(entry.first);
    }
    for (const auto& entry : all.left_out) {
      steps_.push_back(entry.first);
    }
  }

  std::string header() const {
    std::vector<std::string> cells = {"group",
                                      "name",
                                      "visits",
                                      "places",
                                      "children_came",
                                      "children_absent",
                                      "not_counted",
                                      "kits_brought",
                                      "kits_given",
                                      "kits_spoiled",
                                      "kits_with_teacher",
                                      "kits_spare",
                                      "kits_unaccounted",
                                      "adult_minutes",
                                      "adult_hours",
                                      "ended",
                                      "by_bell",
                                      "mishaps"};
    for (const std::string& card : mishaps_) {
      cells.push_back("mishap " + card);
    }
    for (const auto& [lesson, step] : steps_) {
      std::string cell = "left out ";
      cells.push_back(cell.append(lesson).append("/").append(step));
    }
    if (result_.cents_per_hour > 0) {
      cells.insert(cells.end(), {"value_usd", "usd_per_hour", "rate_source"});
    }
    if (result_.sprouts) {
      cells.insert(cells.end(), {"sprout_visits", "sprout_children", "sprouted"});
    }
    return csv_row(cells);
  }

  std::string row(std::string_view group, std::string_view name, const Totals& totals) const {
    const HeadCount& children = totals.children;
    const KitPiles& kits = totals.kits;
    std::vector<std::string> cells = {csv_text(group), csv_text(name)};
    const auto put = [&](std::int64_t number) { cells.push_back(std::to_string(number)); };
    for (const std::int64_t number :
         {totals.visits, children.places, children.came(), children.absent, children.unknown,
          kits.brought, kits.given, kits.spoiled, kits.with_teacher, kits.spare, kits.unaccounted(),
          totals.adult_minutes}) {
      put(number);
    }
    cells.push_back(hundredths((totals.adult_minutes * 100 + 30) / 60));
    put(totals.ended);
    put(totals.by_bell);
    std::int64_t mishaps = 0;
    for (const auto& entry : totals.mishaps) {
      mishaps += entry.second;
    }
    put(mishaps);
    for (const std::string& card : mishaps_) {
      put(count_of(totals.mishaps, card));
    }
    for (const auto& step : steps_) {
      put(count_of(totals.left_out, step));
    }
    if (result_.cents_per_hour > 0) {
      cells.push_back(hundredths(totals.value_cents));
      cells.push_back(hundredths(result_.cents_per_hour));
      cells.push_back(csv_text(result_.rate_source));
    }
    if (result_.sprouts) {
      put(totals.told);
      put(totals.sprouts.children);
      put(totals.sprouts.sprouted);
    }
    return csv_row(cells);
  }

 private:
  template <class Counts>
  static std::int64_t count_of(const Counts& counts, const typename Counts::key_type& key) {
    const auto found = counts.find(key);
    return found == counts.end() ? 0 : found->second;
  }

  const RollUpResult& result_;
  std::vector<std::string> mishaps_;
  std::vector<std::pair<std::string, std::string>> steps_;
};

}  // namespace

std::string_view grouping_name(Grouping grouping) {
  constexpr std::string_view kNames[] = {"sponsor", "school", "month"};
  return kNames[static_cast<std::size_t>(grouping)];
}

void write_rollup_json(std::ostream& out, const RollUpResult& result) {
  Json left_out = Json::array();
  for (const FileProblems& fault : result.files.left_out) {
    left_out.push_back({{"file", fault.file}, {"problems", problems_json(fault.problems)}});
  }
  Json by = Json::object();
  for (const Grouping grouping : result.by) {
    Json groups = Json::array();
    for (const auto& [name, totals] : result.totals.groups[static_cast<std::size_t>(grouping)]) {
      Json group = totals_json(totals, result);
      group["name"] = name;
      groups.push_back(std::move(group));
    }
    by[std::string(grouping_name(grouping))] = std::move(groups);
  }
  Json document = {
      {"reports", result.files.reports.size()},        {"repeated", result.reports.repeated},
      {"several_phones", shared_json(result)},         {"left_out", std::move(left_out)},
      {"all", totals_json(result.totals.all, result)}, {"by", std::move(by)}};
  if (result.cents_per_hour > 0) {
    document["rate"] = {{"cents_per_hour", result.cents_per_hour}, {"source", result.rate_source}};
  }
  if (result.sprouts) {
    document["sprouts_without_report"] = result.unknown_visits;
    document["sprouts_left_out"] = result.bad_sprouts;
  }
  out << dump_json(document) << '\n';
}

void write_rollup_csv(std::ostream& out, const RollUpResult& result) {
  const CsvTable table(result);
  out << table.header() << table.row("all", "", result.totals.all);
  for (const Grouping grouping : result.by) {
    for (const auto& [name, totals] : result.totals.groups[static_cast<std::size_t>(grouping)]) {
      out << table.row(grouping_name(grouping), name, totals);
    }
  }
}

}  // namespace trowelbell
