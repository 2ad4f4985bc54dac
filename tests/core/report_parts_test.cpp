#include "core/report_parts.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>

#include "core/report.h"
#include "core/report_digest.h"
#include "tests/core/small_visit.h"

using namespace trowelbell;

namespace {

// As long as a real one: the demo lesson has about twenty steps.
std::string long_report(std::int64_t revision = 12) {
  small_visit::Phone phone(small_visit::kLead);
  phone.tap(0, "start");
  phone.tap(5, "note", {{"text", "Löwenzahn auf dem Sims – \"hübsch\"\nZeile zwei 🌱"}});
  Lesson lesson = small_visit::lesson();
  for (int i = 0; i < 20; ++i)
    lesson.steps.push_back(small_visit::step("more-" + std::to_string(i), Keep::may, {}));
  return dump_json(make_report(small_visit::brief(), lesson, {}, phone.journal.events(),
                               small_visit::kLead, revision));
}

std::string joined(const std::vector<std::string>& parts, std::string_view between = "\n") {
  std::string text;
  for (const std::string& part : parts) text.append(part).append(between);
  return text;
}

const PartSet& only(const GatheredParts& gathered) {
  REQUIRE(gathered.sets.size() == 1);
  return gathered.sets[0];
}

void replace(std::string& text, std::string_view from, std::string_view to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("a report comes out of its parts byte for byte, in any order, with repeats") {
  const std::string report = long_report();
  auto parts = report_parts(report);
  CHECK(parts.size() >= 2);
  std::mt19937 random(5);
  for (int i = 0; i < 20; ++i) {
    auto some = parts;
    some.push_back(parts[random() % parts.size()]);
    std::shuffle(some.begin(), some.end(), random);
    const GatheredParts gathered = gather_parts(joined(some));
    CHECK(only(gathered).report == report);
    CHECK(only(gathered).missing.empty());
    CHECK_FALSE(only(gathered).damaged);
    CHECK(gathered.unread == 0);
  }
}

TEST_CASE("a part is written as the header says") {
  // Worked out by hand: '{' is no fixed text by itself, so "{}" is 7B 7D, in Base32 PN6Q
  // (01111 01101 11110 1[0000]); the digest is SHA-256's of "{}" (sha256sum).
  CHECK(report_parts("{}") ==
        std::vector<std::string>{"TROWELBELL-REPORT-1-1-1-44136FA355B3678A-PN6Q."});
  // The first of the fixed words is byte 1: 00000 001[00] and so AE.
  CHECK(report_parts(R"({"adult_minutes":)")[0].ends_with("-AE."));
}

TEST_CASE("a part has only what a QR code holds tightly") {
  // ISO/IEC 18004, table 5: the alphanumeric mode.
  for (const std::string& part : report_parts(long_report()))
    CHECK(part.find_first_not_of("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:") ==
          std::string::npos);
}

TEST_CASE("the fixed words make a report less than half as long") {
  const std::string report = long_report();
  std::size_t length = 0;
  for (const std::string& part : report_parts(report)) length += part.size();
  CHECK(length < report.size());  // Base32 alone would make it 1.6 times as long
  CHECK(report_parts(report).size() <= (report.size() * 45 / 100) / kPartBytes + 1);
}

TEST_CASE("what is missing is told") {
  const auto parts = report_parts(long_report());
  REQUIRE(parts.size() >= 2);
  const GatheredParts none = gather_parts("");
  CHECK(none.sets.empty());
  const GatheredParts gathered = gather_parts(parts[1]);
  CHECK(only(gathered).of == parts.size());
  CHECK(only(gathered).missing.front() == 1);
  CHECK(only(gathered).missing.size() == parts.size() - 1);
  CHECK(only(gathered).report.empty());
}

TEST_CASE("parts of several reports are told apart") {
  const auto one = report_parts(long_report(12)), other = report_parts(long_report(13));
  auto both = one;
  both.insert(both.begin() + 1, other.begin(), other.end());
  both.pop_back();
  const GatheredParts gathered = gather_parts(joined(both));
  REQUIRE(gathered.sets.size() == 2);
  CHECK(gathered.sets[0].missing == std::vector<std::size_t>{one.size()});
  CHECK(gathered.sets[1].report == long_report(13));
}

TEST_CASE("other words, broken lines and carriage returns around parts do no harm") {
  const std::string report = long_report();
  std::string text = "Hello! Part 1:\r\n";
  for (const std::string& part : report_parts(report)) {
    for (std::size_t at = 0; at < part.size(); at += 60) text += part.substr(at, 60) + "\r\n";
    text += "\tRegards, A. \n";
  }
  CHECK(only(gather_parts(text)).report == report);
}

TEST_CASE("a part that is cut off or mistyped is counted and never believed") {
  const std::string part = report_parts("{}")[0];
  const auto unread = [&](std::string_view from, std::string_view to) {
    std::string text = part;
    replace(text, from, to);
    CAPTURE(text);
    const GatheredParts gathered = gather_parts(text);
    CHECK(gathered.unread == 1);
    CHECK(gathered.sets.empty());
  };
  unread("PN6Q.", "PN6Q");         // cut off
  unread("PN6Q.", "PN6R.");        // left-over bits
  unread("PN6Q.", "PN-Q.");        // no letter of Base32
  unread("PN6Q.", ".");            // empty
  unread("-1-1-1-", "-1-0-1-");    // no part 0
  unread("-1-1-1-", "-1-2-1-");    // beyond the last
  unread("-1-1-1-", "-1-01-1-");   // another way to write a number
  unread("-1-1-1-", "-1-1-251-");  // more than kMostParts
  unread("-1-1-1-", "-1-1--");     // no number
  unread("-1-1-1-", "-0-1-1-");    // no version
  unread("44136FA3", "44136fa3");  // small letters
  unread("44136FA3", "44136FA");   // short
}

TEST_CASE("a report that its parts do not make is damaged") {
  std::string part = report_parts("{}")[0];
  replace(part, "PN6Q", "PN6A");  // another second byte
  CHECK(only(gather_parts(part)).damaged);
  CHECK(only(gather_parts(part)).report.empty());
  // Not JSON, but its digest is right: what is in it is for read_report to say.
  std::string longer = report_parts(std::string(kReportLimits.bytes, 'a'))[0];
  CHECK(only(gather_parts(longer)).report.empty());
}

TEST_CASE("a share that unfolds to more than a report may be is damaged") {
  // 2000 times the longest of the fixed words, in one part of 1 and again in many.
  std::string fixed;
  for (int i = 0; i < 300; ++i) fixed += R"(","outcome":"left_out","planned_seconds":)";
  const auto parts = report_parts(fixed);
  REQUIRE(parts.size() == 1);  // one byte each
  std::string text;
  const std::string share = parts[0].substr(parts[0].rfind('-') + 1);
  for (int n = 1; n <= 100; ++n)
    text += "TROWELBELL-REPORT-1-" + std::to_string(n) + "-100-0123456789ABCDEF-" + share;
  CHECK(only(gather_parts(text)).damaged);
}

TEST_CASE("the first of two that claim one place counts") {
  const std::string part = report_parts("{}")[0];
  std::string other = part;
  replace(other, "PN6Q", "PN6A");
  CHECK(only(gather_parts(part + other)).report == "{}");
  CHECK(only(gather_parts(other + part)).damaged);
}

TEST_CASE("a newer version is told as that") {
  std::string part = report_parts("{}")[0];
  replace(part, "REPORT-1-", "REPORT-2-");
  const GatheredParts gathered = gather_parts(part);
  CHECK(gathered.newer);
  CHECK(gathered.sets.empty());
  CHECK(gathered.unread == 0);
}

TEST_CASE("what is no report makes no parts") {
  CHECK(report_parts("").empty());
  CHECK(report_parts(std::string(kReportLimits.bytes + 1, 'a')).empty());
  CHECK(report_parts("a\nb").empty());
  CHECK(report_parts("\x01").empty());
  CHECK(report_parts("\xF5").empty());
  CHECK(report_parts("\xC3").empty());
}

TEST_CASE("the longest report has its parts, and too many reports are left out") {
  const std::string longest(kReportLimits.bytes, 'a');
  const auto parts = report_parts(longest);
  CHECK(parts.size() <= kMostParts);
  CHECK(only(gather_parts(joined(parts))).report == longest);
  std::string text;
  for (std::size_t i = 0; i < kMostPartSets + 3; ++i) text += report_parts(std::to_string(i))[0];
  const GatheredParts gathered = gather_parts(text);
  CHECK(gathered.sets.size() == kMostPartSets);
  CHECK(gathered.unread == 3);
  CHECK(gather_parts(std::string(kMostPartsText + 1, 'x')).unread == 1);
}
