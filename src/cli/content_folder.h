// The content folder on disk: where it is, and all of it loaded.
#pragma once

#include <filesystem>

#include "core/content.h"

namespace trowelbell {

inline constexpr std::string_view kContentHelp =
    "Content folder (default: $TROWELBELL_CONTENT, else the folder \"content\" beside the build or "
    "here)";

// The folder in `given`; where that is empty, the one in TROWELBELL_CONTENT, else "content" in a
// folder above the program or in the current folder. Nothing where there is no index.json in it.
std::optional<std::filesystem::path> find_content(const std::string& given);

struct FileProblems {
  std::string file;
  Problems problems;
};

// All files that the folder's index names. Files that cannot be read are left out and told.
Content load_content_folder(const std::filesystem::path& folder, std::vector<FileProblems>& faults);

}  // namespace trowelbell
