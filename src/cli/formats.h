// Every kind of file that `check` knows, recognised by its "format".
#pragma once

#include <filesystem>

#include "core/content.h"
#include "core/journal_file.h"

namespace trowelbell {

// No file of ours may be longer.
inline constexpr std::size_t kLargestFile = kJournalLimits.bytes;

struct Checked {
  std::string file;
  std::string noun = "unknown";  // "lesson", "brief", ...
  Problems problems;
  Problems notes;  // worth a look, but not wrong
};

// `content` may be nullptr: then ids of other documents are not looked up. `folder` is where the
// file stands.
void check_text(std::string_view text, const Content* content, const std::filesystem::path& folder,
                Checked& checked);

}  // namespace trowelbell
