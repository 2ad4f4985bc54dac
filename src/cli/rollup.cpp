#include "core/rollup.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <ostream>
#include <set>

#include "cli/csv.h"
#include "cli/files.h"
#include "cli/rollup_output.h"
#include "cli/words.h"

namespace trowelbell {

namespace {

struct Options {
  std::vector<std::string> names;
  std::vector<std::string> by;
  std::string hour_value;
  std::string hour_source;
  std::string sprouts;
  bool json = false;
  bool csv = false;
};

// "2022", "(2022 data)": four digits by themselves that can be a year.
bool has_year(std::string_view text) {
  for (std::size_t i = 0, digits = 0; i <= text.size(); ++i) {
    if (i < text.size() && text[i] >= '0' && text[i] <= '9') {
      ++digits;
      continue;
    }
    if (digits == 4 && (text.substr(i - 4, 2) == "19" || text.substr(i - 4, 2) == "20")) {
      return true;
    }
    digits = 0;
  }
  return false;
}

// What is wrong with the call, or "".
std::string fault_of(const Options& options) {
  if (options.json && options.csv) {
    return "give --json or --csv, not both";
  }
  if (options.hour_value.empty() != options.hour_source.empty()) {
    return "--hour-value and --hour-source belong together: no figure without its source";
  }
  if (!options.hour_value.empty() && !parse_cents(options.hour_value)) {
    return "--hour-value must be dollars and cents, 0.01 to 9999.99, as 31.80";
  }
  if (!options.hour_source.empty() &&
      (!has_year(options.hour_source) || options.hour_source.size() > 200)) {
    return "--hour-source must say whose figure it is and of which year, in at most 200 bytes";
  }
  if (options.sprouts == "-" &&
      std::find(options.names.begin(), options.names.end(), "-") != options.names.end()) {
    return "only one of the reports and --sprouts can be standard input";
  }
  return "";
}

// Takes one row into `counts`, or tells what is wrong with it.
void take_row(const CsvRow& row, SproutCounts& counts, Problems& problems) {
  Problems found;
  const Reader reader(row.cells, found, row.place);
  const auto cell = row.cells.find("visit");  // an id of digits alone was read as a number
  const std::string visit = cell == row.cells.end() ? ""
                            : cell->is_string()     ? cell->get<std::string>()
                                                    : dump_json(*cell);
  if (visit.empty()) reader.problem("visit", "is empty");
  const std::int64_t children = reader.whole("children", 1, kMostChildren);
  const std::int64_t sprouted = found.empty() ? reader.whole("sprouted", 0, children) : 0;
  if (found.empty() && !counts.try_emplace(visit, SproutCount{sprouted, children}).second) {
    reader.problem("visit", "\"" + visit + "\" has one row already; each visit has one");
  }
  add_problems(problems, found);
}

// What cannot be read is told and left out.
SproutCounts read_sprouts(const std::string& name, const Streams& streams, Problems& problems) {
  SproutCounts counts;
  std::vector<std::string> unused;
  if (const auto text = read_text(name, kCsvBytes, streams.in, problems)) {
    if (const auto rows =
            read_csv(*text, {"visit", "sprouted", "children"}, {}, unused, problems)) {
      for (const CsvRow& row : *rows) take_row(row, counts, problems);
    }
  }
  write_problems(streams.err, name == "-" ? "standard input" : name, problems, "left out: ");
  return counts;
}

std::vector<Grouping> groupings(const std::vector<std::string>& names) {
  std::vector<Grouping> by;
  for (const Grouping grouping : {Grouping::sponsor, Grouping::school, Grouping::month}) {
    if (names.empty() ||
        std::find(names.begin(), names.end(), grouping_name(grouping)) != names.end()) {
      by.push_back(grouping);
    }
  }
  return by;
}

Status rollup(const Options& options, const Streams& streams) {
  if (const std::string fault = fault_of(options); !fault.empty()) {
    streams.err << "trowelbell rollup: " << fault << '\n';
    return Status::call_at_fault;
  }
  Status status = Status::done;
  auto files = read_report_files(options.names, streams, status);
  if (!files) {
    return status;
  }
  RollUpResult result;
  result.files = std::move(*files);
  result.reports = count_reports(result.files.reports);
  result.by = groupings(options.by);
  result.cents_per_hour = parse_cents(options.hour_value).value_or(0);
  result.rate_source = options.hour_source;
  result.sprouts = !options.sprouts.empty();
  Problems bad_sprouts;
  const SproutCounts sprouts =
      result.sprouts ? read_sprouts(options.sprouts, streams, bad_sprouts) : SproutCounts{};
  result.bad_sprouts = static_cast<std::int64_t>(bad_sprouts.size());
  status = bad_sprouts.empty() ? status : Status::input_at_fault;
  std::vector<ReportFacts> reports;
  std::set<std::string> visits;
  for (const std::size_t index : result.reports.counted) {
    reports.push_back(result.files.reports[index]);
    visits.insert(reports.back().visit);
  }
  for (const auto& told : sprouts) {
    if (visits.find(told.first) == visits.end()) {
      result.unknown_visits.push_back(told.first);
    }
  }
  result.totals = roll_up(reports, result.cents_per_hour, sprouts);
  if (options.csv) {
    write_rollup_csv(streams.out, result);
  } else {
    options.json ? write_rollup_json(streams.out, result) : write_rollup_words(streams.out, result);
  }
  return status;
}

}  // namespace

void add_rollup(CLI::App& app, const Streams& streams, Status& status) {
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "rollup", "Adds up reports: children, kits, adult hours, mishaps, sprouts");
  command->add_option("REPORT", options->names, std::string(kReportsHelp))
      ->type_name("")
      ->required();
  command
      ->add_option("--by", options->by,
                   "Group by sponsor, school or month; may be given again (default: all three)")
      ->type_name("GROUP")
      ->allow_extra_args(false)
      ->check(CLI::IsMember({"sponsor", "school", "month"}));
  command
      ->add_option("--hour-value", options->hour_value,
                   "What an adult's hour is valued at, as 31.80; without it there is no money")
      ->type_name("DOLLARS");
  command
      ->add_option("--hour-source", options->hour_source,
                   "Whose figure that is and of which year; printed beside it")
      ->type_name("TEXT");
  command
      ->add_option("--sprouts", options->sprouts,
                   "What teachers told: comma-separated values with the columns visit, sprouted "
                   "and children")
      ->type_name("FILE");
  command->add_flag("--json", options->json, "Write the result as JSON");
  command->add_flag("--csv", options->csv, "Write a table for spreadsheets");
  command->footer(
      "Of each visit one report counts: a phone's newest; of several phones' the one that knows "
      "the "
      "visit's end, then the one made of more taps. A report that cannot be read is told and left "
      "out, and the exit status is 1.\n\n"
      "Example: the season for the sponsors, with a table for the board\n"
      "  trowelbell rollup reports/ --by sponsor\n"
      "  trowelbell rollup reports/ --csv > season.csv\n"
      "Example: with the hours valued, and the sprouts that teachers told of\n"
      "  trowelbell rollup reports/ --hour-value 31.80 --hour-source \"national figure, 2022 "
      "data\" "
      "\\\n"
      "      --sprouts sprouts.csv");
  command->callback([options, &streams, &status] { status = rollup(*options, streams); });
}

}  // namespace trowelbell
