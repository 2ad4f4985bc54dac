#include "cli/rehearse_output.h"

#include <algorithm>
#include <cmath>
#include <ostream>

#include "cli/pace_words.h"
#include "cli/words.h"

namespace trowelbell {

namespace {

// "97.3 (0.4)": percent and its standard error, the first rounded down, the second up.
std::string chance_words(const Rehearsal& rehearsal) {
  const auto error = static_cast<std::int64_t>(std::ceil(rehearsal.standard_error() * 1000));
  const std::string chance = percent_words(rehearsal.chance());
  const bool hardly = rehearsal.by_bell > 0 && chance == percent_words(0);
  return (hardly ? "<0.1" : chance.substr(0, chance.size() - 2)) + " (" + tenths(error) + ")";
}

std::string plan_words(const Pace& pace) {
  const auto out = std::count_if(pace.items.begin(), pace.items.end(),
                                 [](const PacedItem& item) { return !item.kept; });
  if (pace.short_by > 0) {
    return minutes_seconds(pace.short_by) + " too short";
  }
  return out == 0 ? "fits" : "leaves out " + counted(out, "step", "steps");
}

void write_table(std::ostream& out, const RehearsedVisit& visit) {
  const auto least = least_adults(visit.files.lesson, visit.rows);
  out << "Least adults: "
      << (least ? std::to_string(*least)
                : "none; it does not fit even with " + std::to_string(visit.rows.size()))
      << ". This speaks of time only; where the school asks for more, its number counts.\n\n"
      << "Chance of ending by the bell in percent, standard error in brackets\n"
      << "Adults  Begun on time       ";
  for (const std::int64_t minutes : visit.question.minutes_late) {
    out << right(minutes == 0 ? "on time" : std::to_string(minutes) + " min late", 13);
  }
  out << '\n';
  for (const StaffingRow& row : visit.rows) {
    out << right(std::to_string(row.adults), 6) << "  " << padded(plan_words(row.pace), 20);
    for (const Rehearsal& late : row.late) {
      out << right(chance_words(late), 13);
    }
    out << '\n';
  }
  out << "From " << visit.question.visits << " rehearsed visits for each answer (seed "
      << visit.question.seed << "); 100.0 and 0.0 mean all or none of them, not always or never\n";
}

// The steps that are not as planned.
void write_case(std::ostream& out, const std::vector<Step>& steps, const RehearsedCase& one) {
  const Pace& pace = one.pace;
  out << '\n'
      << one.title << ": " << counted(one.adults, "adult", "adults") << ", "
      << (one.minutes_late == 0 ? "on time" : std::to_string(one.minutes_late) + " minutes late")
      << "; by the bell " << percent_words(one.rehearsal.chance()) << '\n';
  if (pace.short_by > 0) {
    out << "  " << minutes_seconds(pace.short_by) << " too short even when every step is hurried\n";
  }
  std::size_t width = 0;
  for (const Step& step : steps) {
    width = std::max(width, step.title.en.size());
  }
  bool changed = false;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const PacedItem& item = pace.items[i];
    if (item.why == PaceWhy::as_planned) {
      continue;
    }
    changed = true;
    out << "  " << padded(steps[i].title.en, width) << "  " << right(time_words(item), 5) << "  "
        << why_words(item.why) << "; plan " << minutes_seconds(one.times[i].plan) << '\n';
  }
  if (!changed) {
    out << "  every step as planned, " << minutes_seconds(pace.slack) << " to spare\n";
  }
}

Json rehearsal_json(const Rehearsal& rehearsal) {
  return {{"by_bell", rehearsal.by_bell},
          {"whole", rehearsal.whole},
          {"chance", rehearsal.chance()},
          {"standard_error", rehearsal.standard_error()}};
}

Json rows_json(const RehearsedVisit& visit) {
  Json rows = Json::array();
  for (const StaffingRow& row : visit.rows) {
    Json starts = Json::array();
    for (std::size_t i = 0; i < row.late.size(); ++i) {
      Json start = rehearsal_json(row.late[i]);
      start["minutes_late"] = visit.question.minutes_late[i];
      starts.push_back(std::move(start));
    }
    rows.push_back({{"adults", row.adults},
                    {"fits", row.fits()},
                    {"seconds_short", row.pace.short_by},
                    {"starts", std::move(starts)}});
  }
  return rows;
}

Json case_json(const Lesson& lesson, const RehearsedCase& one) {
  Json steps = Json::array();
  for (std::size_t i = 0; i < one.times.size(); ++i) {
    const PacedItem& item = one.pace.items[i];
    steps.push_back({{"id", lesson.steps[i].id},
                     {"kept", item.kept},
                     {"milliseconds", item.ms},
                     {"planned_seconds", one.times[i].plan},
                     {"why", why_name(item.why)}});
  }
  Json entry = rehearsal_json(one.rehearsal);
  entry["case"] = one.name;
  entry["adults"] = one.adults;
  entry["minutes_late"] = one.minutes_late;
  entry["seconds_to_spare"] = one.pace.slack;
  entry["seconds_short"] = one.pace.short_by;
  entry["steps"] = std::move(steps);
  return entry;
}

}  // namespace

void write_rehearsal_words(std::ostream& out, const RehearsedVisit& visit) {
  const Brief& brief = visit.files.brief;
  out << visit.files.lesson.title.en << ", ";
  if (!brief.visit.empty()) {
    out << plain(brief.school) << ", " << plain(brief.room) << ", " << format_date(brief.date)
        << ", ";
  }
  out << counted(visit.question.children, "child", "children") << ", "
      << counted(visit.adults, "adult", "adults") << ", " << visit.question.seconds / 60
      << " minutes\n";
  write_table(out, visit);
  for (const RehearsedCase& one : visit.cases) {
    write_case(out, visit.files.lesson.steps, one);
  }
}

void write_rehearsal_json(std::ostream& out, const RehearsedVisit& visit) {
  const Lesson& lesson = visit.files.lesson;
  const auto least = least_adults(lesson, visit.rows);
  Json cases = Json::array();
  for (const RehearsedCase& one : visit.cases) {
    cases.push_back(case_json(lesson, one));
  }
  Json document = {{"lesson", lesson.id},
                   {"children", visit.question.children},
                   {"adults", visit.adults},
                   {"minutes", visit.question.seconds / 60},
                   {"visits", visit.question.visits},
                   {"seed", visit.question.seed},
                   {"least_adults", least ? Json(*least) : Json(nullptr)},
                   {"rows", rows_json(visit)},
                   {"cases", std::move(cases)}};
  if (!visit.files.brief.visit.empty()) {
    document["visit"] = visit.files.brief.visit;
  }
  out << dump_json(document) << '\n';
}

}  // namespace trowelbell
