// A table as a spreadsheet saved it: what is read can be written and read again, and no cell that
// is written begins a formula.
#include "core/csv.h"

#include "fuzz.h"

using namespace trowelbell;

static void fuzz_one(std::string_view text) {
  Problems problems;
  const auto rows = read_csv(text, problems);
  fuzz::must(problems.size() <= 1 && (problems.empty() || rows.empty()));
  fuzz::must(rows.size() <= kMostCsvRows);
  if (rows.size() == kMostCsvRows) return;  // no room for one more
  std::string printed = "first\r\n";        // so that a byte order mark in a cell is not the file's
  for (const CsvRow& row : rows) {
    fuzz::must(!row.cells.empty() && row.cells.size() <= kMostCsvCells);
    std::vector<std::string> cells;
    for (const std::string& cell : row.cells) cells.push_back(csv_text(cell));
    printed += csv_row(cells);
  }
  Problems none;
  const auto again = read_csv(printed, none);
  fuzz::must(none.empty() && again.size() == rows.size() + 1);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    fuzz::must(again[i + 1].cells.size() == rows[i].cells.size());
    for (std::size_t k = 0; k < rows[i].cells.size(); ++k) {
      const std::string &cell = rows[i].cells[k], &back = again[i + 1].cells[k];
      fuzz::must(back == cell || back == "'" + cell);
      fuzz::must(back.empty() ||
                 std::string_view("=+-@\t").find(back[0]) == std::string_view::npos);
    }
  }
}

TROWELBELL_FUZZ_TARGET(fuzz_one)
