#include "cli/lesson_file.h"

#include <algorithm>

#include "cli/content_folder.h"
#include "cli/files.h"
#include "cli/formats.h"
#include "cli/words.h"

namespace trowelbell {

namespace {

namespace fs = std::filesystem;

// The text of the file that the index names for the lesson.
std::optional<std::string> lesson_text(const fs::path& folder, const std::string& lesson,
                                       std::istream& in, Problems& problems) {
  const auto index_text =
      read_text((folder / "index.json").string(), kContentLimits.bytes, in, problems);
  const auto document =
      index_text ? parse_json(*index_text, kContentLimits, problems) : std::nullopt;
  if (!document) {
    return std::nullopt;
  }
  const ContentIndex index = read_index(*document, problems);
  const auto file = index.lessons.find(lesson);
  if (file == index.lessons.end()) {
    return std::nullopt;
  }
  return read_text((folder / file->second).string(), kContentLimits.bytes, in, problems);
}

void put_times(nlohmann::ordered_json& step, const char* key, const StepSeconds& seconds) {
  if (step.contains(key)) {
    step[key]["plan"] = seconds.plan;
    step[key]["max"] = seconds.max;
  }
}

}  // namespace

bool write_learned_lesson(const std::string& content, const std::string& lesson,
                          const LearnedTimes& learned, const std::string& out,
                          const Streams& streams) {
  Problems problems;
  const auto folder = find_content(content);
  const auto text = folder ? lesson_text(*folder, lesson, streams.in, problems) : std::nullopt;
  if (!text) {
    write_problems(streams.err, "lesson " + lesson, problems);
    return false;
  }
  // Read without fault before, so that this cannot fail. Members keep the order of their author.
  auto document = nlohmann::ordered_json::parse(*text);
  auto& steps = document["steps"];
  for (std::size_t i = 0; i < std::min(steps.size(), learned.steps.size()); ++i) {
    if (const auto& proposed = learned.steps[i].proposed) {
      put_times(steps[i], "seconds", proposed->seconds);
      put_times(steps[i], "per_child", proposed->per_child);
    }
  }
  const std::string written = document.dump(2) + "\n";
  std::vector<FileProblems> told_already;
  const Content all = load_content_folder(*folder, told_already);
  Checked checked;
  check_text(written, &all, *folder, checked);
  if (checked.problems.empty()) {
    write_text(out, written, Readers::everyone, checked.problems);
  }
  write_problems(streams.err, out, checked.problems);
  return checked.problems.empty();
}

}  // namespace trowelbell
