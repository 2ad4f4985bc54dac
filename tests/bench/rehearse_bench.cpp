// 10,000 rehearsed visits of the shipped lesson (budget: 50 ms native), beside the same visits with
// every step paced anew instead of remembered, in one run: processor time, the best of five. Then
// the whole table a coordinator sees. Ends with status 1 where the two differ or the budget is
// missed.
#include <cstdio>
#include <ctime>
#include <fstream>
#include <sstream>

#include "rehearsals.h"

using namespace trowelbell;

namespace {

constexpr double kBudgetMs = 50;

double now_ms() {
  timespec time{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
  return static_cast<double>(time.tv_sec) * 1e3 + static_cast<double>(time.tv_nsec) * 1e-6;
}

Json read(const std::string& path) {
  std::ifstream file(std::string(TROWELBELL_CONTENT_DIR) + path);
  std::stringstream text;
  text << file.rdbuf();
  Problems problems;
  return parse_json(text.str(), {}, problems).value_or(Json::object());
}

// Ended by the bell, of all.
std::int64_t paced_anew(const Lesson& lesson, const std::vector<StepSeconds>& times) {
  std::vector<PaceItem> items;
  for (std::size_t i = 0; i < times.size(); ++i) {
    items.push_back({times[i], lesson.steps[i].keep, lesson.steps[i].worth});
  }
  std::int64_t by_bell = 0;
  for (std::uint64_t visit = 0; visit < kRehearsedVisits; ++visit) {
    std::int64_t left = kRehearsedSeconds * 1000;
    for (std::size_t step = 0; step < items.size(); ++step) {
      const auto ahead = std::span(items).subspan(step);
      const Pace pace =
          pace_to_bell(ahead, left / 1000 - lesson.reserve_seconds, lesson.comfort_percent);
      std::size_t taken = 0;
      while (taken < ahead.size() && !pace.items[taken].kept) ++taken;
      step += taken;
      if (step == items.size()) break;
      left -= step_by_luck(times[step], pace.items[taken].ms, kRehearsedSeed,
                           visit * kMostPaceItems + step);
    }
    by_bell += left >= 0;
  }
  return by_bell;
}

}  // namespace

int main() {
  Problems problems;
  const Lesson lesson = read_lesson(read("/lessons/window-garden.json"), problems);
  const Story story = read_story(read("/stories/" + lesson.story + ".json"), problems);
  if (!problems.empty()) {
    std::printf("%s: %s\n", problems[0].path.c_str(), problems[0].what.c_str());
    return 1;
  }
  const auto times = step_times(lesson, story, "en", 24, 4);
  const RehearsalFigures remembered = time_rehearsals(lesson, story, now_ms);
  double anew_ms = 1e9;
  std::int64_t anew = 0;
  for (int pass = 0; pass < 5; ++pass) {
    const double begun = now_ms();
    anew = paced_anew(lesson, times);
    anew_ms = std::min(anew_ms, now_ms() - begun);
  }
  std::printf(
      "%lld visits of %zu steps: %.1f ms; paced anew at each step: %.1f ms (ratio %.0f); by the "
      "bell %lld and %lld\n",
      static_cast<long long>(kRehearsedVisits), times.size(), remembered.ms, anew_ms,
      anew_ms / remembered.ms, static_cast<long long>(remembered.by_bell),
      static_cast<long long>(anew));

  StaffingQuestion question;
  question.children = 24;
  question.seconds = kRehearsedSeconds;
  const double begun = now_ms();
  const auto rows = staffing(lesson, story, "en", question);
  const double took = now_ms() - begun;
  for (const StaffingRow& row : rows) {
    std::printf("%2lld adults, %s:", static_cast<long long>(row.adults),
                row.fits() ? "fits    " : "does not");
    for (const Rehearsal& late : row.late) {
      std::printf("  %5.1f +- %.1f %% (whole %5.1f)", late.chance() * 100,
                  late.standard_error() * 100,
                  100.0 * static_cast<double>(late.whole) / static_cast<double>(late.visits));
    }
    std::printf("\n");
  }
  std::printf("the table: %.0f ms\n", took);
  std::printf(R"({"rehearsals_ms":%.3f,"anew_ms":%.3f,"by_bell":%lld})"
              "\n",
              remembered.ms, anew_ms, static_cast<long long>(remembered.by_bell));
  return remembered.by_bell == anew && remembered.ms <= kBudgetMs ? 0 : 1;
}
