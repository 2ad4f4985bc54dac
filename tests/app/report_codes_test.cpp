// The report leaves a phone that never finds a network: as QR codes, on paper, as a file. The codes
// are read by ZBar, which shares no code with their maker.
#include <doctest/doctest.h>

#include "app/report_codes.h"
#include "core/report.h"
#include "core/report_digest.h"
#include "core/report_parts.h"
#include "tests/app/code_reader.h"
#include "tests/app/demo_visit.h"

namespace trowelbell {
namespace {

constexpr float kDensity = 2;  // of the headless screen

// A visit as far as a report with some numbers in it, and Report open.
void report_opened(DemoPhone& phone) {
  phone.open();
  REQUIRE(phone.tap("brief.go"));
  REQUIRE(phone.tap("lesson.start"));
  phone.pass(90'000);
  REQUIRE(phone.tap("tab.room"));
  REQUIRE(phone.tap("room.place.3"));
  REQUIRE(phone.tap("tab.report"));
}

std::vector<std::string> codes_on(const DemoPhone& phone) {
  return read_codes(
      drawn_code(phone.screen.viewport.width, phone.screen.viewport.height, kDensity));
}

// Every code of the panel that is open, from the first on.
std::string all_codes(DemoPhone& phone) {
  std::string text;
  const std::string first = phone.name("panel.title");
  for (int i = 0; i < 50; ++i) {
    const auto codes = codes_on(phone);
    CAPTURE(phone.name("panel.title"));
    REQUIRE(codes.size() == 1);
    text += codes[0];
    REQUIRE(phone.tap("codes.next"));
    if (phone.name("panel.title") == first) return text;
  }
  FAIL("the codes have no end");
  return "";
}

TEST_CASE("what ZBar reads in a code is what was put in, for every part of a report") {
  std::string report;
  for (int i = 0; i < 900; ++i) report += std::to_string(i);
  const auto parts = report_parts(report);
  CHECK(parts.size() > 5);
  for (const std::string& part : parts) {
    const QrCode code = make_qr_code(part);
    CHECK(code.size <= 17 + 4 * 16);  // version 16: a module is 3 px on the smallest phone
    const int side = (code.size + 8) * 3;
    GreyPicture picture = grey_picture(side, side, 255);
    for (int y = 0; y < code.size; ++y) {
      for (int x = 0; x < code.size; ++x) {
        const auto at = [](int n) { return static_cast<float>((n + 4) * 3); };
        if (code.at(x, y)) picture.fill(at(x), at(y), at(x + 1), at(y + 1), 0);
      }
    }
    CHECK(read_codes(picture) == std::vector<std::string>{part});
  }
}

TEST_CASE("the codes on the screen are whole and readable at every size, light and dark") {
  struct Size {
    float width, height;
  };
  for (const Size size :
       {Size{320, 568}, Size{568, 320}, Size{390, 844}, Size{844, 390}, Size{1024, 1366}}) {
    for (const bool dark : {false, true}) {
      for (const int text : {0, 3}) {
        CAPTURE(size.width);
        CAPTURE(dark);
        CAPTURE(text);
        MemoryStore store;
        DemoPhone phone(store, size.width, size.height);
        phone.host.dark_preferred = dark;
        phone.open();
        REQUIRE(phone.tap("phone.text." + std::to_string(text)));
        REQUIRE(phone.tap("brief.go"));
        REQUIRE(phone.tap("lesson.start"));
        REQUIRE(phone.tap("tab.report"));
        REQUIRE(phone.tap("report.codes"));
        const auto code = phone.screen.find_id("codes.code");
        REQUIRE(code);
        CHECK(code->y >= code->clip_top - 0.5f);
        CHECK(code->y + code->height <= code->clip_bottom + 0.5f);
        const GatheredParts gathered = gather_parts(all_codes(phone));
        REQUIRE(gathered.sets.size() == 1);
        CHECK(gathered.sets[0].missing.empty());
        CHECK_FALSE(gathered.sets[0].report.empty());
      }
    }
  }
}

TEST_CASE(
    "codes, file and paper carry one and the same report, with the note that was just typed") {
  MemoryStore store;
  DemoPhone phone(store);
  report_opened(phone);
  REQUIRE(phone.screen.type(phone.app, phone.screen.find_id("report.note"), "A warm sill."));
  REQUIRE(phone.tap("report.codes"));
  CHECK(phone.host.awake);
  const GatheredParts gathered = gather_parts(all_codes(phone));
  REQUIRE(gathered.sets.size() == 1);
  const std::string report = gathered.sets[0].report;
  REQUIRE(phone.tap("panel.back"));
  REQUIRE(phone.tap("report.save"));
  REQUIRE(phone.tap("report.print"));
  CHECK(phone.host.saved.back().text == report);
  REQUIRE(phone.host.printed.size() == 1);
  std::string paper = phone.host.printed[0].text;
  CHECK(paper.find("A warm sill.") != std::string::npos);
  std::erase(paper, ' ');
  CHECK(paper.find(report_digest(report)) != std::string::npos);
  Problems problems;
  const auto document = parse_json(report, kReportLimits, problems);
  REQUIRE(document);
  CHECK(read_report(*document, problems).note == "A warm sill.");
  CHECK(problems.empty());

  // What is tapped afterwards is a new revision.
  REQUIRE(phone.tap("tab.room"));
  REQUIRE(phone.tap("room.place.4"));
  REQUIRE(phone.tap("tab.report"));
  REQUIRE(phone.tap("report.save"));
  CHECK(phone.host.saved.back().text != report);
}

TEST_CASE("there is nothing to hand out before the lesson began") {
  MemoryStore store;
  DemoPhone phone(store);
  phone.open();
  REQUIRE(phone.tap("brief.go"));
  REQUIRE(phone.tap("tab.report"));
  CHECK(phone.screen.find_id("report.codes")->disabled);
  CHECK(phone.screen.find_id("report.print")->disabled);
}

TEST_CASE(
    "the codes turn by themselves when asked, round and round, and never for who wants it still") {
  MemoryStore store;
  DemoPhone phone(store);
  report_opened(phone);
  REQUIRE(phone.tap("report.codes"));
  const std::string first = phone.name("panel.title");
  phone.pass(kTurnMs);
  CHECK(phone.name("panel.title") == first);
  REQUIRE(phone.tap("codes.turn"));
  CHECK(phone.screen.pump(phone.app) <= kTurnMs);  // and asks to be drawn in time
  phone.pass(kTurnMs - 1);
  CHECK(phone.name("panel.title") == first);
  phone.pass(1);
  CHECK(phone.name("panel.title") != first);
  REQUIRE(phone.tap("codes.before"));
  CHECK(phone.name("panel.title") == first);
  CHECK(phone.host.announcements.back().text == first);
  REQUIRE(phone.tap("codes.turn"));
  phone.pass(10 * kTurnMs);
  CHECK(phone.name("panel.title") == first);

  REQUIRE(phone.tap("codes.turn"));
  phone.host.still_preferred = true;
  phone.app.phone_changed();
  phone.pass(3 * kTurnMs);
  CHECK(phone.name("panel.title") == first);
  CHECK_FALSE(phone.screen.find_id("codes.turn"));
}

TEST_CASE("before the first part comes the last") {
  std::string report;
  for (int i = 0; i < 300; ++i) report += std::to_string(i);
  ReportCodes codes(report);
  codes.turn(-1, 0);
  CHECK(codes.shown() == codes.parts() - 1);
  codes.turn(1, 0);
  CHECK(codes.shown() == 0);
  ReportCodes one("{}");
  one.turn(1, 0);
  CHECK(one.parts() == 1);
  CHECK(one.shown() == 0);
}

}  // namespace
}  // namespace trowelbell
