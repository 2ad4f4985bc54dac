#include "core/csv.h"

#include <doctest/doctest.h>

using namespace trowelbell;

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
