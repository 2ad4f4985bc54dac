#include "core/staffing.h"

#include <doctest/doctest.h>

using namespace trowelbell;

namespace {

// Ten minutes together and a minute a round of children; filler of five minutes.
Lesson lesson() {
  Lesson lesson;
  lesson.least_adults = 2;
  lesson.steps.resize(2);
  lesson.steps[0].seconds = {400, 600, 900};
  lesson.steps[0].per_child = {40, 60, 90};
  lesson.steps[1].seconds = {200, 300, 400};
  lesson.steps[1].keep = Keep::may;
  lesson.steps[1].worth = 5;
  return lesson;
}

StaffingQuestion question(std::int64_t minutes) {
  StaffingQuestion question;
  question.children = 24;
  question.seconds = minutes * 60;
  return question;
}

}  // namespace

TEST_CASE(
    "the least adults are the fewest with whom nothing is left out, never fewer than the lesson "
    "asks for") {
  // Rounds 24, 12, 8, 6, 5, 4, 4, 3; comfortable is 80 % of 15 minutes and the rounds.
  struct Row {
    std::int64_t minutes;
    std::optional<std::int64_t> adults;
  };
  for (const Row& row : {Row{33, 2},  // one adult would do: 0.8 * 39 = 31.2, and the reserve
                         Row{23, 2},  // 0.8 * 27 = 21.6
                         Row{22, 3},  // 0.8 * 23 = 18.4
                         Row{19, 4},  // 0.8 * 21 = 16.8; three would want 19.4
                         Row{16, 8},  // 0.8 * 18 = 14.4; seven 15.2 and the reserve
                         Row{15, std::nullopt}}) {
    CAPTURE(row.minutes);
    StaffingQuestion asked = question(row.minutes);
    asked.visits = 0;
    const auto rows = staffing(lesson(), {}, "en", asked);
    REQUIRE(rows.size() == 8);
    CHECK(least_adults(lesson(), rows) == row.adults);
  }
  CHECK(least_adults(lesson(), {}) == std::nullopt);
}

TEST_CASE("each row is the lesson with so many adults, each answer with the team so late") {
  StaffingQuestion asked = question(26);
  asked.minutes_late = {0, 2, 10};
  const auto rows = staffing(lesson(), {}, "en", asked);
  // 25 minutes without the reserve. One adult: 34 planned, at the shortest 22:40, so filler goes;
  // two: 27.
  CHECK(rows[0].pace.items[0].ms == 25 * 60'000);
  CHECK(rows[0].pace.items[1].why == PaceWhy::left_out_time);
  CHECK_FALSE(rows[0].fits());
  CHECK(rows[1].pace.items[0].ms == 1'222'222);  // 25 minutes * 22 / 27
  CHECK(rows[1].pace.items[1].ms == 277'778);
  CHECK(rows[1].fits());
  CHECK(rows[2].pace.slack == 2 * 60);
  for (const StaffingRow& row : rows) {
    REQUIRE(row.late.size() == 3);
    CHECK(row.late[0].visits == 2000);
    CHECK(row.late[0].by_bell >= row.late[1].by_bell);
    CHECK(row.late[1].by_bell >= row.late[2].by_bell);
  }
  for (std::size_t i = 1; i < rows.size(); ++i) {
    CHECK(rows[i].adults == rows[i - 1].adults + 1);
    // Not strictly: another adult may bring filler back, and with it a little risk.
    for (std::size_t late = 0; late < 3; ++late) {
      CHECK(rows[i].late[late].chance() >= rows[i - 1].late[late].chance() - 0.01);
    }
  }
  // One adult and ten minutes late: even the shortest, 22:40, is more than 16 minutes.
  CHECK(rows[0].late[2].by_bell == 0);
  // Eight adults on time: the longest, 3 * 90 + 900 + 400 = 26:10, hardly ever comes.
  CHECK(rows[7].late[0].chance() > 0.99);
}

TEST_CASE("a lesson of musts does not fit where it is short, though none is left out") {
  Lesson musts = lesson();
  musts.steps[1].keep = Keep::must;
  StaffingQuestion asked = question(15);  // 14 minutes; at the shortest 600 s and 40 s a round
  asked.visits = 0;
  const auto rows = staffing(musts, {}, "en", asked);
  CHECK(rows[4].pace.short_by == 0);  // 5 rounds: 800 s
  CHECK(rows[4].fits());
  CHECK(rows[2].pace.short_by == 80);  // 8 rounds: 920 s
  CHECK_FALSE(rows[2].fits());
  CHECK(least_adults(musts, rows) == 4);  // 6 rounds: 840 s
}
