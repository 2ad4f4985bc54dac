// Published table the tests hold seeds against, apart from the content that ships: J.F. Harrington
// and P.A. Minges, Vegetable Seed Germination, California Agricultural Extension leaflet, 1954, as
// reprinted in "Teaching Organic Farming and Gardening", Unit 1.3, appendix 4 (days to emergence,
// half an inch deep) and at highanddryfarm.com/germination-versus-temperature (percent normal
// seedlings). Legal minimum: 7 CFR 201.31. Thermal time to first root of pea, spring food
// type: 55.9 degree days above -0.98 C, to 27.5 C (PubMed 40596089, 2025). Beans' first root in 3
// to 5 days: state agriscience education glove sheet.
#pragma once

#include <utility>

#include "core/species.h"

namespace trowelbell::harrington {

inline Species crop(std::string id, std::int64_t legal_minimum,
                    std::vector<EmergenceColumn> emergence) {
  Species species;
  species.id = std::move(id);
  species.legal_minimum_percent = legal_minimum;
  species.emergence = std::move(emergence);
  species.root_least_days = 3;
  species.root_most_days = 5;
  return species;
}

inline Species pea() {
  Species species = crop(
      "pea", 80, {{5, 36, 89}, {10, 14, 94}, {15, 9, 93}, {20, 8, 93}, {25, 6, 94}, {30, 6, 86}});
  species.root_base_celsius = -0.98;
  species.root_degree_days = 55.9;
  species.root_warmest_celsius = 27.5;
  species.root_least_days = species.root_most_days = 0;
  return species;
}
inline Species snap_bean() {
  return crop("bean", 70, {{15, 16, 97}, {20, 11, 90}, {25, 8, 97}, {30, 6, 47}});
}
inline Species lima_bean() {
  return crop("lima", 70, {{15, 31, 52}, {20, 18, 82}, {25, 7, 90}, {30, 7, 88}});
}
inline Species radish() {
  return crop("radish", 75,
              {{5, 29, 42}, {10, 11, 76}, {15, 6, 97}, {20, 4, 95}, {25, 4, 97}, {30, 3, 95}});
}
inline Species lettuce() {
  return crop(
      "lettuce", 80,
      {{0, 49, 98}, {5, 15, 98}, {10, 7, 98}, {15, 4, 99}, {20, 3, 99}, {25, 2, 99}, {30, 3, 12}});
}

}  // namespace trowelbell::harrington
