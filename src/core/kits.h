// The bill of materials: what to lay out at the packing table, and where the kits went.
#pragma once

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
// Kits beyond the class are spares; where no kits are brought, the usual spares.
std::int64_t spares_of(std::int64_t children, std::int64_t kits);
KitNeeds needs_of(const Brief& brief);

// One item at one visit. It balances: stock x cut_parts == pieces + offcuts.
struct SupplyLine {
  std::size_t item = 0;      // index in lesson.kit
  std::int64_t sets = 0;     // lots of `count` pieces to lay out: one a kit, table, adult or visit
  std::int64_t pieces = 0;   // pieces needed
  std::int64_t stock = 0;    // whole pieces to cut them from
  std::int64_t offcuts = 0;  // pieces cut and not needed
};

// In packing order: what goes into each kit, then tables, adults, visit; within these as the lesson
// has it. What to buy, over one visit or many: supply_plan.h.
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
