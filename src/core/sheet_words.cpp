#include "sheet_words.h"

namespace trowelbell {
namespace {

std::string species_name(std::span<const Species> all, std::string_view id,
                         std::string_view language) {
  for (const Species& species : all) {
    if (species.id == id) return species.plural.in(language);
  }
  return "";
}

std::string_view task_key(SheetTask task) {
  switch (task) {
    case SheetTask::damp_check:
      return "sheet.damp_check";
    case SheetTask::expect_root:
      return "sheet.expect_root";
    case SheetTask::expect_leaves:
      return "sheet.expect_leaves";
    case SheetTask::transplant:
      return "sheet.transplant";
    case SheetTask::last_day:
      return "sheet.last_day";
  }
  return "";
}

std::string_view warning_key(SheetWarning warning) {
  switch (warning) {
    case SheetWarning::too_cold:
      return "sheet.too_cold";
    case SheetWarning::too_warm:
      return "sheet.too_warm";
    case SheetWarning::few_sprouts:
      return "sheet.few_sprouts";
    case SheetWarning::sprouts_in_break:
      return "sheet.sprouts_in_break";
    case SheetWarning::no_school_day:
      return "sheet.no_school_day";
  }
  return "";
}

// Damp checks are many: one line for all of them.
std::string damp_dates(const Sheet& sheet, const Language& language) {
  std::string dates;
  for (const SheetLine& line : sheet.lines) {
    if (line.task != SheetTask::damp_check) continue;
    dates += (dates.empty() ? "" : ", ") + language.date_range(line.from, line.to);
  }
  return dates;
}

std::vector<std::string> left_out(const Lesson& lesson, const VisitState& state,
                                  const Language& language) {
  std::vector<std::string> left;
  if (state.phase != Phase::finished) return left;
  for (std::size_t index = 0; index < lesson.steps.size(); ++index) {
    const LocalText& text = lesson.steps[index].left_with_teacher;
    if (!state.steps[index].entered && !text.empty()) left.push_back(text.in(language.tag()));
  }
  return left;
}

}  // namespace

SheetWords sheet_words(const Brief& brief, const Lesson& lesson, const VisitState& state,
                       std::span<const Species> species, const Language& language) {
  const Sheet sheet = make_sheet(brief, species);
  SheetWords words;
  words.title = language.say("sheet.title", {{"room", brief.room}, {"school", brief.school}});
  words.intro = language.say("sheet.intro", {{"date", language.date(brief.date)}});
  if (const std::string damp = damp_dates(sheet, language); !damp.empty()) {
    words.dates.emplace_back(language.say("sheet.damp_check"), damp);
  }
  for (const SheetLine& line : sheet.lines) {
    if (line.task == SheetTask::damp_check) continue;
    const std::string name = species_name(species, line.species, language.tag());
    words.dates.emplace_back(language.say(task_key(line.task), {{"species", name}}),
                             language.date_range(line.from, line.to));
  }
  for (const SheetAlert& alert : sheet.warnings) {
    words.warnings.push_back(
        language.say(warning_key(alert.warning),
                     {{"species", species_name(species, alert.species, language.tag())},
                      {"from", language.date(alert.from)},
                      {"to", language.date(alert.to)}}));
  }
  for (const char* key : {"sheet.how.damp", "sheet.how.light", "sheet.how.pot", "sheet.how.depth",
                          "sheet.how.mould", "sheet.how.hands", "sheet.how.home"}) {
    words.how.push_back(language.say(key));
  }
  if (state.kits.with_teacher > 0) {
    words.how.push_back(language.count("sheet.absent", state.kits.with_teacher));
  }
  words.left = left_out(lesson, state, language);
  words.closing = language.say("sheet.closing");
  return words;
}

std::string plain_text(const SheetWords& words, const Language& language) {
  std::string text = words.title + "\n\n" + words.intro + "\n\n";
  for (const std::string& line : words.warnings) text += "! " + line + "\n";
  text += language.say("sheet.dates") + "\n";
  for (const auto& [task, when] : words.dates)
    text.append("- ").append(task).append("\n  ").append(when).append("\n");
  text += "\n" + language.say("sheet.how") + "\n";
  for (const std::string& line : words.how) text += "- " + line + "\n";
  if (!words.left.empty()) text += "\n" + language.say("sheet.left") + "\n";
  for (const std::string& line : words.left) text += "- " + line + "\n";
  return text + "\n" + words.closing + "\n";
}

}  // namespace trowelbell
