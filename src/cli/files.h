// Reading and writing files, with the reasons in words.
#pragma once

#include <filesystem>
#include <istream>

#include "core/json.h"

namespace trowelbell {

// The text of a file, or of `in` where `name` is "-"; nothing, and a problem, where it cannot be
// read or has more than `most` bytes.
std::optional<std::string> read_text(const std::string& name, std::size_t most, std::istream& in,
                                     Problems& problems);

// All files in the folder and in those below whose names end so, sorted.
std::vector<std::string> files_below(const std::filesystem::path& folder, std::string_view ending);

enum class Readers { everyone, owner_only };
// Replaces the file as a whole: after a crash it is the old one or the new one.
bool write_text(const std::filesystem::path& file, std::string_view text, Readers readers,
                Problems& problems);

}  // namespace trowelbell
