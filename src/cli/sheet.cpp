#include "core/sheet.h"

#include <CLI/CLI.hpp>
#include <memory>
#include <ostream>

#include "cli/visit_files.h"
#include "cli/words.h"
#include "core/sheet_words.h"

namespace trowelbell {

namespace {

constexpr std::string_view kTaskNames[] = {"damp_check", "expect_root", "expect_leaves",
                                           "transplant", "last_day"};
constexpr std::string_view kWarningNames[] = {"too_cold", "too_warm", "few_sprouts",
                                              "sprouts_in_break", "no_school_day"};

// Breaks between lines stay; anything else that could steer the terminal goes.
std::string plain_lines(std::string_view text) {
  std::string safe;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    safe += plain(text.substr(begin, end - begin)) + '\n';
    begin = end + 1;
  }
  return safe;
}

void write_json(std::ostream& out, const VisitFiles& files, std::string_view language) {
  const Sheet sheet = make_sheet(files.brief, files.species);
  Json lines = Json::array();
  for (const SheetLine& line : sheet.lines) {
    lines.push_back({{"task", kTaskNames[static_cast<std::size_t>(line.task)]},
                     {"species", line.species},
                     {"from", format_date(line.from)},
                     {"to", format_date(line.to)}});
  }
  Json warnings = Json::array();
  for (const SheetAlert& alert : sheet.warnings) {
    warnings.push_back({{"warning", kWarningNames[static_cast<std::size_t>(alert.warning)]},
                        {"species", alert.species},
                        {"from", format_date(alert.from)},
                        {"to", format_date(alert.to)}});
  }
  out << dump_json({{"visit", files.brief.visit},
                    {"language", language},
                    {"lines", std::move(lines)},
                    {"warnings", std::move(warnings)}})
      << '\n';
}

Status sheet(const VisitOptions& options, const Streams& streams) {
  Status status = Status::done;
  const auto files = read_visit_files(options, streams, status);
  if (!files) {
    return status;
  }
  const std::string& tag =
      options.language.empty() ? files->brief.sheet_language : options.language;
  const auto language = files->languages.find(tag);
  if (language == files->languages.end()) {
    streams.err << "trowelbell sheet: the content has no texts in \"" << plain(tag) << "\"\n";
    return Status::input_at_fault;
  }
  if (options.json) {
    write_json(streams.out, *files, tag);
  } else {
    const VisitState state = fold(files->brief, files->lesson, files->events);
    const SheetWords words =
        sheet_words(files->brief, files->lesson, state, files->species, language->second);
    streams.out << plain_lines(plain_text(words, language->second));
  }
  return Status::done;
}

}  // namespace

void add_sheet(CLI::App& app, const Streams& streams, Status& status) {
  const auto options = std::make_shared<VisitOptions>();
  options->language.clear();
  CLI::App* command = app.add_subcommand("sheet", "Writes the sheet that stays with the teacher");
  add_brief_options(*command, *options);
  command
      ->add_option("--journal", options->journals,
                   "What happened: adds the kits left for absent children and the steps left out")
      ->type_name("FILE");
  command
      ->add_option("--language", options->language,
                   "Language of the sheet: en or es (default: as the brief says)")
      ->type_name("LANGUAGE")
      ->check(CLI::IsMember({"en", "es"}));
  command->footer(
      "Every date is a school day of the brief's calendar. The teacher's own rules come first.\n\n"
      "Example: the sheet to print before the visit, in Spanish\n"
      "  trowelbell sheet --brief maple-12.brief.json --language es");
  command->callback([options, &streams, &status] { status = sheet(*options, streams); });
}

}  // namespace trowelbell
