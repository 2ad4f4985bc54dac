// The bill of materials: what to lay out at the packing table, what to buy, and where the kits
// went.
#pragma once

#include <span>

#include "brief.h"
#include "lesson.h"
#include "visit_state.h"

namespace trowelbell {

// What one visit packs for. A kit is everything "per child"; spare kits are kits beyond the class.
struct KitNeeds {
  std::int64_t children = 0;
  std::int64_t tables = 0;
  std::int64_t adults = 0;
  std::int64_t spares = 0;
};

// A few spare kits beyond the class (common practice): one for every ten children begun, but at
// least two.
std::int64_t usual_spares(std::int64_t children);
// As the brief has it: kits beyond the class are spares; where it brings no kits, the usual spares.
KitNeeds needs_of(const Brief& brief);

// One item over one visit or several. It balances:
// packs x pack x cut_parts == pieces + offcuts + unopened x cut_parts.
struct SupplyLine {
  std::size_t item = 0;       // index in lesson.kit
  std::int64_t sets = 0;      // lots of `count` pieces to lay out: one a kit, table, adult or visit
  std::int64_t pieces = 0;    // pieces needed
  std::int64_t stock = 0;     // whole pieces to cut them from
  std::int64_t packs = 0;     // packs to buy
  std::int64_t offcuts = 0;   // pieces cut and not needed
  std::int64_t unopened = 0;  // whole pieces left in the last pack
};

// In packing order: what goes into each kit, then tables, adults, visit; within these as the lesson
// has it. Over several visits the pieces are added first and rounded up to whole stock and packs
// once.
std::vector<SupplyLine> bill_of_materials(const Lesson& lesson, std::span<const KitNeeds> visits);
std::vector<SupplyLine> bill_of_materials(const Lesson& lesson, const KitNeeds& visit);

// How many kits the packing table gives when pieces are lacking (kit item id: pieces): as many as
// the scarcest item per child allows. What lacks beyond a kit's items changes nothing here.
std::int64_t kits_from(const Lesson& lesson, std::int64_t kits,
                       const std::map<std::string, std::int64_t>& lacking);

// Where the kits should be after the visit: one to every child who came, the spoiled ones, one with
// the teacher for every child who did not come, the rest spare. Where kits run out, those counted
// first have them. Nothing is unaccounted; a count at the table that differs is what to look for.
KitPiles expected_piles(std::int64_t brought, const HeadCount& head_count, std::int64_t spoiled);

}  // namespace trowelbell
