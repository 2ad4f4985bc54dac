#include "supply_plan.h"

#include <algorithm>

#include "pack_cover.h"

namespace trowelbell {
namespace {

// Packs still to be bought, handed out as the shelf runs short.
class Order {
 public:
  Order(const std::vector<Pack>& packs, std::vector<std::int64_t> counts)
      : packs_(packs), counts_(std::move(counts)) {}

  // Buys until `shelf` has `wanted` pieces; the larger packs first.
  std::vector<std::int64_t> fill(Shelf& shelf, std::int64_t wanted) {
    std::vector<std::int64_t> bought(packs_.size());
    while (shelf.pieces < wanted) {
      std::size_t next = packs_.size();
      for (std::size_t i = 0; i < packs_.size(); ++i) {
        if (counts_[i] > 0 && (next == packs_.size() || packs_[i].size > packs_[next].size)) {
          next = i;
        }
      }
      if (next == packs_.size()) break;
      const std::int64_t short_by = wanted - shelf.pieces;
      const std::int64_t needed = (short_by + packs_[next].size - 1) / packs_[next].size;
      const std::int64_t count = std::min(counts_[next], needed);
      counts_[next] -= count;
      bought[next] += count;
      shelf.pieces += count * packs_[next].size;
    }
    return bought;
  }

 private:
  const std::vector<Pack>& packs_;
  std::vector<std::int64_t> counts_;
};

// What all visits of one day need of an item that is reusable: they may follow each other closely.
std::int64_t needed_on(Date date, std::span<const SupplyVisit> visits,
                       std::span<const SupplyStep> steps) {
  std::int64_t needed = 0;
  for (std::size_t i = 0; i < visits.size(); ++i) {
    if (visits[i].date == date) needed += steps[i].pieces;
  }
  return needed;
}

// Fills in `old_parts` and `taken` of a visit, and gives the parts left.
std::int64_t cut_for(SupplyStep& step, std::int64_t parts, std::int64_t cut_parts) {
  step.old_parts = std::min(parts, step.pieces);
  const std::int64_t to_cut = step.pieces - step.old_parts;
  step.taken = (to_cut + cut_parts - 1) / cut_parts;
  return parts + step.taken * cut_parts - step.pieces;
}

void plan_item(const KitItem& item, std::span<const SupplyVisit> visits, SupplyPlan& plan) {
  // First what is needed at each visit, as if the shelf never ran out; then the order, and when.
  std::vector<std::int64_t> wanted;  // on the shelf before each visit
  std::int64_t parts = plan.start.parts;
  std::int64_t all = 0;
  for (std::size_t i = 0; i < visits.size(); ++i) {
    SupplyStep& step = plan.steps[i];
    if (item.reusable) {
      step.taken = step.pieces;
      wanted.push_back(needed_on(visits[i].date, visits, plan.steps));
      all = std::max(all, wanted.back());
    } else {
      parts = cut_for(step, parts, item.cut_parts);
      wanted.push_back(step.taken);
      all += step.taken;
    }
    step.left.parts = parts;
  }
  plan.order = cheapest_packs(item.packs, std::max<std::int64_t>(0, all - plan.start.pieces));
  for (std::size_t i = 0; i < item.packs.size(); ++i) {
    plan.price_cents += plan.order[i] * item.packs[i].price_cents;
  }
  Order order(item.packs, plan.order);
  Shelf shelf = plan.start;
  for (std::size_t i = 0; i < visits.size(); ++i) {
    SupplyStep& step = plan.steps[i];
    step.buy = order.fill(shelf, wanted[i]);
    shelf.pieces -= item.reusable ? 0 : step.taken;
    step.left.pieces = shelf.pieces;
  }
}

}  // namespace

std::vector<SupplyPlan> plan_supplies(const Lesson& lesson, std::span<const SupplyVisit> visits,
                                      std::span<const Shelf> start) {
  std::vector<SupplyPlan> plans;
  for (const SupplyVisit& visit : visits) {
    const std::vector<SupplyLine> lines = bill_of_materials(lesson, visit.needs);
    plans.resize(lines.size());
    for (std::size_t i = 0; i < lines.size(); ++i) {
      plans[i].item = lines[i].item;
      SupplyStep step;
      step.sets = lines[i].sets;
      step.pieces = lines[i].pieces;
      plans[i].steps.push_back(std::move(step));
    }
  }
  for (SupplyPlan& plan : plans) {
    if (plan.item < start.size()) plan.start = start[plan.item];
    plan_item(lesson.kit[plan.item], visits, plan);
  }
  return plans;
}

}  // namespace trowelbell
