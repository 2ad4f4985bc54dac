// Spreadsheets saved as CSV (RFC 4180), as objects that a Reader can read.
#pragma once

#include "core/json.h"

namespace trowelbell {

inline constexpr std::size_t kCsvBytes = 4 * 1024 * 1024;
inline constexpr std::size_t kMostCsvRows = 5000;

struct CsvRow {
  std::string place;  // "row 3", counted as a spreadsheet does: the heads are row 1
  Json cells;  // by column's head; whole numbers as such, other text as text, empty ones left out
};

// Rows below the heads. Nothing, and a problem, where a column of `needed` is missing, a head
// stands twice, a row has more cells than there are heads, or this is no CSV with commas. `unused`
// gets the heads that are in neither list.
std::optional<std::vector<CsvRow>> read_csv(std::string_view text,
                                            const std::vector<std::string>& needed,
                                            const std::vector<std::string>& optional,
                                            std::vector<std::string>& unused, Problems& problems);

}  // namespace trowelbell
