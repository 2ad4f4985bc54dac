#include "index.h"

#include <algorithm>

namespace trowelbell {

namespace {

bool is_content_path(std::string_view path) {
  const bool plain = std::all_of(path.begin(), path.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '_' || c == '.' ||
           c == '/';
  });
  return plain && path.size() > 5 && path.size() <= 100 && path.front() != '/' &&
         path.substr(path.size() - 5) == ".json" && path.find("..") == std::string_view::npos;
}

std::string read_path(const Reader& reader, std::string_view key) {
  const std::string* path = reader.find_text(key);
  if (path == nullptr || !is_content_path(*path)) {
    reader.refuse(
        key,
        "a path inside the content folder that ends in \".json\", such as \"care/cards.json\"");
    return "";
  }
  return *path;
}

ContentPaths read_paths(const Reader& index, std::string_view key) {
  ContentPaths paths;
  const Reader group = index.object(key);
  const auto* members = group.value().get_ptr<const Json::object_t*>();
  if (members == nullptr) {
    return paths;
  }
  if (members->empty() || members->size() > 100) {
    index.problem(key, "must name 1 to 100 files");
    return paths;
  }
  for (const auto& [id, path] : *members) {
    // The id is a key here; it is held to the same rule as an id that is a value.
    const Json as_value = id;
    Problems id_problems;
    if (Reader(as_value, id_problems).id(""); !id_problems.empty()) {
      group.problem("", "must have ids of 1 to 64 of a-z, 0-9 and \"-\" as its names");
    } else {
      paths.emplace(id, read_path(group, id));
    }
  }
  return paths;
}

}  // namespace

ContentIndex read_index(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  ContentIndex index;
  if (!reader.header("trowelbell.index", 1)) {
    return index;
  }
  index.lessons = read_paths(reader, "lessons");
  index.stories = read_paths(reader, "stories");
  index.species = read_paths(reader, "species");
  index.languages = read_paths(reader, "languages");
  index.care = read_path(reader, "care");
  return index;
}

}  // namespace trowelbell
