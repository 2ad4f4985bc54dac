// Tables for spreadsheets: comma-separated values (RFC 4180).
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace trowelbell {

// Text as a cell: quoted where it must be. A spreadsheet would run what begins with = + - @ or a
// tab as a formula, so that gets an apostrophe before it, also where blanks or a byte order mark
// come first.
std::string csv_text(std::string_view text);
// Cells, written already, as a row that ends with CR LF.
std::string csv_row(std::span<const std::string> cells);

}  // namespace trowelbell
