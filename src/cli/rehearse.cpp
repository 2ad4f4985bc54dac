#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <memory>
#include <ostream>

#include "cli/content_folder.h"
#include "cli/pace_words.h"
#include "cli/visit_files.h"
#include "cli/words.h"
#include "core/staffing.h"

namespace trowelbell {

namespace {

struct Options : VisitOptions {
  std::string lesson;
  std::optional<std::int64_t> children, minutes, adults;
  std::int64_t visits = 2000;
  std::uint64_t seed = 1;
};

constexpr std::int64_t kMostRows = 8;
constexpr std::int64_t kLateMinutes = 10;  // of the late visit; one of the question's starts

// One visit to look at step by step.
struct Case {
  std::string_view name, title;
  std::int64_t adults = 0, minutes_late = 0;
};

struct Outlook {
  const VisitFiles& files;
  StaffingQuestion question;
  std::int64_t adults = 0;  // the team as planned
  std::vector<StaffingRow> rows;

  std::vector<Case> cases() const {
    return {{"typical", "As planned", adults, 0},
            {"late", "Late", adults, kLateMinutes},
            {"short_handed", "Short-handed", std::max<std::int64_t>(adults - 2, 1), 0}};
  }
  std::vector<StepSeconds> times(const Case& visit, const Options& options) const {
    return times_for(files, options, question.children, visit.adults);
  }
  Pace pace(const Case& visit, const std::vector<StepSeconds>& times) const {
    return lesson_pace(files.lesson, times, question.seconds - visit.minutes_late * 60);
  }
  const Rehearsal& rehearsal(const Case& visit) const {
    const auto& late = question.minutes_late;
    const auto column = std::find(late.begin(), late.end(), visit.minutes_late) - late.begin();
    return rows[static_cast<std::size_t>(visit.adults - 1)].late[static_cast<std::size_t>(column)];
  }
};

Outlook make_outlook(const VisitFiles& files, const Options& options) {
  Outlook outlook{files, {}, options.adults.value_or(files.brief.adults), {}};
  StaffingQuestion& question = outlook.question;
  question.children = options.children.value_or(files.brief.children);
  question.seconds =
      options.minutes.value_or(files.brief.bell_minutes - files.brief.start_minutes) * 60;
  question.most_adults = std::max(kMostRows, outlook.adults);
  question.visits = options.visits;
  question.seed = options.seed;
  outlook.rows = staffing(files.lesson, files.story, options.language, question);
  return outlook;
}

// "97.3 (0.4)": percent and its standard error, the first rounded down, the second up.
std::string chance_words(const Rehearsal& rehearsal) {
  const auto tenths = static_cast<std::int64_t>(std::ceil(rehearsal.standard_error() * 1000));
  const std::string chance = percent_words(rehearsal.chance());
  const bool hardly = rehearsal.by_bell > 0 && chance == percent_words(0);
  return (hardly ? "<0.1" : chance.substr(0, chance.size() - 2)) + " (" +
         std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + ")";
}

std::string plan_words(const Pace& pace) {
  const auto out = std::count_if(pace.items.begin(), pace.items.end(),
                                 [](const PacedItem& item) { return !item.kept; });
  if (pace.short_by > 0) {
    return minutes_seconds(pace.short_by) + " too short";
  }
  return out == 0 ? "fits" : "leaves out " + counted(out, "step", "steps");
}

void write_table(std::ostream& out, const Outlook& outlook) {
  const auto least = least_adults(outlook.files.lesson, outlook.rows);
  out << "Least adults: "
      << (least ? std::to_string(*least)
                : "none; it does not fit even with " + std::to_string(outlook.rows.size()))
      << ". This speaks of time only; where the school asks for more, its number counts.\n\n"
      << "Chance of ending by the bell in percent, standard error in brackets\n"
      << "Adults  Begun on time       ";
  for (const std::int64_t minutes : outlook.question.minutes_late) {
    out << right(minutes == 0 ? "on time" : std::to_string(minutes) + " min late", 13);
  }
  out << '\n';
  for (const StaffingRow& row : outlook.rows) {
    out << right(std::to_string(row.adults), 6) << "  " << padded(plan_words(row.pace), 20);
    for (const Rehearsal& late : row.late) {
      out << right(chance_words(late), 13);
    }
    out << '\n';
  }
  out << "From " << outlook.question.visits << " rehearsed visits for each answer (seed "
      << outlook.question.seed
      << "); 100.0 and 0.0 mean all or none of them, not always or never\n";
}

// The steps that are not as planned.
void write_case(std::ostream& out, const Outlook& outlook, const Case& visit,
                const Options& options) {
  const auto& steps = outlook.files.lesson.steps;
  const auto times = outlook.times(visit, options);
  const Pace pace = outlook.pace(visit, times);
  out << '\n'
      << visit.title << ": " << counted(visit.adults, "adult", "adults") << ", "
      << (visit.minutes_late == 0 ? "on time"
                                  : std::to_string(visit.minutes_late) + " minutes late")
      << "; by the bell " << percent_words(outlook.rehearsal(visit).chance()) << '\n';
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
        << why_words(item.why) << "; plan " << minutes_seconds(times[i].plan) << '\n';
  }
  if (!changed) {
    out << "  every step as planned, " << minutes_seconds(pace.slack) << " to spare\n";
  }
}

void write_words(std::ostream& out, const Outlook& outlook, const Options& options) {
  const Brief& brief = outlook.files.brief;
  out << outlook.files.lesson.title.en << ", ";
  if (!brief.visit.empty()) {
    out << plain(brief.school) << ", " << plain(brief.room) << ", " << format_date(brief.date)
        << ", ";
  }
  out << counted(outlook.question.children, "child", "children") << ", "
      << counted(outlook.adults, "adult", "adults") << ", " << outlook.question.seconds / 60
      << " minutes\n";
  write_table(out, outlook);
  for (const Case& visit : outlook.cases()) {
    write_case(out, outlook, visit, options);
  }
}

Json rehearsal_json(const Rehearsal& rehearsal) {
  return {{"by_bell", rehearsal.by_bell},
          {"whole", rehearsal.whole},
          {"chance", rehearsal.chance()},
          {"standard_error", rehearsal.standard_error()}};
}

Json rows_json(const Outlook& outlook) {
  Json rows = Json::array();
  for (const StaffingRow& row : outlook.rows) {
    Json starts = Json::array();
    for (std::size_t i = 0; i < row.late.size(); ++i) {
      Json start = rehearsal_json(row.late[i]);
      start["minutes_late"] = outlook.question.minutes_late[i];
      starts.push_back(std::move(start));
    }
    rows.push_back({{"adults", row.adults},
                    {"fits", row.fits()},
                    {"seconds_short", row.pace.short_by},
                    {"starts", std::move(starts)}});
  }
  return rows;
}

Json cases_json(const Outlook& outlook, const Options& options) {
  Json cases = Json::array();
  for (const Case& visit : outlook.cases()) {
    const auto times = outlook.times(visit, options);
    const Pace pace = outlook.pace(visit, times);
    Json steps = Json::array();
    for (std::size_t i = 0; i < times.size(); ++i) {
      steps.push_back({{"id", outlook.files.lesson.steps[i].id},
                       {"kept", pace.items[i].kept},
                       {"milliseconds", pace.items[i].ms},
                       {"planned_seconds", times[i].plan},
                       {"why", why_name(pace.items[i].why)}});
    }
    Json entry = rehearsal_json(outlook.rehearsal(visit));
    entry["case"] = visit.name;
    entry["adults"] = visit.adults;
    entry["minutes_late"] = visit.minutes_late;
    entry["seconds_to_spare"] = pace.slack;
    entry["seconds_short"] = pace.short_by;
    entry["steps"] = std::move(steps);
    cases.push_back(std::move(entry));
  }
  return cases;
}

void write_json(std::ostream& out, const Outlook& outlook, const Options& options) {
  const auto least = least_adults(outlook.files.lesson, outlook.rows);
  Json document = {{"lesson", outlook.files.lesson.id},
                   {"children", outlook.question.children},
                   {"adults", outlook.adults},
                   {"minutes", outlook.question.seconds / 60},
                   {"visits", outlook.question.visits},
                   {"seed", outlook.question.seed},
                   {"least_adults", least ? Json(*least) : Json(nullptr)},
                   {"rows", rows_json(outlook)},
                   {"cases", cases_json(outlook, options)}};
  if (!outlook.files.brief.visit.empty()) {
    document["visit"] = outlook.files.brief.visit;
  }
  out << dump_json(document) << '\n';
}

// From the brief, or from the lesson that is named; nothing, and `status` set, where neither can
// be.
std::optional<VisitFiles> read_files(const Options& options, const Streams& streams,
                                     Status& status) {
  if (!options.brief.empty()) {
    return read_visit_files(options, streams, status);
  }
  if (options.lesson.empty() || !options.children || !options.minutes) {
    streams.err << "trowelbell rehearse: give --brief FILE, or --lesson ID with --children N and "
                   "--minutes N\n";
    status = Status::call_at_fault;
    return std::nullopt;
  }
  auto files = read_lesson_files(options.lesson, options.content, streams, status);
  if (files) {
    files->brief.adults = files->lesson.least_adults;
  }
  return files;
}

Status rehearse(const Options& options, const Streams& streams) {
  Status status = Status::done;
  if (const auto files = read_files(options, streams, status)) {
    const Outlook outlook = make_outlook(*files, options);
    options.json ? write_json(streams.out, outlook, options)
                 : write_words(streams.out, outlook, options);
  }
  return status;
}

void add_options(CLI::App& command, Options& options) {
  auto* brief = command.add_option("--brief", options.brief, "The visit's brief");
  brief->type_name("FILE");
  command.add_option("--lesson", options.lesson, "A lesson of the content, without a brief")
      ->type_name("ID")
      ->excludes(brief);
  const auto number = [&](const char* name, auto& value, const char* help, std::int64_t most) {
    command.add_option(name, value, help)->type_name("N")->check(CLI::Range(std::int64_t{1}, most));
  };
  number("--children", options.children, "So many children instead", kMostChildren);
  number("--minutes", options.minutes, "So many minutes from the start to the bell instead", 600);
  number("--adults", options.adults,
         "A team of so many instead (with --lesson: the fewest the lesson asks for)", kMostAdults);
  number("--visits", options.visits, "Visits rehearsed for each answer (default: 2000)", 100'000);
  command
      .add_option("--seed", options.seed, "Where luck begins; same seed, same answer (default: 1)")
      ->type_name("N")
      ->check(CLI::Range(std::int64_t{0}, kLargestExact));
  command
      .add_option("--language", options.language,
                  "Language the story is read in: en or es (default: en)")
      ->type_name("LANGUAGE")
      ->check(CLI::IsMember({"en", "es"}));
  command.add_option("--content", options.content, std::string(kContentHelp))->type_name("DIR");
  command.add_flag("--json", options.json, "Write the result as JSON");
}

}  // namespace

void add_rehearse(CLI::App& app, const Streams& streams, Status& status) {
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "rehearse", "Says how many adults a visit needs and how likely it ends by the bell");
  add_options(*command, *options);
  command->footer(
      "For 1 to 8 adults and starts up to 20 minutes late; then what is shortened or left out as "
      "planned, ten minutes late, and with two adults fewer. How the numbers come about: "
      "METHODS.md "
      "in the content folder.\n\n"
      "Example: one visit\n"
      "  trowelbell rehearse --brief maple-12.brief.json\n"
      "Example: a class that has no brief yet\n"
      "  trowelbell rehearse --lesson window-garden --children 22 --minutes 40");
  command->callback([options, &streams, &status] { status = rehearse(*options, streams); });
}

}  // namespace trowelbell
