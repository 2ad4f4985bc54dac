#include "cli/csv.h"

#include <csv.h>

#include <algorithm>
#include <charconv>

namespace trowelbell {

namespace {

using Cells = std::vector<std::string>;

struct Table {
  std::vector<Cells> rows{{}};
  bool too_long = false;
  bool after_return = false;  // a line feed that follows ends the same row
};

// The library calls these for each cell and each end of a row.
void add_cell(void* cell, std::size_t bytes, void* table) {
  auto* const all = static_cast<Table*>(table);
  all->after_return = false;
  all->rows.back().emplace_back(static_cast<const char*>(cell), bytes);
}
void end_row(int end, void* table) {
  auto* const all = static_cast<Table*>(table);
  const bool same = end == '\n' && all->after_return;
  all->after_return = end == '\r';
  if (same) return;
  all->too_long = all->too_long || all->rows.size() > kMostCsvRows + 1;
  if (!all->too_long) all->rows.emplace_back();
}

// Empty lines are rows, too, so that rows count as in the spreadsheet.
std::optional<Table> parse(std::string_view text) {
  Table table;
  csv_parser parser;
  csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_REPALL_NL);
  const bool good =
      csv_parse(&parser, text.data(), text.size(), add_cell, end_row, &table) == text.size() &&
      csv_fini(&parser, add_cell, end_row, &table) == 0;
  csv_free(&parser);
  return good ? std::optional(std::move(table)) : std::nullopt;
}

// What stands in a cell: a whole number where all of it is one.
Json value_of(const std::string& cell) {
  std::int64_t number = 0;
  const char* const end = cell.data() + cell.size();
  const auto read = std::from_chars(cell.data(), end, number);
  return read.ec == std::errc() && read.ptr == end ? Json(number) : Json(cell);
}

bool has(const Cells& list, const std::string& text) {
  return std::find(list.begin(), list.end(), text) != list.end();
}

std::string listed(const Cells& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

void check_heads(const Cells& heads, const Cells& needed, Problems& problems) {
  for (const std::string& name : needed) {
    if (!has(heads, name)) {
      add_problems(problems,
                   {{"row 1", "has no column \"" + name + "\"; the columns " + listed(needed) +
                                  " must be there, with commas between"}});
    }
  }
  for (auto head = heads.begin(); head != heads.end(); ++head) {
    if (!head->empty() && std::find(heads.begin(), head, *head) != head) {
      add_problems(problems, {{"row 1", "has the column \"" + *head + "\" twice"}});
    }
  }
}

}  // namespace

std::optional<std::vector<CsvRow>> read_csv(std::string_view text, const Cells& needed,
                                            const Cells& optional, Cells& unused,
                                            Problems& problems) {
  constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
  if (text.substr(0, kByteOrderMark.size()) == kByteOrderMark) {
    text.remove_prefix(kByteOrderMark.size());
  }
  const auto table = parse(text);
  if (!table) {
    add_problems(problems, {{"",
                             "is not CSV: a quote stands in the middle of a cell, or one is "
                             "not closed; save the spreadsheet as CSV again"}});
    return std::nullopt;
  }
  if (table->too_long) {
    add_problems(problems, {{"", "has too many rows; at most " + std::to_string(kMostCsvRows) +
                                     " are read"}});
    return std::nullopt;
  }
  const Cells& heads = table->rows.front();
  check_heads(heads, needed, problems);
  for (const std::string& head : heads) {
    if (!head.empty() && !has(needed, head) && !has(optional, head)) unused.push_back(head);
  }
  std::vector<CsvRow> rows;
  for (std::size_t i = 1; problems.empty() && i < table->rows.size(); ++i) {
    const Cells& cells = table->rows[i];
    CsvRow row{"row " + std::to_string(i + 1), Json::object()};
    for (std::size_t column = 0; column < cells.size(); ++column) {
      if (cells[column].empty()) continue;
      if (column >= heads.size()) {
        add_problems(problems, {{row.place, "has more cells than there are columns"}});
        break;
      }
      row.cells[heads[column]] = value_of(cells[column]);
    }
    if (!row.cells.empty()) rows.push_back(std::move(row));
  }
  return problems.empty() ? std::optional(std::move(rows)) : std::nullopt;
}

}  // namespace trowelbell
