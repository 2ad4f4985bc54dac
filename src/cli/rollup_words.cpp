#include <algorithm>
#include <cmath>
#include <ostream>

#include "cli/rollup_output.h"
#include "cli/words.h"
#include "core/proportion.h"

namespace trowelbell {

namespace {

std::string money(std::int64_t cents) {
  return "$" + hundredths(cents);
}

std::string hours_minutes(std::int64_t minutes) {
  return std::to_string(minutes / 60) + " h " + right(std::to_string(minutes % 60), 2) + " min";
}

// "80.0 %, 95 % interval 49.0 to 94.4 %", rounded outwards; "" of none.
std::string share_words(std::int64_t yes, std::int64_t all) {
  if (all == 0) {
    return "";
  }
  const Interval interval = wilson_95(yes, all);
  const std::string low = percent_words(interval.low);
  const double high = std::ceil(interval.high * 1000 - 1e-9) / 1000;
  return percent_words(static_cast<double>(yes) / static_cast<double>(all)) + ", 95 % interval " +
         low.substr(0, low.size() - 2) + " to " + percent_words(high);
}

std::int64_t sum(const std::map<std::string, std::int64_t>& counts) {
  std::int64_t total = 0;
  for (const auto& entry : counts) {
    total += entry.second;
  }
  return total;
}

// `next` is the one that would count without it.
std::string_view why_it_counts(const ReportFacts& counts, const ReportFacts& next) {
  if (counts.ended_at > 0 && next.ended_at == 0) {
    return "the only one that knows the visit's end";
  }
  return counts.events > next.events ? "made of the most taps"
                                     : "since one must; they know as much";
}

// What the totals were made from, and what is not in them.
void write_origin(std::ostream& out, const RollUpResult& result) {
  const auto& reports = result.files.reports;
  const auto count = [](std::size_t n) { return static_cast<std::int64_t>(n); };
  out << counted(result.totals.all.visits, "visit", "visits") << " from "
      << counted(count(reports.size()), "report", "reports") << '\n';
  if (result.reports.repeated > 0) {
    out << counted(count(result.reports.repeated), "older or repeated report does not count",
                   "older or repeated reports do not count")
        << "; the newest of each phone does\n";
  }
  for (const SharedVisit& shared : result.reports.shared) {
    const ReportFacts& counts = reports[shared.counts];
    out << "visit " << counts.visit << " was reported by " << shared.others.size() + 1
        << " phones; the report of " << counts.device << " counts, "
        << why_it_counts(counts, reports[shared.others.front()]) << '\n';
  }
  if (!result.files.left_out.empty()) {
    out << counted(count(result.files.left_out.size()), "report could not be read and was left out",
                   "reports could not be read and were left out")
        << ": see the messages\n";
  }
  if (result.bad_sprouts > 0) {
    out << "what teachers told was left out in part ("
        << counted(result.bad_sprouts, "fault", "faults") << "): see the messages\n";
  }
  for (const std::string& visit : result.unknown_visits) {
    out << "sprouts were told of visit " << plain(visit)
        << ", of which there is no report; they are left out\n";
  }
}

void write_value(std::ostream& out, const Totals& all, const RollUpResult& result) {
  if (result.cents_per_hour == 0) {
    return;
  }
  out << "  Volunteer time, valued at " << money(result.cents_per_hour) << " per hour ("
      << plain(result.rate_source) << "): " << money(all.value_cents) << '\n'
      << "  An estimate, each visit's to the cent; whoever asks for it may set another rate.\n";
}

void write_all(std::ostream& out, const RollUpResult& result) {
  const Totals& all = result.totals.all;
  const HeadCount& children = all.children;
  out << "\nChildren reached  " << children.came() << "; " << children.absent << " absent, "
      << children.unknown << " not counted\n";
  if (const std::int64_t known = children.came() + children.absent; known > 0) {
    out << "  of those counted, came: " << share_words(children.came(), known) << '\n';
  }
  const KitPiles& kits = all.kits;
  out << "Kits              " << kits.brought << " brought; " << kits.given << " given, "
      << kits.spoiled << " spoiled, " << kits.with_teacher << " left with teachers, " << kits.spare
      << " spare, " << kits.unaccounted() << " unaccounted for\n"
      << "Adult time        " << hours_minutes(all.adult_minutes) << '\n';
  write_value(out, all, result);
  out << "Over by the bell  " << all.by_bell << " of "
      << counted(all.ended, "visit that ended", "visits that ended");
  if (all.ended > 0) {
    out << ": " << share_words(all.by_bell, all.ended);
  }
  if (all.ended < all.visits) {
    out << "; " << counted(all.visits - all.ended, "has no end", "have no end");
  }
  out << "\nMishaps           " << sum(all.mishaps);
  for (const auto& [card, times] : all.mishaps) {
    out << (card == all.mishaps.begin()->first ? ": " : ", ") << card << ' ' << times;
  }
  out << "\nSteps left out    " << (all.left_out.empty() ? "none" : "in so many visits") << '\n';
  for (const auto& [step, visits] : all.left_out) {
    out << "  " << step.second << " (" << step.first << ") " << visits << '\n';
  }
  if (result.sprouts) {
    out << "Sprouts           as teachers told of " << counted(all.told, "visit", "visits") << ": "
        << all.sprouts.sprouted << " of "
        << counted(all.sprouts.children, "child has one", "children have one");
    if (all.sprouts.children > 0) {
      out << ": " << share_words(all.sprouts.sprouted, all.sprouts.children);
    }
    out << '\n';
  }
}

void write_groups(std::ostream& out, const RollUpResult& result, Grouping grouping) {
  const auto& groups = result.totals.groups[static_cast<std::size_t>(grouping)];
  const auto name = [](const std::string& group) {
    return group.empty() ? std::string("(none)") : plain(group);
  };
  std::size_t width = 8;
  for (const auto& entry : groups) {
    width = std::max(width, name(entry.first).size());
  }
  const std::string title = "By " + std::string(grouping_name(grouping));
  out << '\n'
      << padded(title, width) << "  Visits  Children  Absent  Kits given  Adult time    By the bell"
      << "  Mishaps" << (result.cents_per_hour > 0 ? "         Value" : "")
      << (result.sprouts ? "     Sprouts" : "") << '\n';
  for (const auto& [group, totals] : groups) {
    out << padded(name(group), width) << right(std::to_string(totals.visits), 8)
        << right(std::to_string(totals.children.came()), 10)
        << right(std::to_string(totals.children.absent), 8)
        << right(std::to_string(totals.kits.given), 12)
        << right(hours_minutes(totals.adult_minutes), 14)
        << right(std::to_string(totals.by_bell) + " of " + std::to_string(totals.ended), 13)
        << right(std::to_string(sum(totals.mishaps)), 9);
    if (result.cents_per_hour > 0) {
      out << right(money(totals.value_cents), 14);
    }
    if (result.sprouts) {
      out << right(std::to_string(totals.sprouts.sprouted) + " of " +
                       std::to_string(totals.sprouts.children),
                   12);
    }
    out << '\n';
  }
}

}  // namespace

void write_rollup_words(std::ostream& out, const RollUpResult& result) {
  write_origin(out, result);
  write_all(out, result);
  for (const Grouping grouping : result.by) {
    write_groups(out, result, grouping);
  }
  out << "\nThese are counts of what was done. They do not say what children learned.\n";
}

}  // namespace trowelbell
