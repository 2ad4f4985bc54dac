#include "csv.h"

#include <algorithm>

namespace trowelbell {
namespace {

// Reads one row after the other; `problem_` is what stopped it.
class CsvReader {
 public:
  explicit CsvReader(std::string_view text) : text_(text) {}

  bool done() const { return at_ == text_.size(); }
  std::size_t line() const { return line_; }
  const std::string& problem() const { return problem_; }

  std::vector<std::string> row() {
    std::vector<std::string> cells;
    do {
      cells.push_back(next('"') ? quoted() : bare());
      if (cells.size() > kMostCsvCells) {
        problem_ = "has more than " + std::to_string(kMostCsvCells) + " cells";
      }
    } while (problem_.empty() && next(','));
    if (problem_.empty() && !done() && !line_end()) {
      problem_ = "has text after a closing quote; a quote inside a cell is written twice";
    }
    return cells;
  }

 private:
  bool next(char c) {
    const bool there = !done() && text_[at_] == c;
    at_ += there;
    return there;
  }

  bool line_end() {
    const std::size_t before = at_;
    next('\r');
    if (next('\n')) {
      ++line_;
      return true;
    }
    at_ = before;
    return false;
  }

  std::string bare() {
    const std::size_t begin = at_;
    at_ = std::min(text_.find_first_of(",\n", at_), text_.size());
    std::size_t end = at_;
    if (end > begin && text_[end - 1] == '\r' && (done() || text_[at_] == '\n')) --end;
    at_ = done() || text_[at_] == ',' ? at_ : end;  // line_end() takes the CR
    const std::string_view cell = text_.substr(begin, end - begin);
    if (cell.find('"') != std::string_view::npos) {
      problem_ = "has a quote in a cell that does not begin with one";
    }
    return std::string(cell);
  }

  std::string quoted() {
    std::string cell;
    while (!done()) {
      const char c = text_[at_++];
      if (c == '"' && !next('"')) return cell;
      line_ += c == '\n';
      cell += c;
    }
    problem_ = "begins a quoted cell that never ends";
    return cell;
  }

  std::string_view text_;
  std::size_t at_ = 0, line_ = 1;
  std::string problem_;
};

}  // namespace

std::vector<CsvRow> read_csv(std::string_view text, Problems& problems) {
  if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
  std::vector<CsvRow> rows;
  CsvReader reader(text);
  while (!reader.done()) {
    CsvRow row{reader.line(), {}};
    row.cells = reader.row();
    std::string problem = reader.problem();
    if (rows.size() == kMostCsvRows) {
      problem = "is beyond the " + std::to_string(kMostCsvRows) + " rows that are read";
    }
    if (!problem.empty()) {
      add_problems(problems, {{"line " + std::to_string(row.line), problem}});
      return {};
    }
    if (row.cells.size() > 1 || !row.cells[0].empty()) rows.push_back(std::move(row));
  }
  return rows;
}

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
