// The same question gives the same digits everywhere: the counts in rehearsal_counts.json, which
// the page's own test reads too. They guard against drift; that they are right is for
// tests/oracle/rehearsal_exact_test.cpp.
#include <doctest/doctest.h>

#include <fstream>
#include <iterator>

#include "core/staffing.h"

using namespace trowelbell;

namespace {

Json document(const std::string& path) {
  std::ifstream file(path);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  Problems problems;
  const auto parsed = parse_json(text, JsonLimits{}, problems);
  REQUIRE(parsed);
  return *parsed;
}

Json content(const std::string& folder, const std::string& id) {
  return document(std::string(TROWELBELL_CONTENT_DIR) + "/" + folder + "/" + id + ".json");
}

}  // namespace

TEST_CASE("the demo's first visit ends by the bell as often as written down") {
  const Json written = document(std::string(TROWELBELL_TEST_DIR) + "/core/rehearsal_counts.json");
  Problems problems;
  const Lesson lesson = read_lesson(content("lessons", written["lesson"]), problems);
  const Story story = read_story(content("stories", lesson.story), problems);
  REQUIRE(problems.empty());

  StaffingQuestion question;
  question.children = written["children"];
  question.seconds = written["minutes"].get<std::int64_t>() * 60;
  question.minutes_late = written["minutes_late"].get<std::vector<std::int64_t>>();
  question.seed = written["seed"];
  question.visits = written["visits"];
  const std::string language = written["language"];
  const auto rows = staffing(lesson, story, language, question);
  REQUIRE(rows.size() == 8);
  REQUIRE(written["by_bell"].size() == rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    CAPTURE(rows[i].adults);
    for (std::size_t late = 0; late < question.minutes_late.size(); ++late) {
      CAPTURE(question.minutes_late[late]);
      CHECK(rows[i].late[late].by_bell == written["by_bell"][i][late]);
    }
  }
}
