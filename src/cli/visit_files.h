// What `pace` and `report` read: a brief, its journal, and the lesson and story from the content.
#pragma once

#include <optional>

#include "cli/program.h"
#include "core/brief.h"
#include "core/journal.h"
#include "core/lesson_time.h"

namespace CLI {
class App;
}

namespace trowelbell {

struct VisitOptions {
  std::string brief;
  std::string journal;  // "": nothing has happened yet
  std::string content;
  std::string language = "en";
  bool json = false;
};

struct VisitFiles {
  Brief brief;
  Lesson lesson;
  Story story;
  std::vector<Event> events;  // in their one order
};

void add_visit_options(CLI::App& command, VisitOptions& options);
// Everything, or nothing and the reasons on `streams.err`, with `status` set.
std::optional<VisitFiles> read_visit_files(const VisitOptions& options, const Streams& streams,
                                           Status& status);

// Step times for this many children in the room and adults.
std::vector<StepSeconds> times_for(const VisitFiles& files, const VisitOptions& options,
                                   std::int64_t children, std::int64_t adults);

}  // namespace trowelbell
