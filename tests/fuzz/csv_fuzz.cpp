// A spreadsheet: whatever the bytes, its rows are few enough and have only the columns asked for.
#include "cli/csv.h"

#include "fuzz.h"

using namespace trowelbell;

static void fuzz_one(std::string_view text) {
  std::vector<std::string> unused;
  Problems problems;
  const auto rows = read_csv(text, {"visit", "date"}, {"children", "start"}, unused, problems);
  fuzz::must(rows.has_value() == problems.empty() && problems.size() <= kMostProblems);
  if (!rows) return;
  fuzz::must(rows->size() <= kMostCsvRows && text.size() <= kCsvBytes);
  for (const CsvRow& row : *rows) {
    fuzz::must(row.place.starts_with("row ") && row.cells.is_object());
    for (const auto& [head, cell] : row.cells.items()) {
      fuzz::must(head == "visit" || head == "date" || head == "children" || head == "start");
      fuzz::must(cell.is_number_integer() ||
                 (cell.is_string() && !cell.get<std::string>().empty()));
    }
  }
}

TROWELBELL_FUZZ_TARGET(fuzz_one)
