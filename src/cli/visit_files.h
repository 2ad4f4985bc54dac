// What the subcommands about one visit read: its brief and journal, and what the content has for
// it.
#pragma once

#include <optional>

#include "cli/program.h"
#include "core/brief.h"
#include "core/content.h"
#include "core/journal.h"
#include "core/lesson_time.h"

namespace CLI {
class App;
}

namespace trowelbell {

struct VisitOptions {
  std::string brief;
  std::vector<std::string> journals;  // of the phones on the visit; none: nothing has happened yet
  std::string content;
  std::string language = "en";
  bool json = false;
};

struct VisitFiles {
  Brief brief;
  Lesson lesson;
  Story story;
  std::vector<Event> events;     // in their one order
  std::vector<Species> species;  // as the lesson names them
  std::map<std::string, Language, std::less<>> languages;
};

inline constexpr std::string_view kNoContent =
    "trowelbell: no content folder with an index.json was found; give one with --content DIR\n";

// Nothing, and the reasons on `streams.err`, where the file is not a sound brief.
std::optional<Brief> load_brief(const std::string& name, const Streams& streams);

// --brief, --content and --json.
void add_brief_options(CLI::App& command, VisitOptions& options);
// Everything, or nothing and the reasons on `streams.err`, with `status` set.
std::optional<VisitFiles> read_visit_files(const VisitOptions& options, const Streams& streams,
                                           Status& status);
// The same for a lesson by its id, without a brief.
std::optional<VisitFiles> read_lesson_files(const std::string& id, const std::string& content,
                                            const Streams& streams, Status& status);

// Step times for this many children in the room and adults.
std::vector<StepSeconds> times_for(const VisitFiles& files, const VisitOptions& options,
                                   std::int64_t children, std::int64_t adults);

}  // namespace trowelbell
