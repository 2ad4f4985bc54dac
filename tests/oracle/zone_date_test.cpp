// Offsets of schools' zones against GNU date (coreutils), which has a reader of its own for the
// system's zone database: every third day of some years, at nine and at three.
#include <doctest/doctest.h>

#include <array>
#include <cstdio>
#include <fstream>
#include <memory>

#include "calendar/zone.h"

using namespace trowelbell;

namespace {

struct Close {
  void operator()(FILE* pipe) const { pclose(pipe); }
};

// "-0730" as minutes.
std::int64_t minutes_of(std::string_view offset) {
  const auto pair = [&](std::size_t at) {
    return (offset[at] - '0') * 10 + (offset[at + 1] - '0');
  };
  return (offset[0] == '-' ? -1 : 1) * (pair(1) * 60 + pair(3));
}

struct Moment {
  Date date;
  std::int64_t minutes;
};

std::vector<std::int64_t> offsets_by_date(const std::string& zone,
                                          const std::vector<Moment>& moments) {
  char name[] = "/tmp/trowelbell-dates-XXXXXX";
  const int file = mkstemp(name);
  REQUIRE(file >= 0);
  std::ofstream list(name);
  for (const Moment& at : moments) {
    list << format_date(at.date) << ' ' << format_clock(at.minutes) << '\n';
  }
  list.close();
  const std::string command = "TZ=" + zone + " date -f " + name + " +%z";
  const std::unique_ptr<FILE, Close> pipe(popen(command.c_str(), "r"));
  REQUIRE(pipe);
  std::vector<std::int64_t> offsets;
  std::array<char, 64> line{};
  while (std::fgets(line.data(), line.size(), pipe.get()) != nullptr) {
    offsets.push_back(minutes_of(line.data()));
  }
  std::remove(name);
  return offsets;
}

}  // namespace

TEST_CASE("offsets in ten zones over sixteen years are those of GNU date") {
  std::vector<Moment> moments;
  for (const int first_year : {2007, 2024, 2036, 2098}) {
    const Date first{std::chrono::year{first_year} / 1 / 1};
    for (std::int64_t day = 0; day < 4 * 365; day += 3) {
      moments.push_back({add_days(first, day), 540});
      moments.push_back({add_days(first, day), 900});
    }
  }
  for (const char* zone :
       {"America/New_York", "America/Denver", "America/Phoenix", "America/Los_Angeles",
        "Pacific/Honolulu", "America/Havana", "America/St_Johns", "Europe/Madrid", "Asia/Kolkata",
        "Australia/Lord_Howe"}) {
    CAPTURE(zone);
    School school;
    school.time_zone = zone;
    REQUIRE(look_up_zone(school, {moments.front().date, moments.back().date}));
    const auto expected = offsets_by_date(zone, moments);
    REQUIRE(expected.size() == moments.size());
    std::size_t wrong = 0;
    for (std::size_t i = 0; i < moments.size(); ++i) {
      wrong += utc_offset_at(school, moments[i].date, moments[i].minutes) == expected[i] ? 0 : 1;
    }
    CHECK(wrong == 0);
  }
}
