#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <ostream>

#include "cli/content_folder.h"
#include "cli/rehearse_output.h"

namespace trowelbell {

namespace {

struct Options : VisitOptions {
  std::string lesson;
  std::optional<std::int64_t> children, minutes, adults;
  std::int64_t visits = 2000;
  std::uint64_t seed = 1;
};

constexpr std::int64_t kMostRows = 8;

// `minutes_late` is one of the question's.
RehearsedCase make_case(const RehearsedVisit& visit, const Options& options, RehearsedCase made) {
  const StaffingQuestion& question = visit.question;
  made.times = times_for(visit.files, options, question.children, made.adults);
  made.pace =
      lesson_pace(visit.files.lesson, made.times, question.seconds - made.minutes_late * 60);
  const auto& late = question.minutes_late;
  const auto column = std::find(late.begin(), late.end(), made.minutes_late) - late.begin();
  made.rehearsal =
      visit.rows[static_cast<std::size_t>(made.adults - 1)].late[static_cast<std::size_t>(column)];
  return made;
}

RehearsedVisit make_visit(const VisitFiles& files, const Options& options) {
  RehearsedVisit visit{files, {}, options.adults.value_or(files.brief.adults), {}, {}};
  StaffingQuestion& question = visit.question;
  question.children = options.children.value_or(files.brief.children);
  question.seconds =
      options.minutes.value_or(files.brief.bell_minutes - files.brief.start_minutes) * 60;
  question.most_adults = std::max(kMostRows, visit.adults);
  question.visits = options.visits;
  question.seed = options.seed;
  visit.rows = staffing(files.lesson, files.story, options.language, question);
  const std::int64_t fewer = short_handed(visit.adults);
  for (const RehearsedCase& made : {RehearsedCase{"typical", "As planned", visit.adults, 0},
                                    RehearsedCase{"late", "Late", visit.adults, kLateMinutes},
                                    RehearsedCase{"short_handed", "Short-handed", fewer, 0}}) {
    visit.cases.push_back(make_case(visit, options, made));
  }
  return visit;
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
    const RehearsedVisit visit = make_visit(*files, options);
    options.json ? write_rehearsal_json(streams.out, visit)
                 : write_rehearsal_words(streams.out, visit);
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
