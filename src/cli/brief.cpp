#include "core/brief.h"

#include <CLI/CLI.hpp>
#include <filesystem>
#include <memory>
#include <ostream>

#include "cli/county_file.h"
#include "cli/files.h"
#include "cli/keys.h"
#include "cli/program.h"
#include "cli/words.h"
#include "core/school_days.h"

namespace trowelbell {

namespace fs = std::filesystem;

namespace {

struct Options {
  std::string county;
  std::vector<std::string> visits;
  std::string date;
  std::string start;
  std::string keys;
  std::string out;
  std::string link;
  bool json = false;
};

// The call's arguments, understood.
struct Call {
  std::optional<Date> date;
  std::optional<std::int64_t> start;
};

struct MadeBrief {
  Brief brief;
  std::string file;  // "": not written
  std::string link;  // "": not asked for
};

std::optional<Call> understand(const Options& options, std::ostream& err) {
  Call call;
  const auto fault = [&](std::string_view what) {
    err << "trowelbell brief: " << what << '\n';
    return std::nullopt;
  };
  if (!options.date.empty() && !(call.date = parse_date(options.date))) {
    return fault("--date must be a date that exists, as YYYY-MM-DD");
  }
  if (!options.start.empty() && !(call.start = parse_clock(options.start))) {
    return fault("--start must be a time of day, as HH:MM");
  }
  const bool web = options.link.rfind("https://", 0) == 0 || options.link.rfind("http://", 0) == 0;
  if (!options.link.empty() && (!web || options.link.find('#') != std::string::npos)) {
    return fault("--link must be the address of the phone's page: https://..., without a \"#\"");
  }
  return call;
}

// An unreadable keys file stops everything: new keys would lock out the phones that have the old
// ones.
std::optional<VisitKeys> load_keys(const std::string& file, const Streams& streams) {
  std::error_code error;
  if (file.empty() || !fs::exists(file, error)) {
    return VisitKeys{};
  }
  Problems problems;
  VisitKeys keys;
  if (const auto text = read_text(file, kKeysLimits.bytes, streams.in, problems)) {
    if (const auto document = parse_json(*text, kKeysLimits, problems)) {
      keys = read_keys(*document, problems);
    }
  }
  write_problems(streams.err, file, problems);
  return problems.empty() ? std::optional(std::move(keys)) : std::nullopt;
}

std::vector<std::string> wanted_visits(const Options& options, const County& county) {
  if (!options.visits.empty()) {
    return options.visits;
  }
  std::vector<std::string> all;
  for (const PlannedVisit& visit : county.visits) {
    all.push_back(visit.id);
  }
  return all;
}

// What about the day and the hour somebody should know.
void note_day(const School& school, const Brief& brief, std::ostream& err) {
  const std::string visit = "note: visit " + brief.visit + ": ";
  if (!is_school_day(brief, brief.date)) {
    err << visit << format_date(brief.date) << " is a weekend or a closed day of this school\n";
  }
  const ClockTime time = clock_time(school, brief.date, brief.start_minutes);
  if (time != ClockTime::once) {
    err << visit << "clocks change that day, and " << format_clock(brief.start_minutes)
        << (time == ClockTime::skipped
                ? " is skipped; it is counted by the clock before the change\n"
                : " comes twice; the first is meant\n");
  }
}

std::optional<std::vector<MadeBrief>> make_all(const Options& options, const Call& call,
                                               const County& county, VisitKeys& keys,
                                               const Streams& streams) {
  std::vector<MadeBrief> all;
  Problems problems;
  for (const std::string& visit : wanted_visits(options, county)) {
    std::string& key = keys[visit];
    if (key.empty()) {
      const auto fresh = random_key();
      if (!fresh) {
        streams.err
            << "trowelbell brief: the system gives no random numbers, so no key can be made\n";
        return std::nullopt;
      }
      key = *fresh;
    }
    Problems found;
    if (auto brief = make_brief(county, visit, call.date, call.start, key, found)) {
      note_day(*find_school(county, find_visit(county, visit)->school), *brief, streams.err);
      const std::string link =
          options.link.empty() ? "" : options.link + "#" + brief_fragment(*brief);
      all.push_back({std::move(*brief), "", link});
    }
    for (Problem& problem : found) {
      problem.what += " (visit " + plain(visit) + ")";
    }
    add_problems(problems, found);
  }
  write_problems(streams.err, options.county, problems);
  return problems.empty() ? std::optional(std::move(all)) : std::nullopt;
}

bool write_files(const Options& options, const VisitKeys& keys, std::vector<MadeBrief>& all,
                 std::ostream& err) {
  Problems problems;
  // Keys first: a brief that is out in the world must find its key again.
  if (!options.keys.empty() &&
      !write_text(options.keys, dump_json(keys_json(keys)) + "\n", Readers::owner_only, problems)) {
    write_problems(err, options.keys, problems);
    return false;
  }
  if (options.out.empty()) {
    return true;
  }
  std::error_code error;
  fs::create_directories(options.out, error);
  for (MadeBrief& made : all) {
    made.file = (fs::path(options.out) / (made.brief.visit + ".brief.json")).string();
    if (!write_text(made.file, dump_json(brief_json(made.brief)) + "\n", Readers::everyone,
                    problems)) {
      write_problems(err, made.file, problems);
      return false;
    }
  }
  return true;
}

void write_words(std::ostream& out, const std::vector<MadeBrief>& all) {
  for (const MadeBrief& made : all) {
    const Brief& brief = made.brief;
    out << brief.visit << ": " << brief.school << ", " << brief.room << ", "
        << format_date(brief.date) << ' ' << format_clock(brief.start_minutes) << " to "
        << format_clock(brief.bell_minutes) << ", " << brief.children << " children, "
        << brief.adults << " adults, " << brief.kits << " kits\n";
    if (!made.file.empty()) {
      out << "  file: " << plain(made.file) << '\n';
    }
    if (!made.link.empty()) {
      out << "  link: " << plain(made.link) << '\n';
    }
  }
}

void write_json(std::ostream& out, const std::vector<MadeBrief>& all) {
  Json list = Json::array();
  for (const MadeBrief& made : all) {
    Json entry = {{"brief", brief_json(made.brief)}};
    if (!made.file.empty()) {
      entry["file"] = made.file;
    }
    if (!made.link.empty()) {
      entry["link"] = made.link;
    }
    list.push_back(std::move(entry));
  }
  out << dump_json({{"briefs", std::move(list)}}) << '\n';
}

Status brief(const Options& options, const Streams& streams) {
  const auto call = understand(options, streams.err);
  if (!call) {
    return Status::call_at_fault;
  }
  const auto file = load_county(options.county, {options.visits, call->date}, streams);
  auto keys = file ? load_keys(options.keys, streams) : std::nullopt;
  if (!keys) {
    return Status::input_at_fault;
  }
  auto all = make_all(options, *call, file->county, *keys, streams);
  if (!all || !write_files(options, *keys, *all, streams.err)) {
    return Status::input_at_fault;
  }
  for (const ReadCalendar& calendar : file->calendars) {
    streams.err << "note: " << plain(calendar_words(calendar)) << "; trowelbell check lists them\n";
  }
  if (options.keys.empty()) {
    streams.err << "note: the keys are new and kept nowhere else; with --keys FILE a second run "
                   "gives the same ones\n";
  }
  options.json ? write_json(streams.out, *all) : write_words(streams.out, *all);
  return Status::done;
}

}  // namespace

void add_brief(CLI::App& app, const Streams& streams, Status& status) {
  const auto options = std::make_shared<Options>();
  CLI::App* command =
      app.add_subcommand("brief", "Makes the briefs that tell phones about their visits");
  command->add_option("COUNTY", options->county, "The county file; \"-\" is standard input")
      ->type_name("")
      ->required();
  command
      ->add_option("--visit", options->visits,
                   "Id of a visit; may be given again (default: all visits)")
      ->type_name("ID");
  command->add_option("--date", options->date, "Move there: YYYY-MM-DD")->type_name("DATE");
  command
      ->add_option("--start", options->start,
                   "Begin then: HH:MM; the bell keeps the length of the slot")
      ->type_name("TIME");
  command
      ->add_option("--keys", options->keys,
                   "Keep the visits' keys here, and use those that are there")
      ->type_name("FILE");
  command->add_option("--out", options->out, "Write <visit>.brief.json files into this folder")
      ->type_name("DIR");
  command
      ->add_option("--link", options->link,
                   "Print a link for the phone that begins with this address")
      ->type_name("ADDRESS");
  command->add_flag("--json", options->json, "Write the result as JSON, briefs included");
  command->footer(
      "Where a school names a time zone or a calendar file, the brief gets the offset and the "
      "days; "
      "the file is looked for beside the county file.\n"
      "Every brief holds its visit's key: whoever has it can send reports for that visit. Keep the "
      "keys file private.\n\n"
      "Example: all briefs of the season, as files\n"
      "  trowelbell brief county.json --keys keys.json --out briefs\n"
      "Example: one visit was moved; send its lead a new link\n"
      "  trowelbell brief county.json --visit maple-12 --date 2027-03-16 --start 09:30 --keys "
      "keys.json \\\n"
      "      --link https://visits.example/");
  command->callback([options, &streams, &status] { status = brief(*options, streams); });
}

}  // namespace trowelbell
