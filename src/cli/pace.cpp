#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <ostream>

#include "cli/pace_words.h"
#include "cli/visit_files.h"
#include "cli/words.h"
#include "core/visit_pace.h"

namespace trowelbell {

namespace {

struct Options : VisitOptions {
  std::string at;
};

constexpr std::string_view kPhaseNames[] = {"before", "running", "held", "finished"};

// Seconds after midnight of "HH:MM" or "HH:MM:SS".
std::optional<std::int64_t> parse_moment(std::string_view text) {
  const auto minutes = parse_clock(text.substr(0, 5));
  if (!minutes || (text.size() != 5 && text.size() != 8)) {
    return std::nullopt;
  }
  if (text.size() == 5) {
    return *minutes * 60;
  }
  const auto digit = [&](std::size_t i) {
    return text[i] >= '0' && text[i] <= '9' ? text[i] - '0' : 100;
  };
  const int seconds = digit(6) * 10 + digit(7);
  return text[5] == ':' && seconds < 60 ? std::optional(*minutes * 60 + seconds) : std::nullopt;
}

std::string format_moment(const Brief& brief, std::int64_t at) {
  const std::int64_t second = at / 1000 % 60;
  return format_clock(local_minutes(at, brief.utc_offset_minutes)) + (second < 10 ? ":0" : ":") +
         std::to_string(second);
}

struct Plan {
  const VisitFiles& files;
  VisitState state;
  std::vector<StepSeconds> times;
  VisitPace pace;
  std::int64_t now;
};

// The visit as it stood at `now`: later events are not known yet.
Plan make_plan(const VisitFiles& files, const VisitOptions& options, std::int64_t now) {
  const auto later = std::find_if(files.events.begin(), files.events.end(),
                                  [&](const Event& event) { return event.at > now; });
  Plan plan{files, fold(files.brief, files.lesson, {files.events.begin(), later}), {}, {}, now};
  // Until the head count is taken, everyone counts.
  const HeadCount count = plan.state.head_count();
  plan.times = times_for(files, options, count.places - count.absent - count.left_early,
                         std::max<std::int64_t>(1, plan.state.adults));
  plan.pace = pace_visit(files.lesson, plan.times, plan.state, files.brief.start_ms(), now);
  return plan;
}

bool is_current(const Plan& plan, std::size_t step) {
  return (plan.state.phase == Phase::running || plan.state.phase == Phase::held) &&
         step == plan.state.step;
}

std::string step_words(const Plan& plan, std::size_t i) {
  const std::string planned = "plan " + minutes_seconds(plan.times[i].plan);
  if (plan.pace.over[i]) {
    return plan.pace.steps[i].kept ? "done; " + planned : "was left out";
  }
  if (is_current(plan, i)) {
    return (plan.pace.step_left < 0
                ? "now, over its time by " + minutes_seconds(-plan.pace.step_left)
                : "now, " + minutes_seconds(plan.pace.step_left) + " left") +
           "; " + planned;
  }
  const PaceWhy why = plan.pace.steps[i].why;
  return std::string(why_words(why)) + (why == PaceWhy::shortened ? "; " + planned : "");
}

void write_words(std::ostream& out, const Plan& plan) {
  const Brief& brief = plan.files.brief;
  const Lesson& lesson = plan.files.lesson;
  const VisitPace& pace = plan.pace;
  out << lesson.title.en << ", " << brief.school << ", " << brief.room << ", "
      << format_date(brief.date) << '\n';
  out << "At " << format_moment(brief, plan.now) << ": "
      << (pace.to_bell < 0 ? minutes_seconds(-pace.to_bell) + " after the bell"
                           : minutes_seconds(pace.to_bell) + " to the bell")
      << " (bell " << format_moment(brief, plan.state.bell_at) << "), "
      << (pace.short_by > 0
              ? minutes_seconds(pace.short_by) + " too short even when every step is hurried"
              : minutes_seconds(pace.slack) + " to spare")
      << "\n\n";
  std::size_t width = 4;
  for (const Step& step : lesson.steps) {
    width = std::max(width, step.title.en.size());
  }
  out << "    " << padded("Step", width) << "   Time\n";
  for (std::size_t i = 0; i < lesson.steps.size(); ++i) {
    out << right(std::to_string(i + 1), 2) << "  " << padded(lesson.steps[i].title.en, width)
        << "  " << right(time_words(pace.steps[i]), 5) << "  " << step_words(plan, i) << '\n';
  }
  bool told = false;
  for (std::size_t i = 0; i < lesson.steps.size(); ++i) {
    if (!pace.steps[i].kept && !lesson.steps[i].left_with_teacher.empty()) {
      out << (told ? "" : "\nTo leave with the teacher:\n") << "  - "
          << lesson.steps[i].left_with_teacher.en << '\n';
      told = true;
    }
  }
}

void write_json(std::ostream& out, const Plan& plan) {
  Json steps = Json::array();
  for (std::size_t i = 0; i < plan.pace.steps.size(); ++i) {
    const PacedItem& item = plan.pace.steps[i];
    steps.push_back({{"id", plan.files.lesson.steps[i].id},
                     {"kept", item.kept},
                     {"over", static_cast<bool>(plan.pace.over[i])},
                     {"current", is_current(plan, i)},
                     {"milliseconds", item.ms},
                     {"planned_seconds", plan.times[i].plan},
                     {"why", why_name(item.why)}});
  }
  out << dump_json({{"visit", plan.files.brief.visit},
                    {"at", plan.now},
                    {"phase", kPhaseNames[static_cast<std::size_t>(plan.state.phase)]},
                    {"seconds_to_bell", plan.pace.to_bell},
                    {"seconds_to_spare", plan.pace.slack},
                    {"seconds_short", plan.pace.short_by},
                    {"steps", std::move(steps)}})
      << '\n';
}

Status pace(const Options& options, const Streams& streams) {
  const auto moment = parse_moment(options.at);
  if (!moment) {
    streams.err
        << "trowelbell pace: --at must be a time of the visit's day, as HH:MM or HH:MM:SS\n";
    return Status::call_at_fault;
  }
  Status status = Status::done;
  if (const auto files = read_visit_files(options, streams, status)) {
    const std::int64_t now =
        to_epoch_ms(files->brief.date, 0, files->brief.utc_offset_minutes) + *moment * 1000;
    const Plan plan = make_plan(*files, options, now);
    options.json ? write_json(streams.out, plan) : write_words(streams.out, plan);
  }
  return status;
}

}  // namespace

void add_pace(CLI::App& app, const Streams& streams, Status& status) {
  const auto options = std::make_shared<Options>();
  CLI::App* command =
      app.add_subcommand("pace", "Shows the plan to the bell at one moment of a visit");
  add_brief_options(*command, *options);
  command
      ->add_option("--language", options->language,
                   "Language the story is read in: en or es (default: en)")
      ->type_name("LANGUAGE")
      ->check(CLI::IsMember({"en", "es"}));
  command
      ->add_option("--journal", options->journals,
                   "What has happened so far; later events are not looked at")
      ->type_name("FILE");
  command->add_option("--at", options->at, "The time on the school's clock: HH:MM or HH:MM:SS")
      ->type_name("TIME")
      ->required();
  command->footer(
      "Example: the plan when the team starts seven minutes late (bell at 10:00, start at 9:15)\n"
      "  trowelbell pace --brief maple-12.brief.json --at 09:22\n"
      "Example: how it stood in the middle of a visit\n"
      "  trowelbell pace --brief maple-12.brief.json --journal maple-12.journal.json --at "
      "09:41:30");
  command->callback([options, &streams, &status] { status = pace(*options, streams); });
}

}  // namespace trowelbell
