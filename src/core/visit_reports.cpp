#include "visit_reports.h"

#include <algorithm>
#include <tuple>

namespace trowelbell {

CountedReports count_reports(std::span<const ReportFacts> reports) {
  std::vector<std::size_t> order(reports.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;

  // The newest of each phone first, phone by phone.
  const auto phone = [&](std::size_t i) { return std::tie(reports[i].visit, reports[i].device); };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (phone(a) != phone(b)) return phone(a) < phone(b);
    const auto age = [&](std::size_t i) {
      return std::tie(reports[i].revision, reports[i].events, reports[i].ended_at);
    };
    return age(a) > age(b);
  });
  CountedReports result;
  const auto repeats = std::unique(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return phone(a) == phone(b);
  });
  result.repeated = static_cast<std::size_t>(order.end() - repeats);
  order.erase(repeats, order.end());

  // Within each visit the one that counts first; phones are in the order of their ids already.
  const auto worth = [&](std::size_t i) {
    return std::make_tuple(reports[i].ended_at > 0, reports[i].events, reports[i].revision);
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (reports[a].visit != reports[b].visit) return reports[a].visit < reports[b].visit;
    return worth(a) > worth(b);
  });
  for (std::size_t i = 0; i < order.size();) {
    std::size_t end = i + 1;
    while (end < order.size() && reports[order[end]].visit == reports[order[i]].visit) ++end;
    result.counted.push_back(order[i]);
    if (end - i > 1) {
      const auto first = order.begin() + static_cast<std::ptrdiff_t>(i);
      result.shared.push_back(
          {order[i], {first + 1, order.begin() + static_cast<std::ptrdiff_t>(end)}});
    }
    i = end;
  }
  return result;
}

}  // namespace trowelbell
