// What is known of a species' seed: emergence by soil temperature, first root, legal minimum rate.
// Format "trowelbell.species".
#pragma once

#include "json.h"

namespace trowelbell {

// One column of the published table of days to emergence (seed 1/2 inch deep) and percent normal
// seedlings.
struct EmergenceColumn {
  double celsius = 0;
  double days = 0;     // > 0
  double percent = 0;  // 0..100
};

struct Species {
  std::string id;
  LocalText name;
  LocalText plural;                        // "beans"
  std::int64_t legal_minimum_percent = 0;  // 0: no published minimum
  std::vector<EmergenceColumn>
      emergence;  // by rising temperature, 2..12 columns; nothing is known outside it
  // First root, either by thermal time (degree_days > 0) or as a classroom range in days.
  double root_base_celsius = 0;
  double root_degree_days = 0;
  double root_warmest_celsius = 0;
  std::int64_t root_least_days = 0;
  std::int64_t root_most_days = 0;
  bool seed_leaves_rise = false;  // bean: true (epigeal); pea: false
  std::vector<std::string> sources;
};

Species read_species(const Json& document, Problems& problems);

}  // namespace trowelbell
