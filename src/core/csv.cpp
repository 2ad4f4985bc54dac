#include "csv.h"

namespace trowelbell {

std::string csv_text(std::string_view text) {
  // Blanks and byte order marks hide a formula from us, not from a spreadsheet.
  const std::size_t first = text.find_first_not_of(" \xEF\xBB\xBF");
  const bool formula = first != std::string_view::npos &&
                       std::string_view("=+-@\t\r").find(text[first]) != std::string_view::npos;
  std::string cell = formula ? "'" : "";
  cell += text;
  if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char c : cell) {
    quoted += c;
    if (c == '"') quoted += c;
  }
  return quoted + '"';
}

std::string csv_row(std::span<const std::string> cells) {
  std::string row;
  for (std::size_t i = 0; i < cells.size(); ++i) row += (i == 0 ? "" : ",") + cells[i];
  return row + "\r\n";
}

}  // namespace trowelbell
