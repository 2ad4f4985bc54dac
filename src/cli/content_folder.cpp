#include "cli/content_folder.h"

#include <cstdlib>
#include <sstream>

#include "cli/files.h"

namespace trowelbell {

namespace fs = std::filesystem;

namespace {

bool has_index(const fs::path& folder) {
  std::error_code error;
  return fs::is_regular_file(folder / "index.json", error);
}

// The program stands in build/native, or is installed with its content a few folders up.
std::vector<fs::path> usual_places() {
  std::vector<fs::path> places;
  std::error_code error;
  fs::path folder = fs::read_symlink("/proc/self/exe", error).parent_path();
  for (int up = 0; up < 3 && !error && folder.has_relative_path(); ++up) {
    places.push_back(folder / "content");
    folder = folder.parent_path();
  }
  places.emplace_back("content");
  return places;
}

}  // namespace

std::optional<fs::path> find_content(const std::string& given) {
  const char* variable = std::getenv("TROWELBELL_CONTENT");
  std::vector<fs::path> places;
  if (!given.empty()) {
    places = {given};
  } else if (variable != nullptr && *variable != '\0') {
    places = {variable};
  } else {
    places = usual_places();
  }
  for (const fs::path& place : places) {
    if (has_index(place)) {
      return place;
    }
  }
  return std::nullopt;
}

Content load_content_folder(const fs::path& folder, std::vector<FileProblems>& faults) {
  Content content;
  std::istringstream no_input;
  const auto read = [&](const std::string& path, auto&& use) {
    Problems problems;
    if (const auto text =
            read_text((folder / path).string(), kContentLimits.bytes, no_input, problems)) {
      use(*text, problems);
    }
    if (!problems.empty()) {
      faults.push_back({(folder / path).string(), std::move(problems)});
    }
  };
  ContentIndex index;
  bool good = false;
  read("index.json", [&](const std::string& text, Problems& problems) {
    if (const auto document = parse_json(text, kContentLimits, problems)) {
      index = read_index(*document, problems);
      good = problems.empty();
    }
  });
  if (good) {
    for (const ContentFile& file : content_files(index)) {
      read(file.path, [&](const std::string& text, Problems& problems) {
        load_content(content, file, text, problems);
      });
    }
  }
  return content;
}

}  // namespace trowelbell
