#include "cli/supply_words.h"

#include <algorithm>
#include <ostream>

#include "cli/words.h"

namespace trowelbell {

namespace {

std::string parts_words(std::int64_t count) {
  return counted(count, "cut part", "cut parts");
}

KitNeeds total(const std::vector<SeasonVisit>& visits) {
  KitNeeds sum;
  for (const SeasonVisit& visit : visits) {
    const KitNeeds& needs = visit.supply.needs;
    sum.children += needs.children;
    sum.tables += needs.tables;
    sum.adults += needs.adults;
    sum.spares += needs.spares;
  }
  return sum;
}

std::string packs_words(const std::vector<Pack>& packs, const std::vector<std::int64_t>& counts) {
  std::string text;
  for (std::size_t i = 0; i < packs.size(); ++i) {
    if (counts[i] == 0) continue;
    text += text.empty() ? "" : " + ";
    text += packs[i].size == 1
                ? counted(counts[i], "piece", "pieces")
                : counted(counts[i], "pack", "packs") + " of " + std::to_string(packs[i].size);
  }
  return text.empty() ? "none" : text;
}

bool buys(const SupplyStep& step) {
  return std::any_of(step.buy.begin(), step.buy.end(), [](std::int64_t n) { return n > 0; });
}

std::string cut_words(const KitItem& item, const SupplyStep& step) {
  std::string text;
  if (step.old_parts > 0) text += "; take " + parts_words(step.old_parts) + " left from before";
  if (step.taken == 0) return text;
  const std::int64_t parts = item.cut_parts;
  const std::string into = parts == 2   ? "halves"
                           : parts == 3 ? "thirds"
                           : parts == 4 ? "quarters"
                                        : std::to_string(parts) + " parts";
  text += "; cut " + std::to_string(step.taken) + " in " + into;
  return step.left.parts > 0 ? text + ", keep " + parts_words(step.left.parts) : text;
}

// "count 27; cut 9 in thirds".
std::string count_words(const KitItem& item, const SupplyStep& step) {
  std::string text = "count " + std::to_string(step.pieces);
  if (item.cut_parts > 1) text += cut_words(item, step);
  return item.reusable ? text + "; bring back" : text;
}

std::string heading(const std::string& per, const KitNeeds& needs) {
  const auto each = [](const char* one, const char* many, std::int64_t count, const char* noun) {
    return count == 1 ? std::string(one) : many + std::to_string(count) + " " + noun;
  };
  if (per == "child") {
    return each("In the kit", "In each of ", needs.children + needs.spares, "kits");
  }
  if (per == "table") return each("On the table", "On each of ", needs.tables, "tables");
  if (per == "adult") return each("For the adult", "For each of ", needs.adults, "adults");
  return "For the visit";
}

void write_packing_sheet(std::ostream& out, const SupplyOrder& order, std::size_t visit) {
  const KitNeeds& needs = order.visits[visit].supply.needs;
  out << "\nPacking table: " << plain(order.visits[visit].id) << ", "
      << format_date(order.visits[visit].supply.date) << ", "
      << counted(needs.children, "child", "children") << ", "
      << counted(needs.spares, "spare kit", "spare kits") << '\n';
  std::string_view group;
  for (const SupplyPlan& plan : order.plans) {
    const KitItem& item = order.lesson->kit[plan.item];
    if (item.per != group) out << "  " << heading(item.per, needs) << ":\n";
    group = item.per;
    out << "    " << item.count << " x " << item.name.en << " ("
        << count_words(item, plan.steps[visit]) << ")\n";
  }
}

std::string price_words(std::int64_t cents) {
  return "$" + hundredths(cents);
}

void write_order(std::ostream& out, const SupplyOrder& order) {
  out << "\nOrder\n";
  std::size_t width = 4;
  for (const SupplyPlan& plan : order.plans) {
    width = std::max(width, order.lesson->kit[plan.item].name.en.size());
  }
  for (const SupplyPlan& plan : order.plans) {
    const KitItem& item = order.lesson->kit[plan.item];
    out << "  " << padded(item.name.en, width) << "  " << packs_words(item.packs, plan.order);
    const auto first = std::find_if(plan.steps.begin(), plan.steps.end(), buys);
    if (first != plan.steps.end()) {
      const auto visit = static_cast<std::size_t>(first - plan.steps.begin());
      out << ", before " << format_date(order.visits[visit].supply.date);
    }
    if (plan.price_cents > 0) out << ", " << price_words(plan.price_cents);
    out << '\n';
  }
}

// What an order and a shelf come to, visit by visit; only items of which something is bought or
// left.
void write_leftovers(std::ostream& out, const SupplyOrder& order) {
  out << "\nBought before and left after each visit\n";
  for (std::size_t visit = 0; visit < order.visits.size(); ++visit) {
    out << "  " << plain(order.visits[visit].id) << ", "
        << format_date(order.visits[visit].supply.date) << '\n';
    for (const SupplyPlan& plan : order.plans) {
      const KitItem& item = order.lesson->kit[plan.item];
      const SupplyStep& step = plan.steps[visit];
      if (!buys(step) && step.left == Shelf{}) continue;
      out << "    " << item.name.en << ": ";
      if (buys(step)) out << "buy " << packs_words(item.packs, step.buy) << "; ";
      out << step.left.pieces << (item.reusable ? " back" : " left");
      if (step.left.parts > 0) out << " and " << parts_words(step.left.parts);
      out << '\n';
    }
  }
}

Json packs_json(const std::vector<Pack>& packs, const std::vector<std::int64_t>& counts) {
  Json list = Json::array();
  for (std::size_t i = 0; i < packs.size(); ++i) {
    if (counts[i] > 0) list.push_back({{"size", packs[i].size}, {"packs", counts[i]}});
  }
  return list;
}

Json shelf_json(const Shelf& shelf) {
  return {{"pieces", shelf.pieces}, {"parts", shelf.parts}};
}

Json visit_json(const SupplyOrder& order, std::size_t visit) {
  const KitNeeds& needs = order.visits[visit].supply.needs;
  Json items = Json::array();
  for (const SupplyPlan& plan : order.plans) {
    const KitItem& item = order.lesson->kit[plan.item];
    const SupplyStep& step = plan.steps[visit];
    items.push_back({{"id", item.id},
                     {"per", item.per},
                     {"each", item.count},
                     {"sets", step.sets},
                     {"pieces", step.pieces},
                     {"old_parts", step.old_parts},
                     {"taken", step.taken},
                     {"buy", packs_json(item.packs, step.buy)},
                     {"left", shelf_json(step.left)}});
  }
  return {{"visit", order.visits[visit].id}, {"date", format_date(order.visits[visit].supply.date)},
          {"children", needs.children},      {"spares", needs.spares},
          {"tables", needs.tables},          {"adults", needs.adults},
          {"items", std::move(items)}};
}

}  // namespace

void write_supplies(std::ostream& out, const SupplyOrder& order) {
  const KitNeeds sum = total(order.visits);
  out << order.lesson->title.en << ": "
      << counted(static_cast<std::int64_t>(order.visits.size()), "visit", "visits") << ", "
      << counted(sum.children, "child", "children") << ", "
      << counted(sum.spares, "spare kit", "spare kits") << '\n';
  for (std::size_t visit = 0; visit < order.visits.size(); ++visit) {
    write_packing_sheet(out, order, visit);
  }
  write_order(out, order);
  write_leftovers(out, order);
}

Json supplies_json(const SupplyOrder& order) {
  const KitNeeds sum = total(order.visits);
  Json items = Json::array();
  for (const SupplyPlan& plan : order.plans) {
    const KitItem& item = order.lesson->kit[plan.item];
    Json entry = {{"id", item.id},
                  {"reusable", item.reusable},
                  {"cut_parts", item.cut_parts},
                  {"start", shelf_json(plan.start)},
                  {"order", packs_json(item.packs, plan.order)},
                  {"left", shelf_json(plan.steps.back().left)}};
    if (item.packs.front().price_cents > 0) entry["price_cents"] = plan.price_cents;
    items.push_back(std::move(entry));
  }
  Json visits = Json::array();
  for (std::size_t visit = 0; visit < order.visits.size(); ++visit) {
    visits.push_back(visit_json(order, visit));
  }
  return {{"lesson", order.lesson->id}, {"children", sum.children}, {"spares", sum.spares},
          {"tables", sum.tables},       {"adults", sum.adults},     {"items", std::move(items)},
          {"visits", std::move(visits)}};
}

}  // namespace trowelbell
