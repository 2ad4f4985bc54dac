// The rules of RFC 4180, section 2, by number, and what spreadsheets add (common practice).
#include "cli/csv.h"

#include <doctest/doctest.h>

using namespace trowelbell;

namespace {

struct Read {
  std::optional<std::vector<CsvRow>> rows;
  std::vector<std::string> unused;
  Problems problems;
};

Read read(std::string_view text) {
  Read result;
  result.rows = read_csv(text, {"a", "b"}, {"c"}, result.unused, result.problems);
  CHECK(result.rows.has_value() == result.problems.empty());
  return result;
}

// The rows' cells as one JSON array.
Json cells(std::string_view text) {
  const Read result = read(text);
  REQUIRE_MESSAGE(result.rows.has_value(),
                  (result.problems.empty() ? "" : result.problems[0].what));
  Json list = Json::array();
  for (const CsvRow& row : *result.rows) list.push_back(row.cells);
  return list;
}

std::string refused(std::string_view text) {
  const Read result = read(text);
  REQUIRE_FALSE(result.problems.empty());
  return result.problems[0].path + ": " + result.problems[0].what;
}

const Json kOne = Json::parse(R"([{"a": "x", "b": 2}])");

}  // namespace

TEST_CASE("rows end in CRLF, the last one perhaps not (1, 2); other line ends pass, too") {
  for (const char* text :
       {"a,b\r\nx,2\r\n", "a,b\r\nx,2", "a,b\nx,2\n", "a,b\rx,2\r", "a,b\nx,2"}) {
    CAPTURE(text);
    CHECK(cells(text) == kOne);
  }
  CHECK(cells("a,b\r\n").empty());
}

TEST_CASE("cells may be quoted, and then hold commas, line ends and doubled quotes (5, 6, 7)") {
  CHECK(cells("\"a\",\"b\"\r\n\"x\",\"2\"\r\n") == kOne);
  CHECK(cells("a,b\r\n\"one, two\",\"say \"\"hi\"\"\"\r\n")[0] ==
        Json{{"a", "one, two"}, {"b", "say \"hi\""}});
  CHECK(cells("a,b\r\n\"up\r\ndown\",\"\"\r\n")[0] == Json{{"a", "up\r\ndown"}});
}

TEST_CASE("a mark at the beginning, empty cells, blanks around and empty rows are no matter") {
  CHECK(cells("\xEF\xBB\xBF"
              "a,b\r\nx,2\r\n") == kOne);
  CHECK(cells("a,b,c\r\n x , 2 ,\r\n\r\n,,\r\n") == kOne);
  CHECK(cells("b,c,a\r\n2,,x\r\n") == kOne);
}

TEST_CASE("only whole numbers become numbers") {
  CHECK(cells("a,b\r\n007,-3\r\n2027-03-09,1.5\r\n99999999999999999999,0x1\r\n") ==
        Json::parse(R"([{"a": 7, "b": -3}, {"a": "2027-03-09", "b": "1.5"},
                        {"a": "99999999999999999999", "b": "0x1"}])"));
}

TEST_CASE("rows are counted as a spreadsheet counts them") {
  const Read result = read("a,b\r\n1,2\r\n\r\n3,4\r\n");
  REQUIRE(result.rows->size() == 2);
  CHECK(result.rows->at(0).place == "row 2");
  CHECK(result.rows->at(1).place == "row 4");
}

TEST_CASE("columns are known by their heads") {
  CHECK(read("a,b,of mine\r\n1,2,3\r\n").unused == std::vector<std::string>{"of mine"});
  CHECK(refused("a,c\r\n1,2\r\n").rfind("row 1: has no column \"b\"", 0) == 0);
  CHECK(refused("").rfind("row 1: ", 0) == 0);
  CHECK(refused("a,b,a\r\n1,2,3\r\n") == "row 1: has the column \"a\" twice");
  CHECK(refused("a,b\r\n1,2\r\n1,2,3\r\n").rfind("row 3: has more cells", 0) == 0);
}

TEST_CASE("what is no CSV, or too much of it, is refused") {
  CHECK(refused("a,b\r\nx\"y,2\r\n").rfind(": is not CSV", 0) == 0);
  CHECK(refused("a,b\r\n\"x,2\r\n").rfind(": is not CSV", 0) == 0);
  std::string rows = "a,b\n";
  for (std::size_t i = 0; i < kMostCsvRows; ++i) rows += "1,2\n";
  CHECK(read(rows).rows->size() == kMostCsvRows);
  CHECK(refused(rows + "1,2\n").rfind(": has too many rows", 0) == 0);
}
