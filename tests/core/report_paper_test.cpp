#include "core/report_paper.h"

#include <doctest/doctest.h>

#include <fstream>
#include <iterator>

#include "core/report_digest.h"
#include "tests/core/small_visit.h"

using namespace trowelbell;

namespace {

Language language(const std::string& tag) {
  std::ifstream file(TROWELBELL_CONTENT_DIR "/lang/" + tag + ".json");
  const std::string text((std::istreambuf_iterator<char>(file)), {});
  Problems problems;
  const auto document = parse_json(text, {}, problems);
  REQUIRE(document);
  return read_language(*document, problems);
}

std::string paper(const std::string& tag) {
  small_visit::Phone phone(small_visit::kLead);
  phone.tap(60, "start");
  phone.tap(65, "lacking", {{"item", "tray"}, {"count", 2}});
  phone.tap(70, "place", {{"place", 3}, {"is", "absent"}});
  phone.tap(180, "step", {{"step", "story"}});
  phone.tap(190, "mishap", {{"card", "spill"}});
  phone.tap(191, "mishap", {{"card", "spill"}});
  phone.tap(240, "step", {{"step", "goodbye"}});
  phone.tap(250, "others", {{"is", "present"}});
  phone.tap(260, "kit", {{"pile", "given"}, {"by", 4}});
  phone.tap(270, "tick", {{"list", "handover"}, {"item", "bags"}, {"done", true}});
  phone.tap(280, "taken", {{"by", "aide"}});
  phone.tap(290, "note", {{"text", "Warm sill."}});
  phone.tap(300, "finish");
  Lesson lesson = small_visit::lesson();
  for (Step& step : lesson.steps) step.title = {"The " + step.id, ""};
  lesson.title = {"A garden", "Un huerto"};
  lesson.kit[1].name = {"tray", "bandeja"};
  lesson.handover = {{"watering", {"Watering shown", ""}}, {"bags", {"Bags on the sill", ""}}};
  CareCards care;
  care.cards.push_back({.id = "spill", .mishap = {"Water spilled", "Agua derramada"}});
  const std::vector<StepSeconds> times = {
      {60, 125, 180}, {200, 300, 600}, {240, 420, 600}, {60, 120, 180}, {30, 60, 90}};
  const Json report = make_report(small_visit::brief(), lesson, times, phone.journal.events(),
                                  small_visit::kLead, 13);
  return report_paper(report, report_digest(dump_json(report)), small_visit::brief(), lesson, care,
                      language(tag));
}

}  // namespace

TEST_CASE("the paper says every number of the report, worked out by hand") {
  const std::string text = paper("en");
  for (const char* line :
       {"Room 4, Fern Lane School, Mon 8 March 2027\n", "A garden\n",
        "Visit fern-lane-0308, report 13 of phone aaaaaaaaaaaaaaaa\n",
        "Began and ended: 09:01 – 09:05\n", "Bell: 09:45\n",
        "Places 5: present 4, late 0, left early 0, absent 1, not counted 0\n",
        "3 in the team, 12 adult minutes\n",
        "Brought 8: given 4, spoiled 0, left for absent children 0, spare 0",
        ", spare 0, not accounted for 4\n", "Short at the packing table: 2 × tray\n",
        "- Water spilled: 2\n", "[  ] Watering shown\n", "[x] Bags on the sill\n",
        "Taken by: an aide\n", "The team's note: Warm sill.\n",
        "- The hello: took 2:00, planned 2:05\n", "- The plant: left out, planned 7:00\n"}) {
    CAPTURE(text);
    CAPTURE(line);
    CHECK(text.find(line) != std::string::npos);
  }
}

TEST_CASE("the paper carries the digest, in eights") {
  const std::string text = paper("en");
  std::string last = text.substr(0, text.size() - 1);
  last = last.substr(last.rfind('\n') + 1);
  CHECK(last.size() == 64 + 7);
  std::erase(last, ' ');
  CHECK(last.find_first_not_of("0123456789abcdef") == std::string::npos);
}

TEST_CASE("the paper is in the lead's language") {
  const std::string text = paper("es");
  CHECK(text.find("Un huerto\n") != std::string::npos);
  CHECK(text.find("- Agua derramada: 2\n") != std::string::npos);
  CHECK(text.find('{') == std::string::npos);
}

TEST_CASE("what is no report has no paper") {
  CHECK(report_paper(Json::object(), "", small_visit::brief(), small_visit::lesson(), {},
                     language("en")) == "");
}
