// The collector's command line.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace trowelbell::collector {

struct Options {
  std::filesystem::path data;
  std::filesystem::path web;  // empty: no site
  std::vector<std::filesystem::path> briefs;
  std::string address = "127.0.0.1";
  unsigned short port = 8321;
  std::filesystem::path coordinator_key_file;  // empty: coordinator.key in `data`
  bool log = false;
  std::filesystem::path backup;  // not empty: make this backup, and nothing else
};

// Nothing after --help (`status` 0, help on standard output) or a wrong call (`status` 2, why on
// standard error).
std::optional<Options> parse_options(int argc, const char* const* argv, int& status);

}  // namespace trowelbell::collector
