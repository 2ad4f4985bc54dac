// An order of supplies in words and as JSON.
#pragma once

#include <iosfwd>

#include "cli/season.h"

namespace trowelbell {

// All visits with one lesson, and what they take.
struct SupplyOrder {
  const Lesson* lesson = nullptr;
  std::vector<SeasonVisit> visits;
  std::vector<SupplyPlan> plans;
};

void write_supplies(std::ostream& out, const SupplyOrder& order);
Json supplies_json(const SupplyOrder& order);

}  // namespace trowelbell
