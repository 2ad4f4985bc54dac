#include "cli/visit_files.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <ostream>

#include "cli/content_folder.h"
#include "cli/files.h"
#include "cli/words.h"
#include "core/journal_file.h"

namespace trowelbell {

namespace {

// Puts the file's events into the journal, which orders them and takes each once.
bool join_events(const std::string& name, const Brief& brief, const Streams& streams,
                 Journal& journal) {
  Problems problems;
  if (const auto text = read_text(name, kJournalLimits.bytes, streams.in, problems)) {
    if (const auto document = parse_json(*text, kJournalLimits, problems)) {
      const JournalFile file = read_journal_file(*document, problems);
      if (problems.empty() && file.visit != brief.visit) {
        problems.push_back({"/visit", "is \"" + file.visit + "\", but the brief is for \"" +
                                          brief.visit + "\"; give the files of one visit"});
      }
      for (const Event& event : file.events) {
        journal.merge(event);
      }
    }
  }
  write_problems(streams.err, name, problems);
  return problems.empty();
}

Content load_told(const std::filesystem::path& folder, const Streams& streams) {
  std::vector<FileProblems> faults;
  Content content = load_content_folder(folder, faults);
  for (const FileProblems& fault : faults) {
    write_problems(streams.err, fault.file, fault.problems);
  }
  return content;
}

// Moves a lesson that the content has, and all that it names, into `files`.
bool take_lesson(Content& content, const std::string& id, const Streams& streams,
                 VisitFiles& files) {
  const auto lesson = content.lessons.find(id);
  const auto missing = [&] {
    write_problems(streams.err, "lesson " + id, check_references(lesson->second, content));
    return false;
  };
  const auto story = content.stories.find(lesson->second.story);
  if (story == content.stories.end()) {
    return missing();
  }
  for (const std::string& name : lesson->second.species) {
    const auto species = content.species.find(name);
    if (species == content.species.end()) {
      return missing();
    }
    files.species.push_back(species->second);
  }
  files.story = std::move(story->second);
  files.lesson = std::move(lesson->second);
  files.languages = std::move(content.languages);
  return true;
}

}  // namespace

std::optional<Brief> load_brief(const std::string& name, const Streams& streams) {
  Problems problems;
  std::optional<Brief> brief;
  if (const auto text = read_text(name, kBriefLimits.bytes, streams.in, problems)) {
    brief = brief_from_text(*text, problems);
  }
  write_problems(streams.err, name, problems);
  return brief;
}

void add_brief_options(CLI::App& command, VisitOptions& options) {
  command.add_option("--brief", options.brief, "The visit's brief")->type_name("FILE")->required();
  command.add_option("--content", options.content, std::string(kContentHelp))->type_name("DIR");
  command.add_flag("--json", options.json, "Write the result as JSON");
}

std::optional<VisitFiles> read_visit_files(const VisitOptions& options, const Streams& streams,
                                           Status& status) {
  status = Status::call_at_fault;
  const auto folder = find_content(options.content);
  if (!folder) {
    streams.err << kNoContent;
    return std::nullopt;
  }
  if (std::count(options.journals.begin(), options.journals.end(), "-") +
          (options.brief == "-" ? 1 : 0) >
      1) {
    streams.err << "trowelbell: only one of --brief and --journal can be standard input\n";
    return std::nullopt;
  }
  status = Status::input_at_fault;
  VisitFiles files;
  auto brief = load_brief(options.brief, streams);
  if (!brief) {
    return std::nullopt;
  }
  files.brief = std::move(*brief);
  Journal journal("");
  for (const std::string& name : options.journals) {
    if (!join_events(name, files.brief, streams, journal)) {
      return std::nullopt;
    }
  }
  files.events.assign(journal.events().begin(), journal.events().end());
  Content content = load_told(*folder, streams);
  if (content.lessons.find(files.brief.lesson) == content.lessons.end()) {
    write_problems(streams.err, "the brief", check_references(files.brief, content));
    return std::nullopt;
  }
  if (!take_lesson(content, files.brief.lesson, streams, files)) {
    return std::nullopt;
  }
  status = Status::done;
  return files;
}

std::optional<VisitFiles> read_lesson_files(const std::string& id, const std::string& content,
                                            const Streams& streams, Status& status) {
  status = Status::call_at_fault;
  const auto folder = find_content(content);
  if (!folder) {
    streams.err << kNoContent;
    return std::nullopt;
  }
  Content all = load_told(*folder, streams);
  if (all.lessons.find(id) == all.lessons.end()) {
    streams.err << "trowelbell: there is no lesson \"" << plain(id) << "\" in the content";
    for (const auto& entry : all.lessons) {
      streams.err << (&entry == &*all.lessons.begin() ? "; it has " : ", ") << entry.first;
    }
    streams.err << '\n';
    return std::nullopt;
  }
  VisitFiles files;
  if (!take_lesson(all, id, streams, files)) {
    status = Status::input_at_fault;
    return std::nullopt;
  }
  status = Status::done;
  return files;
}

std::vector<StepSeconds> times_for(const VisitFiles& files, const VisitOptions& options,
                                   std::int64_t children, std::int64_t adults) {
  return step_times(files.lesson, files.story, options.language, children, adults);
}

}  // namespace trowelbell
