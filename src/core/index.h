// The list of the shipped content: which file holds which lesson, story, species and language.
// Format "trowelbell.index".
#pragma once

#include <map>

#include "json.h"

namespace trowelbell {

// Paths are relative to the content folder: 1..100 of a-z 0-9 '-' '_' '.' '/', ending in ".json",
// never up or absolute.
using ContentPaths = std::map<std::string, std::string, std::less<>>;  // by id

struct ContentIndex {
  ContentPaths lessons;  // 1..100 of each
  ContentPaths stories;
  ContentPaths species;
  ContentPaths languages;  // by tag
  std::string care;
};

ContentIndex read_index(const Json& document, Problems& problems);

}  // namespace trowelbell
