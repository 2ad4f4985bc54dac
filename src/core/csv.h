// Tables as spreadsheets save and open them: comma-separated values (RFC 4180).
#pragma once

#include <span>

#include "json.h"

namespace trowelbell {

inline constexpr std::size_t kMostCsvBytes = 1024 * 1024;
inline constexpr std::size_t kMostCsvRows = 10'000;
inline constexpr std::size_t kMostCsvCells = 100;  // in a row

struct CsvRow {
  std::size_t line = 0;  // where it begins, from 1
  std::vector<std::string> cells;
};

// The rows, empty lines left out; line ends may be CR LF or LF, a byte order mark is skipped. A
// problem's path is its line, "line 3"; nothing is read after one.
std::vector<CsvRow> read_csv(std::string_view text, Problems& problems);

// Text as a cell: quoted where it must be. A spreadsheet would run what begins with = + - @ or a
// tab as a formula, so that gets an apostrophe before it, also where blanks or a byte order mark
// come first.
std::string csv_text(std::string_view text);
// Cells, written already, as a row that ends with CR LF.
std::string csv_row(std::span<const std::string> cells);

}  // namespace trowelbell
