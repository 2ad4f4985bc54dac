// A data folder for the real collector, with the briefs of some visits.
#pragma once

#include "tests/collector/support.h"

namespace trowelbell::fault {

class DataFolder {
 public:
  explicit DataFolder(int visits = 1) {
    for (int i = 0; i < visits; ++i)
      folder.write("briefs/" + visit(i) + ".brief.json",
                   collector::testing::brief(visit(i), collector::testing::kKey).dump());
  }
  static std::string visit(int number) { return "visit-" + std::to_string(number); }
  std::filesystem::path data() const { return folder.path() / "data"; }
  std::filesystem::path database() const { return data() / "collector.db"; }
  std::vector<std::string> arguments() const { return arguments(data()); }
  std::vector<std::string> arguments(const std::filesystem::path& place) const {
    return {"--data", place, "--port", "0", "--briefs", folder.path() / "briefs"};
  }

  collector::testing::TempFolder folder;
};

}  // namespace trowelbell::fault
