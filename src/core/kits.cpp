#include "kits.h"

#include <algorithm>
#include <array>

namespace trowelbell {
namespace {

constexpr std::array<std::string_view, 4> kPackingOrder{"child", "table", "adult", "visit"};

std::int64_t divide_up(std::int64_t amount, std::int64_t by) {
  return (amount + by - 1) / by;
}

std::int64_t sets_for(std::string_view per, const KitNeeds& visit) {
  if (per == "child") return visit.children + visit.spares;
  if (per == "table") return visit.tables;
  if (per == "adult") return visit.adults;
  return 1;
}

SupplyLine supply_line(const KitItem& item, std::size_t index, const KitNeeds& visit) {
  SupplyLine line;
  line.item = index;
  line.sets = sets_for(item.per, visit);
  line.pieces = line.sets * item.count;
  line.stock = divide_up(line.pieces, item.cut_parts);
  line.offcuts = line.stock * item.cut_parts - line.pieces;
  return line;
}

}  // namespace

std::int64_t usual_spares(std::int64_t children) {
  return std::max<std::int64_t>(2, divide_up(children, 10));
}

std::int64_t spares_of(std::int64_t children, std::int64_t kits) {
  return kits > 0 ? std::max<std::int64_t>(0, kits - children) : usual_spares(children);
}

KitNeeds needs_of(const Brief& brief) {
  return {brief.children, brief.tables, brief.adults, spares_of(brief.children, brief.kits)};
}

std::vector<SupplyLine> bill_of_materials(const Lesson& lesson, const KitNeeds& visit) {
  std::vector<SupplyLine> lines;
  for (const std::string_view per : kPackingOrder) {
    for (std::size_t index = 0; index < lesson.kit.size(); ++index) {
      const KitItem& item = lesson.kit[index];
      if (item.per == per) lines.push_back(supply_line(item, index, visit));
    }
  }
  return lines;
}

std::int64_t kits_from(const Lesson& lesson, std::int64_t kits,
                       const std::map<std::string, std::int64_t>& lacking) {
  std::int64_t whole = kits;
  for (const KitItem& item : lesson.kit) {
    const auto found = lacking.find(item.id);
    if (item.per != "child" || found == lacking.end()) continue;
    whole =
        std::min(whole, std::max<std::int64_t>(kits * item.count - found->second, 0) / item.count);
  }
  return whole;
}

KitPiles expected_piles(std::int64_t brought, const HeadCount& head_count, std::int64_t spoiled) {
  KitPiles piles;
  piles.brought = brought;
  piles.spoiled = std::min(spoiled, brought);
  piles.given = std::min(head_count.came(), brought - piles.spoiled);
  const std::int64_t left = brought - piles.spoiled - piles.given;
  piles.with_teacher = std::min(head_count.absent + head_count.unknown, left);
  piles.spare = left - piles.with_teacher;
  return piles;
}

}  // namespace trowelbell
