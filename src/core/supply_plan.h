// Supplies over many visits: what to buy and by when, what is left after each visit and goes to the
// next. Method: content/METHODS.md, "Kits".
#pragma once

#include <span>

#include "kits.h"

namespace trowelbell {

struct SupplyVisit {
  Date date{};
  KitNeeds needs;
};

// What there is of one item: whole pieces, and parts that are cut already.
struct Shelf {
  std::int64_t pieces = 0;
  std::int64_t parts = 0;
  bool operator==(const Shelf&) const = default;
};

// One item at one visit. Parts left over are used before a whole piece is cut.
struct SupplyStep {
  std::vector<std::int64_t> buy;  // packs of each size, to be there before this visit
  std::int64_t sets = 0;
  std::int64_t pieces = 0;     // needed
  std::int64_t old_parts = 0;  // of these, parts left from before
  std::int64_t taken = 0;      // whole pieces taken off the shelf, and cut where the item is cut
  Shelf left;                  // afterwards; what is reusable is back
};

// One item over all visits. Balances: start.pieces + bought == taken by all steps + left.pieces (of
// a reusable item: == left.pieces), and start.parts + taken x cut_parts == pieces + left.parts.
struct SupplyPlan {
  std::size_t item = 0;  // index in lesson.kit
  Shelf start;
  std::vector<std::int64_t> order;  // packs of each size, for all visits together, at least price
  std::int64_t price_cents = 0;     // of the order; 0 where prices are not known
  std::vector<SupplyStep> steps;    // one a visit
};

// `visits` in order of date. `start` is what is there, by index in lesson.kit; missing ones are
// none. Items in packing order. Of what is used up, the order covers the sum of all visits, of what
// is reusable the most that any one day needs. Packs are bought no earlier than needed, the larger
// ones first, so a pack that is bought is also opened.
std::vector<SupplyPlan> plan_supplies(const Lesson& lesson, std::span<const SupplyVisit> visits,
                                      std::span<const Shelf> start = {});

}  // namespace trowelbell
