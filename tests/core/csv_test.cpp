// Comma-separated values against the rules of RFC 4180, section 2, by number.
#include "core/csv.h"

#include <doctest/doctest.h>

using namespace trowelbell;

namespace {

using Table = std::vector<std::vector<std::string>>;

Table read(std::string_view text) {
  Problems problems;
  Table table;
  for (CsvRow& row : read_csv(text, problems)) table.push_back(std::move(row.cells));
  CHECK(problems == Problems{});
  return table;
}

// The one problem's path and words.
Problem problem(std::string_view text) {
  Problems problems;
  CHECK(read_csv(text, problems).empty());
  REQUIRE(problems.size() == 1);
  return problems[0];
}

}  // namespace

TEST_CASE("rows and cells are read as RFC 4180 writes them") {
  CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") ==
        Table{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});  // 1
  CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx") ==
        Table{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});                                  // 2
  CHECK(read("a b, c\r\n") == Table{{"a b", " c"}});                                           // 4
  CHECK(read("\"aaa\",\"bbb\"\r\nzzz,yyy") == Table{{"aaa", "bbb"}, {"zzz", "yyy"}});          // 5
  CHECK(read("\"aaa\",\"b\r\nbb\",\"c,c\"\r\nz") == Table{{"aaa", "b\r\nbb", "c,c"}, {"z"}});  // 6
  CHECK(read("\"aaa\",\"b\"\"bb\"") == Table{{"aaa", "b\"bb"}});                               // 7
}

TEST_CASE("what spreadsheets save besides: LF alone, a byte order mark, empty cells and lines") {
  CHECK(read("a,b\nc,d\n") == Table{{"a", "b"}, {"c", "d"}});
  CHECK(read("\xEF\xBB\xBFvisit\r\n") == Table{{"visit"}});
  CHECK(read(",\r\n\"\",x,") == Table{{"", ""}, {"", "x", ""}});
  CHECK(read("a\r\n\r\n\nb\r") == Table{{"a"}, {"b"}});
  CHECK(read("") == Table{});
  CHECK(read("a\rb") == Table{{"a\rb"}});
}

TEST_CASE("a row knows the line it begins on") {
  Problems problems;
  const auto rows = read_csv("a\n\n\"b\nb\"\nc", problems);
  REQUIRE(rows.size() == 3);
  CHECK(rows[0].line == 1);
  CHECK(rows[1].line == 3);
  CHECK(rows[2].line == 5);
}

TEST_CASE("what is no table is refused, and the line is named") {
  CHECK(problem("a\n\"b").path == "line 2");
  CHECK(problem("a\n\"b").what == "begins a quoted cell that never ends");
  CHECK(problem("\"a\"b\n").path == "line 1");
  CHECK(problem("a\n\n5\"\n").path == "line 3");
  CHECK(problem(std::string(kMostCsvCells, ',')).path == "line 1");
  CHECK(read(std::string(kMostCsvCells - 1, ','))[0].size() == kMostCsvCells);
  std::string many;
  for (std::size_t i = 0; i < kMostCsvRows; ++i) many += "x\n";
  CHECK(read(many).size() == kMostCsvRows);
  CHECK(problem(many + "x").path == "line " + std::to_string(kMostCsvRows + 1));
}

TEST_CASE("cells are quoted where they must be, and no text is a formula") {
  CHECK(csv_text("Fern Hollow School") == "Fern Hollow School");
  CHECK(csv_text("") == "");
  CHECK(csv_text("a,b") == "\"a,b\"");
  CHECK(csv_text("say \"hi\"") == "\"say \"\"hi\"\"\"");
  CHECK(csv_text("two\nlines") == "\"two\nlines\"");
  for (const std::string begin : {"=", "+", "-", "@", "\t", " =", "  @", "\xEF\xBB\xBF="}) {
    CAPTURE(begin);
    CHECK(csv_text(begin + "1") == "'" + begin + "1");
  }
  CHECK(csv_text("=1,2") == "\"'=1,2\"");
  CHECK(csv_text("a=1") == "a=1");
  CHECK(csv_text("'=1") == "'=1");
  const std::string cells[] = {"a", csv_text("b,c"), "-3"};
  CHECK(csv_row(cells) == "a,\"b,c\",-3\r\n");
}
