#include "rollup.h"

namespace trowelbell {
namespace {

constexpr std::int64_t kMostCents = 999'999;

void add(HeadCount& to, const HeadCount& more) {
  to.places += more.places;
  to.present += more.present;
  to.late += more.late;
  to.absent += more.absent;
  to.left_early += more.left_early;
  to.unknown += more.unknown;
}

void add(KitPiles& to, const KitPiles& more) {
  to.brought += more.brought;
  to.given += more.given;
  to.spoiled += more.spoiled;
  to.with_teacher += more.with_teacher;
  to.spare += more.spare;
}

template <class Counts>
void add_counts(Counts& to, const Counts& more) {
  for (const auto& [name, count] : more) to[name] += count;
}

}  // namespace

Totals& Totals::operator+=(const Totals& more) {
  visits += more.visits;
  ended += more.ended;
  by_bell += more.by_bell;
  add(children, more.children);
  add(kits, more.kits);
  adult_minutes += more.adult_minutes;
  value_cents += more.value_cents;
  add_counts(mishaps, more.mishaps);
  add_counts(left_out, more.left_out);
  told += more.told;
  sprouts.sprouted += more.sprouts.sprouted;
  sprouts.children += more.sprouts.children;
  return *this;
}

std::optional<std::int64_t> parse_cents(std::string_view text) {
  const std::size_t point = text.find('.');
  const std::string_view whole = text.substr(0, point);
  const std::string_view part = point == std::string_view::npos ? "00" : text.substr(point + 1);
  if (whole.empty() || whole.size() > 4 || part.size() != 2) return std::nullopt;
  std::int64_t cents = 0;
  for (const std::string_view digits : {whole, part}) {
    for (const char digit : digits) {
      if (digit < '0' || digit > '9') return std::nullopt;
      cents = cents * 10 + (digit - '0');
    }
  }
  return cents >= 1 && cents <= kMostCents ? std::optional(cents) : std::nullopt;
}

std::int64_t value_cents(std::int64_t minutes, std::int64_t cents_per_hour) {
  return (minutes * cents_per_hour + 30) / 60;
}

Totals totals_of(const ReportFacts& report, std::int64_t cents_per_hour,
                 const SproutCounts& sprouts) {
  Totals totals;
  totals.visits = 1;
  totals.ended = report.ended_at > 0;
  totals.by_bell = report.ended_at > 0 && report.ended_at <= report.bell_at;
  totals.children = report.children;
  totals.kits = report.kits;
  totals.adult_minutes = report.adult_minutes;
  totals.value_cents = value_cents(report.adult_minutes, cents_per_hour);
  totals.mishaps = report.mishaps;
  for (const StepFacts& step : report.steps) {
    if (step.outcome == Outcome::left_out) totals.left_out[{report.lesson, step.id}] = 1;
  }
  if (const auto told = sprouts.find(report.visit); told != sprouts.end()) {
    totals.told = 1;
    totals.sprouts = told->second;
  }
  return totals;
}

std::string group_name(const ReportFacts& report, Grouping grouping) {
  switch (grouping) {
    case Grouping::sponsor:
      return report.sponsor;
    case Grouping::school:
      return report.school;
    case Grouping::month:
      return format_date(report.date).substr(0, 7);
  }
  return "";
}

RollUp roll_up(std::span<const ReportFacts> reports, std::int64_t cents_per_hour,
               const SproutCounts& sprouts) {
  RollUp result;
  for (const ReportFacts& report : reports) {
    const Totals one = totals_of(report, cents_per_hour, sprouts);
    result.all += one;
    for (const Grouping grouping : {Grouping::sponsor, Grouping::school, Grouping::month}) {
      result.groups[static_cast<std::size_t>(grouping)][group_name(report, grouping)] += one;
    }
  }
  return result;
}

}  // namespace trowelbell
