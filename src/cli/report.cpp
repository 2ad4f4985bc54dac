#include "core/report.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <ostream>

#include "cli/visit_files.h"
#include "cli/words.h"

namespace trowelbell {

namespace {

// The report that the phone made last: everything up to its "report" event. A visit that ended
// without one is reported as its last event left it.
std::span<const Event> reported(const VisitFiles& files) {
  const auto& events = files.events;
  const auto made = std::find_if(events.rbegin(), events.rend(),
                                 [](const Event& event) { return event.kind == "report"; });
  return {events.begin(), made == events.rend() ? events.end() : made.base()};
}

std::string clock_words(const Brief& brief, std::int64_t at) {
  return at == 0 ? "never" : format_clock(local_minutes(at, brief.utc_offset_minutes));
}

void write_counts(std::ostream& out, const VisitFiles& files, const ReportFacts& facts) {
  const HeadCount& children = facts.children;
  out << "Began " << clock_words(files.brief, facts.began_at) << ", ended "
      << clock_words(files.brief, facts.ended_at) << ", bell "
      << clock_words(files.brief, facts.bell_at) << '\n';
  out << "Children: " << children.came() << " came of " << children.places << " places ("
      << children.present << " present, " << children.late << " late, " << children.left_early
      << " left early, " << children.absent << " absent, " << children.unknown << " not counted)\n";
  out << "Adults: " << facts.adults << ", together " << facts.adult_minutes << " minutes\n";
  const KitPiles& kits = facts.kits;
  out << "Kits: " << kits.brought << " brought; " << kits.given << " given, " << kits.spoiled
      << " spoiled, " << kits.with_teacher << " left with the teacher, " << kits.spare << " spare, "
      << kits.unaccounted() << " unaccounted for\n";
}

void write_steps(std::ostream& out, const VisitFiles& files, const ReportFacts& facts) {
  constexpr std::string_view kOutcomes[] = {"done", "left out", "not reached"};
  std::size_t width = 4;
  for (const Step& step : files.lesson.steps) {
    width = std::max(width, step.title.en.size());
  }
  out << "\n" << padded("Step", width) << "  Plan   Took\n";
  for (const StepFacts& step : facts.steps) {
    const std::size_t index = step_index(files.lesson, step.id);
    const std::string title =
        index < files.lesson.steps.size() ? files.lesson.steps[index].title.en : step.id;
    out << padded(title, width) << "  " << padded(minutes_seconds(step.planned_seconds), 5) << "  "
        << padded(minutes_seconds(step.actual_seconds), 5) << "  "
        << kOutcomes[static_cast<std::size_t>(step.outcome)] << '\n';
  }
}

void write_words(std::ostream& out, const VisitFiles& files, const ReportFacts& facts) {
  out << files.lesson.title.en << ", " << facts.school << ", " << facts.room << ", "
      << format_date(facts.date) << '\n';
  out << "Report " << facts.revision << " of phone " << facts.device << '\n';
  write_counts(out, files, facts);
  for (const auto& [item, pieces] : facts.lacking) {
    out << "Short at the packing table: " << item << ", " << pieces << '\n';
  }
  for (const auto& [card, times] : facts.mishaps) {
    out << "Mishap: " << card << ", " << times << (times == 1 ? " time\n" : " times\n");
  }
  out << "Handed over to: " << (facts.taken_by.empty() ? "nobody yet" : facts.taken_by) << '\n';
  if (!facts.note.empty()) {
    out << "Note: " << plain(facts.note) << '\n';
  }
  write_steps(out, files, facts);
}

Status report(const VisitOptions& options, const Streams& streams) {
  Status status = Status::done;
  const auto files = read_visit_files(options, streams, status);
  if (!files) {
    return status;
  }
  const auto events = reported(*files);
  if (events.empty()) {
    streams.err << "trowelbell report: the journal has no events, so there is nothing to report\n";
    return Status::input_at_fault;
  }
  if (const std::size_t after = files->events.size() - events.size(); after > 0) {
    streams.err << "note: " << after << (after == 1 ? " later event is" : " later events are")
                << " not in this report; no newer one was made\n";
  }
  // As the phone does: the brief's class and team, the story in English.
  const auto times = times_for(*files, options, files->brief.children, files->brief.adults);
  const Event& last = events.back();
  const Json document =
      make_report(files->brief, files->lesson, times, events, last.device, last.seq);
  if (options.json) {
    streams.out << dump_json(document);
    return Status::done;
  }
  Problems problems;
  const ReportFacts facts = read_report(document, problems);
  write_problems(streams.err, "the report", problems);
  write_words(streams.out, *files, facts);
  return problems.empty() ? Status::done : Status::input_at_fault;
}

}  // namespace

void add_report(CLI::App& app, const Streams& streams, Status& status) {
  const auto options = std::make_shared<VisitOptions>();
  CLI::App* command =
      app.add_subcommand("report", "Makes the visit report from a brief and a journal");
  add_brief_options(*command, *options);
  command
      ->add_option("--journal", options->journals,
                   "The visit's journal, as saved on the phone; of several phones give\n"
                   "each, and they become one report")
      ->type_name("FILE")
      ->required();
  command->footer(
      "With --json it writes the very bytes that the phone sends (no line end after them).\n\n"
      "Example: read a report whose phone never found a signal\n"
      "  trowelbell report --brief maple-12.brief.json --journal maple-12.journal.json\n\n"
      "Example: two phones recorded the visit, and neither has the other's taps\n"
      "  trowelbell report --brief maple-12.brief.json --journal lead.json --journal aide.json");
  command->callback([options, &streams, &status] { status = report(*options, streams); });
}

}  // namespace trowelbell
