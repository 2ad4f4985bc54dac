#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <ostream>

#include "cli/content_folder.h"
#include "cli/visit_files.h"
#include "cli/words.h"
#include "core/kits.h"

namespace trowelbell {

namespace {

struct Options {
  std::vector<std::string> briefs;
  std::string content;
  std::optional<std::int64_t> spares;
  bool json = false;
};

struct Order {
  const Lesson* lesson = nullptr;
  std::vector<KitNeeds> visits;
};
using Orders = std::map<std::string, Order, std::less<>>;  // by lesson id

KitNeeds total(const std::vector<KitNeeds>& visits) {
  KitNeeds sum;
  for (const KitNeeds& visit : visits) {
    sum.children += visit.children;
    sum.tables += visit.tables;
    sum.adults += visit.adults;
    sum.spares += visit.spares;
  }
  return sum;
}

std::string sets_words(const KitItem& item, std::int64_t sets) {
  if (item.per == "child") {
    return counted(sets, "kit", "kits");
  }
  if (item.per == "table") {
    return counted(sets, "table", "tables");
  }
  return item.per == "adult" ? counted(sets, "adult", "adults") : counted(sets, "visit", "visits");
}

std::string pieces_words(const KitItem& item, const SupplyLine& line) {
  return item.cut_parts == 1
             ? std::to_string(line.pieces)
             : std::to_string(line.pieces) + ", cut from " + std::to_string(line.stock);
}

std::string packs_words(const KitItem& item, const SupplyLine& line) {
  return std::to_string(line.packs) + " x " + std::to_string(item.pack);
}

std::string left_words(const SupplyLine& line) {
  return std::to_string(line.unopened) +
         (line.offcuts > 0 ? " and " + counted(line.offcuts, "cut part", "cut parts") : "");
}

void write_words(std::ostream& out, const Orders& orders) {
  bool first = true;
  for (const auto& entry : orders) {
    const Order& order = entry.second;
    const KitNeeds sum = total(order.visits);
    out << (first ? "" : "\n") << order.lesson->title.en << ": "
        << counted(static_cast<std::int64_t>(order.visits.size()), "visit", "visits") << ", "
        << counted(sum.children, "child", "children") << ", "
        << counted(sum.spares, "spare kit", "spare kits") << "\n\n";
    first = false;
    const auto lines = bill_of_materials(*order.lesson, order.visits);
    std::size_t width = 4;
    for (const SupplyLine& line : lines) {
      width = std::max(width, order.lesson->kit[line.item].name.en.size());
    }
    out << padded("Item", width) << "  Lay out           " << padded("Pieces", 18)
        << padded("Packs", 10) << "Left over\n";
    for (const SupplyLine& line : lines) {
      const KitItem& item = order.lesson->kit[line.item];
      out << padded(item.name.en, width) << "  "
          << padded(std::to_string(item.count) + " x " + sets_words(item, line.sets), 18)
          << padded(pieces_words(item, line), 18) << padded(packs_words(item, line), 10)
          << left_words(line) << '\n';
    }
  }
}

void write_json(std::ostream& out, const Orders& orders) {
  Json list = Json::array();
  for (const auto& [id, order] : orders) {
    const KitNeeds sum = total(order.visits);
    Json items = Json::array();
    for (const SupplyLine& line : bill_of_materials(*order.lesson, order.visits)) {
      const KitItem& item = order.lesson->kit[line.item];
      items.push_back({{"id", item.id},
                       {"per", item.per},
                       {"each", item.count},
                       {"sets", line.sets},
                       {"pieces", line.pieces},
                       {"cut_parts", item.cut_parts},
                       {"stock", line.stock},
                       {"pack", item.pack},
                       {"packs", line.packs},
                       {"offcuts", line.offcuts},
                       {"unopened", line.unopened}});
    }
    list.push_back({{"lesson", id},
                    {"visits", order.visits.size()},
                    {"children", sum.children},
                    {"spares", sum.spares},
                    {"tables", sum.tables},
                    {"adults", sum.adults},
                    {"items", std::move(items)}});
  }
  out << dump_json({{"orders", std::move(list)}}) << '\n';
}

// Nothing where a brief cannot be read, is there twice, or has a lesson that the content does not
// have: an order that forgets a visit is worse than none.
std::optional<Orders> read_orders(const Options& options, const Content& content,
                                  const Streams& streams) {
  Orders orders;
  std::set<std::string> seen;
  bool whole = true;
  for (const std::string& name : options.briefs) {
    const auto brief = load_brief(name, streams);
    if (!brief) {
      whole = false;
      continue;
    }
    Problems problems = check_references(*brief, content);
    if (!seen.insert(brief->visit).second) {
      problems.push_back({"/visit", "\"" + brief->visit +
                                        "\" is in more than one of these briefs; give each visit "
                                        "once"});
    }
    if (!problems.empty()) {
      write_problems(streams.err, name, problems);
      whole = false;
      continue;
    }
    Order& order = orders[brief->lesson];
    order.lesson = &content.lessons.find(brief->lesson)->second;
    order.visits.push_back(needs_of(*brief));
    if (options.spares) {
      order.visits.back().spares = *options.spares;
    }
  }
  return whole ? std::optional(std::move(orders)) : std::nullopt;
}

Status supplies(const Options& options, const Streams& streams) {
  const auto folder = find_content(options.content);
  if (!folder) {
    streams.err << kNoContent;
    return Status::call_at_fault;
  }
  if (std::count(options.briefs.begin(), options.briefs.end(), "-") > 1) {
    streams.err << "trowelbell supplies: only one --brief can be standard input\n";
    return Status::call_at_fault;
  }
  std::vector<FileProblems> faults;
  const Content content = load_content_folder(*folder, faults);
  for (const FileProblems& fault : faults) {
    write_problems(streams.err, fault.file, fault.problems);
  }
  const auto orders = read_orders(options, content, streams);
  if (!orders) {
    return Status::input_at_fault;
  }
  options.json ? write_json(streams.out, *orders) : write_words(streams.out, *orders);
  return Status::done;
}

}  // namespace

void add_supplies(CLI::App& app, const Streams& streams, Status& status) {
  const auto options = std::make_shared<Options>();
  CLI::App* command =
      app.add_subcommand("supplies", "Lists what to lay out for a visit, or to order for several");
  command->add_option("--brief", options->briefs, "The visits' briefs")
      ->type_name("FILE")
      ->required();
  command->add_option("--content", options->content, std::string(kContentHelp))->type_name("DIR");
  command
      ->add_option("--spares", options->spares,
                   "Spare kits for each visit (default: the brief's kits beyond its children; "
                   "where it brings none, one for every ten children, at least two)")
      ->type_name("N")
      ->check(CLI::Range(0, 60));
  command->add_flag("--json", options->json, "Write the result as JSON");
  command->footer(
      "Pieces of all visits are added before they are rounded up to whole stock and packs.\n\n"
      "Example: the packing table for one visit\n"
      "  trowelbell supplies --brief maple-12.brief.json\n"
      "Example: the season's order\n"
      "  trowelbell supplies --brief briefs/*.brief.json");
  command->callback([options, &streams, &status] { status = supplies(*options, streams); });
}

}  // namespace trowelbell
