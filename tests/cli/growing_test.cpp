// sprouts and sheet, on the demo county's visit with a room of 20 C: the dates are those of
// Harrington's table (tests/core/harrington.h), the chances those of 7 CFR 201.31's rates.
#include "command.h"

using namespace trowelbell::cli_test;
using trowelbell::Json;

namespace {

struct Visit {
  Folder folder;
  std::string brief;

  Visit() {
    Json document = demo_brief();
    document["warmth"] = {{"day", 20}, {"night", 20}, {"closed", 20}};
    document["children"] = 24;
    document["kits"] = 27;
    document["tables"] = 4;
    brief = folder.write("brief.json", document);
  }

  Result call(std::string command, std::vector<std::string> more = {}) const {
    std::vector<std::string> words = {std::move(command), "--brief", brief, "--content", kContent};
    words.insert(words.end(), more.begin(), more.end());
    return run(words);
  }
  Json answer(std::string command, std::vector<std::string> more = {}) const {
    more.emplace_back("--json");
    const Result result = call(std::move(command), more);
    REQUIRE_MESSAGE(result.status == 0, result.err);
    CHECK(result.err.empty());
    return json_of(result.out);
  }
};

Json range(const char* earliest, const char* middle, const char* latest) {
  return {{"earliest", earliest}, {"middle", middle}, {"latest", latest}};
}

const Json& by_id(const Json& list, const std::string& id) {
  for (const Json& entry : list) {
    if (entry["id"] == id) return entry;
  }
  FAIL("no entry \"" << id << "\"");
  return list;
}

bool near(const Json& number, double expected) {
  return std::abs(number.get<double>() - expected) < 0.0005;
}

}  // namespace

TEST_CASE("sprouts gives ranges for root and leaves, and the seeds it takes") {
  const Visit visit;
  const Json answer = visit.answer("sprouts");
  CHECK(answer["sown"] == "2027-03-09");
  const Json& bean = by_id(answer["species"], "garden-bean");
  CHECK(bean["leaves"] == range("2027-03-18", "2027-03-20", "2027-03-22"));
  CHECK(bean["root"] == range("2027-03-12", "2027-03-13", "2027-03-14"));
  CHECK(bean["percent"] == 70);
  CHECK(bean["least_seeds"] == 6);
  const Json& pea = by_id(answer["species"], "garden-pea");
  CHECK(pea["leaves"] == range("2027-03-16", "2027-03-17", "2027-03-18"));
  CHECK(pea["root"] == range("2027-03-11", "2027-03-12", "2027-03-12"));
  CHECK(pea["percent"] == 80);
  CHECK(pea["least_seeds"] == 4);
  CHECK(near(answer["bag"]["sprout"], 0.9964));
  CHECK(near(answer["bag"]["every_kind"], 0.8736));
  CHECK(near(answer["bag"]["every_bag"], 0.917));
  CHECK(answer["bag"]["spare_bags"] == 1);
  // Bags without a sprout are binomial, 24 of them at 0.0036 each.
  const double none = std::pow(0.9964, 24), one = 24 * 0.0036 * std::pow(0.9964, 23);
  CHECK(near(answer["bag"]["expected_without"], 0.0864));
  CHECK(near(answer["bag"]["more_without_than"][0], 1 - none));
  CHECK(near(answer["bag"]["more_without_than"][1], 1 - none - one));
}

TEST_CASE("sprouts takes another day, another room and a packet's percentage") {
  const Visit visit;
  const Json moved = visit.answer("sprouts", {"--sown", "2027-03-05", "--closed", "15"});
  // A Friday at 68 F with weekends at 59 F: 12.25 days.
  CHECK(by_id(moved["species"], "garden-bean")["leaves"]["middle"] == "2027-03-17");
  const Json packet = visit.answer("sprouts", {"--packet", "garden-bean=85", "--seeds", "1"});
  CHECK(by_id(packet["species"], "garden-bean")["percent"] == 85);
  CHECK(near(packet["bag"]["sprout"], 1 - 0.15 * 0.20));
  const Json cold = visit.answer("sprouts", {"--day", "12", "--night", "12", "--closed", "12"});
  CHECK(by_id(cold["species"], "garden-bean")["warmth"] == "too_cold");
  CHECK_FALSE(by_id(cold["species"], "garden-bean").contains("leaves"));
  CHECK(by_id(cold["species"], "garden-pea")["warmth"] == "known");
  CHECK(near(cold["bag"]["sprout"], 0.96));  // two peas
  CHECK(has(visit.call("sprouts", {"--day", "12", "--night", "12", "--closed", "12"}).out,
            "beans: this room is too cold"));
}

TEST_CASE("sprouts takes and shows both scales, and keeps 70 F apart from 21 C") {
  const Visit visit;
  const auto shown = [&](const char* warmth) {
    return visit.answer("sprouts", {"--day", warmth})["room"]["day"];
  };
  CHECK(shown("70F") == Json{{"celsius", 21.1}, {"fahrenheit", 70.0}});
  CHECK(shown("70 f") == shown("70F"));
  CHECK(shown("21C") == Json{{"celsius", 21.0}, {"fahrenheit", 69.8}});
  CHECK(shown("21") == shown("21C"));
  CHECK(shown("20.5") == Json{{"celsius", 20.5}, {"fahrenheit", 68.9}});
  // Snap bean, sown on a Monday, weekdays at 70 F, weekends at 60 F: 10.821 days.
  const Json week = visit.answer(
      "sprouts", {"--sown", "2027-03-08", "--day", "70F", "--night", "70F", "--closed", "60F"});
  CHECK(by_id(week["species"], "garden-bean")["leaves"]["middle"] == "2027-03-19");
  CHECK(has(visit.call("sprouts", {"--day", "70F", "--closed", "59F"}).out,
            "room 21.1 C (70 F) by day, 20 C (68 F) by night, 15 C (59 F) without school\n"));
}

TEST_CASE("sprouts in words") {
  const Result result = Visit().call("sprouts");
  CHECK(result.status == 0);
  CHECK(has(result.out, "leaves out  2027-03-18 to 2027-03-22, about 2027-03-20"));
  CHECK(has(result.out, "a bag shows a sprout: 99.6 %; all 24 bags: 91.7 %"));
  CHECK(has(result.out, "without a sprout: 0.1 of 24 children on average; more than 1 with 0.3 %"));
}

TEST_CASE("a sprouts call at fault is told") {
  const Visit visit;
  for (const std::vector<std::string>& more :
       std::vector<std::vector<std::string>>{{"--sown", "2027-02-29"},
                                             {"--day", "41"},
                                             {"--day", "105F"},
                                             {"--day", "-1"},
                                             {"--day", "70K"},
                                             {"--day", "70FF"},
                                             {"--day", "F"},
                                             {"--day", "nan"},
                                             {"--night", "1e1"},
                                             {"--packet", "garden-bean"},
                                             {"--packet", "garden-bean=0"},
                                             {"--packet", "garden-bean=8x"},
                                             {"--packet", "radish=75"},
                                             {"--seeds", "0"},
                                             {"--assurance", "100"}}) {
    CAPTURE(more[1]);
    const Result result = visit.call("sprouts", more);
    CHECK(result.status == 2);
    CHECK(result.out.empty());
    CHECK_FALSE(result.err.empty());
  }
}

TEST_CASE("sheet gives school days to the teacher") {
  const Visit visit;
  const Json answer = visit.answer("sheet");
  CHECK(answer["warnings"].empty());
  Json potting;
  for (const Json& line : answer["lines"]) {
    if (line["task"] == "transplant") potting = line;
  }
  // Beans' leaves are due on Saturday 20; peas' first root on Friday 12, and 14 days later is
  // Friday 26.
  CHECK(potting["from"] == "2027-03-22");
  CHECK(potting["to"] == "2027-03-26");
}

TEST_CASE("sheet speaks the brief's language, or the one asked for") {
  const Visit visit;
  CHECK(visit.answer("sheet")["language"] == "en");
  CHECK(has(visit.call("sheet").out, "Plant into the cups\n  Mon 22 – Fri 26 March\n"));
  const Result spanish = visit.call("sheet", {"--language", "es"});
  CHECK(has(spanish.out, "Trasplantar a los vasos\n  lun 22 – vie 26 de marzo\n"));
  CHECK_FALSE(has(spanish.out, "sheet."));  // a key without a text would show itself
  CHECK(visit.call("sheet", {"--language", "fr"}).status == 2);
}

TEST_CASE("after the visit the sheet tells of kits that wait") {
  const Visit visit;
  CHECK_FALSE(has(visit.call("sheet").out, "absent"));
  const std::string journal_file = visit.folder.write(
      "journal.json",
      journal({event(1, moment(9, 5), "start"),
               event(2, moment(9, 48), "kit", {{"pile", "with_teacher"}, {"by", 2}})}));
  const Result result = visit.call("sheet", {"--journal", journal_file});
  CHECK(result.status == 0);
  CHECK(has(result.out, "2 kits wait for absent children"));
}
