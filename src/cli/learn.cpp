#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <ostream>

#include "cli/learn_output.h"
#include "cli/lesson_file.h"
#include "cli/report_files.h"
#include "cli/visit_files.h"
#include "cli/words.h"
#include "core/step_learning.h"
#include "core/visit_reports.h"

namespace trowelbell {

namespace {

struct Options {
  std::vector<std::string> names;
  std::string lesson, content, out;
  std::int64_t least = kLeastVisits;
  bool force = false, json = false;
};

bool proposes(const LearnedTimes& times) {
  return std::any_of(times.steps.begin(), times.steps.end(),
                     [](const LearnedStep& step) { return step.proposed.has_value(); });
}

Status write_lesson(const Options& options, const LearnedTimes& times, const Streams& streams) {
  if (!proposes(times)) {
    streams.err << "trowelbell learn: too few visits for any proposal, so no lesson was written\n";
    return Status::input_at_fault;
  }
  return write_learned_lesson(options.content, options.lesson, times, options.out, streams)
             ? Status::done
             : Status::input_at_fault;
}

Status learn(const Options& options, const Streams& streams) {
  std::error_code error;
  if (options.out.empty() ? options.force
                          : !options.force && std::filesystem::exists(options.out, error)) {
    streams.err << (options.out.empty()
                        ? "trowelbell learn: --force belongs to --out FILE\n"
                        : "trowelbell learn: " + plain(options.out) +
                              " is there already; give another name, or --force to replace it\n");
    return Status::call_at_fault;
  }
  Status status = Status::done;
  const auto content = read_lesson_files(options.lesson, options.content, streams, status);
  if (!content) {
    return status;
  }
  const auto files = read_report_files(options.names, streams, status);
  if (!files) {
    return status;
  }
  std::vector<ReportFacts> reports;
  for (const std::size_t index : count_reports(files->reports).counted) {
    reports.push_back(files->reports[index]);
  }
  const auto least = static_cast<std::size_t>(options.least);
  const LearnedResult learned{content->lesson,
                              learn_times(content->lesson, content->story, reports, least),
                              files->reports.size(), files->left_out.size(), least};
  options.json ? write_learned_json(streams.out, learned)
               : write_learned_words(streams.out, learned);
  const Status written =
      options.out.empty() ? Status::done : write_lesson(options, learned.times, streams);
  return std::max(status, written);
}

}  // namespace

void add_learn(CLI::App& app, const Streams& streams, Status& status) {
  const auto options = std::make_shared<Options>();
  CLI::App* command =
      app.add_subcommand("learn", "Proposes a lesson's step times from reports of past visits");
  command->add_option("REPORT", options->names, std::string(kReportsHelp))
      ->type_name("")
      ->required();
  command->add_option("--lesson", options->lesson, "The lesson's id")->type_name("ID")->required();
  command->add_option("--content", options->content, std::string(kContentHelp))->type_name("DIR");
  command
      ->add_option("--least", options->least,
                   "Fewest visits that a quantile or proposal is made from (default: 5)")
      ->type_name("N")
      ->check(CLI::Range(3, 1000));
  command
      ->add_option("--out", options->out,
                   "Write the lesson with the proposed times here; nothing else in it changes")
      ->type_name("FILE");
  command->add_flag("--force", options->force, "Replace that file if it is there already");
  command->add_flag("--json", options->json, "Write the result as JSON");
  command->footer(
      "Of each visit one report counts, as in rollup. The lesson in the content folder is not "
      "touched: look at the proposals first. How they come about: METHODS.md in the content "
      "folder.\n\n"
      "Example: how long the steps really took\n"
      "  trowelbell learn reports/ --lesson window-garden\n"
      "Example: a new lesson file, to compare and to check\n"
      "  trowelbell learn reports/ --lesson window-garden --out learned.json\n"
      "  trowelbell check learned.json");
  command->callback([options, &streams, &status] { status = learn(*options, streams); });
}

}  // namespace trowelbell
