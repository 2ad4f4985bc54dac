#include "cli/formats.h"

#include <algorithm>

#include "cli/county_file.h"
#include "core/report.h"
#include "core/school_days.h"

namespace trowelbell {

namespace {

struct Subject {
  const Json& document;
  const Content* content;
  const std::filesystem::path& folder;
  Checked& checked;

  Problems& problems() const { return checked.problems; }
  // References are looked up only in a document that is good by itself.
  bool look_up() const { return content != nullptr && checked.problems.empty(); }
  void take(const Problems& found) const { add_problems(checked.problems, found); }
};

// Shipped content is complete in both languages; a draft need not be.
void note_untranslated(const Json& value, const std::string& path, Problems& notes) {
  if (value.is_object() && value.contains("en") && value["en"].is_string() &&
      !value.contains("es")) {
    add_problems(notes, {{path, "has no Spanish text (\"es\"); English will be shown"}});
  }
  if (const auto* members = value.get_ptr<const Json::object_t*>()) {
    for (const auto& [key, inner] : *members) {
      std::string inner_path = path;
      inner_path.append("/").append(key);
      note_untranslated(inner, inner_path, notes);
    }
  } else if (const auto* items = value.get_ptr<const Json::array_t*>()) {
    for (std::size_t i = 0; i < items->size(); ++i) {
      note_untranslated((*items)[i], path + "/" + std::to_string(i), notes);
    }
  }
}

void note_closed_day(const Brief& brief, const std::string& path, Problems& notes) {
  if (!is_school_day(brief, brief.date)) {
    add_problems(
        notes, {{path, format_date(brief.date) + " is a weekend or a closed day of this school"}});
  }
}

void check_lesson(const Subject& subject) {
  const Lesson lesson = read_lesson(subject.document, subject.problems());
  if (subject.look_up()) {
    subject.take(check_references(lesson, *subject.content));
  }
  note_untranslated(subject.document, "", subject.checked.notes);
}

void check_story(const Subject& subject) {
  const Story story = read_story(subject.document, subject.problems());
  if (subject.problems().empty()) {
    subject.take(check_references(story));
  }
  note_untranslated(subject.document, "", subject.checked.notes);
}

void check_species(const Subject& subject) {
  read_species(subject.document, subject.problems());
  note_untranslated(subject.document, "", subject.checked.notes);
}

void check_care(const Subject& subject) {
  const CareCards care = read_care_cards(subject.document, subject.problems());
  if (subject.problems().empty()) {
    subject.take(check_references(care));
  }
  note_untranslated(subject.document, "", subject.checked.notes);
}

void check_language(const Subject& subject) {
  const Language language = read_language(subject.document, subject.problems());
  if (subject.look_up()) {
    subject.take(check_references(language, *subject.content));
  }
}

void check_index(const Subject& subject) {
  const ContentIndex index = read_index(subject.document, subject.problems());
  if (!subject.problems().empty()) {
    return;
  }
  constexpr std::string_view kGroups[] = {"/lessons/", "/stories/", "/species/", "/languages/",
                                          "/care"};
  for (const ContentFile& file : content_files(index)) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(subject.folder / file.path, error)) {
      const std::string group(kGroups[static_cast<std::size_t>(file.kind)]);
      subject.take({{group + file.id, "names the file \"" + file.path + "\", which is not there"}});
    }
  }
}

void check_county(const Subject& subject) {
  County county = read_county(subject.document, subject.problems());
  if (subject.look_up()) {
    subject.take(check_references(county, *subject.content));
  }
  if (subject.problems().empty()) {
    for (const ReadCalendar& calendar :
         look_up_schools(county, subject.folder, {}, subject.problems())) {
      const Problems notes = calendar_notes(calendar);
      subject.checked.notes.insert(subject.checked.notes.end(), notes.begin(), notes.end());
    }
  }
  for (std::size_t i = 0; subject.problems().empty() && i < county.visits.size(); ++i) {
    const std::string path = "/visits/" + std::to_string(i);
    const std::string stand_in_key(16, '0');
    Problems found;
    if (const auto brief = make_brief(county, county.visits[i].id, {}, {}, stand_in_key, found)) {
      note_closed_day(*brief, path + "/date", subject.checked.notes);
    }
    add_problems(subject.problems(), found, path);
  }
}

void check_brief(const Subject& subject) {
  const Brief brief = read_brief(subject.document, subject.problems());
  if (subject.look_up()) {
    subject.take(check_references(brief, *subject.content));
  }
  if (subject.problems().empty()) {
    note_closed_day(brief, "/date", subject.checked.notes);
  }
}

void check_journal(const Subject& subject) {
  read_journal_file(subject.document, subject.problems());
}

void check_report(const Subject& subject) {
  read_report(subject.document, subject.problems());
}

struct Format {
  std::string_view noun;
  JsonLimits limits;
  void (*check)(const Subject& subject);
};

constexpr Format kFormats[] = {
    {"lesson", kContentLimits, check_lesson},     {"story", kContentLimits, check_story},
    {"species", kContentLimits, check_species},   {"care", kContentLimits, check_care},
    {"language", kContentLimits, check_language}, {"index", kContentLimits, check_index},
    {"county", kCountyLimits, check_county},      {"brief", kBriefLimits, check_brief},
    {"journal", kJournalLimits, check_journal},   {"report", kReportLimits, check_report},
};

std::string known_formats() {
  std::string list;
  for (const Format& format : kFormats) {
    list += (list.empty() ? "\"trowelbell." : ", \"trowelbell.") + std::string(format.noun) + "\"";
  }
  return list;
}

}  // namespace

void check_text(std::string_view text, const Content* content, const std::filesystem::path& folder,
                Checked& checked) {
  constexpr JsonLimits kAnyFormat{kLargestFile, 16};
  const auto document = parse_json(text, kAnyFormat, checked.problems);
  if (!document) {
    return;
  }
  const Reader reader(*document, checked.problems);
  const std::string* name = reader.find_text("format");
  const auto* format =
      std::find_if(std::begin(kFormats), std::end(kFormats), [&](const Format& each) {
        return name != nullptr && *name == "trowelbell." + std::string(each.noun);
      });
  if (format == std::end(kFormats)) {
    reader.problem("format", "must say what the file is; one of " + known_formats());
    return;
  }
  checked.noun = format->noun;
  // Now that its kind is known, its own limits hold.
  if (parse_json(text, format->limits, checked.problems)) {
    format->check({*document, content, folder, checked});
  }
}

}  // namespace trowelbell
