#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>
#include <ostream>

#include "cli/content_folder.h"
#include "cli/supply_words.h"
#include "cli/visit_files.h"
#include "cli/words.h"

namespace trowelbell {

namespace {

struct Options : SeasonOptions {
  std::string content;
  bool json = false;
};

// The call's fault, or "".
std::string_view fault_of(const Options& options) {
  if (options.briefs.empty() && options.county.empty() && options.season.empty()) {
    return "give the visits: --brief, --county or --season";
  }
  if (!options.from.empty() && !parse_date(options.from)) {
    return "--from must be a date that exists, as YYYY-MM-DD";
  }
  std::vector<std::string> files = options.briefs;
  files.insert(files.end(), {options.county, options.season, options.stock});
  return std::count(files.begin(), files.end(), "-") > 1 ? "only one file can be standard input"
                                                         : "";
}

std::optional<std::vector<SupplyOrder>> make_orders(const std::vector<SeasonVisit>& visits,
                                                    const Content& content, const Options& options,
                                                    const Streams& streams) {
  std::map<std::string, SupplyOrder> by_lesson;
  for (const SeasonVisit& visit : visits) by_lesson[visit.lesson].visits.push_back(visit);
  if (!options.stock.empty() && by_lesson.size() > 1) {
    streams.err << "trowelbell supplies: --stock is for one lesson; these visits have "
                << by_lesson.size() << ", so give each lesson's visits by themselves\n";
    return std::nullopt;
  }
  std::vector<SupplyOrder> orders;
  for (auto& [id, order] : by_lesson) {
    order.lesson = &content.lessons.find(id)->second;
    std::vector<Shelf> shelf;
    if (!options.stock.empty()) {
      auto read = read_stock(options.stock, *order.lesson, streams);
      if (!read) return std::nullopt;
      shelf = std::move(*read);
    }
    std::vector<SupplyVisit> planned;
    for (const SeasonVisit& visit : order.visits) planned.push_back(visit.supply);
    order.plans = plan_supplies(*order.lesson, planned, shelf);
    orders.push_back(std::move(order));
  }
  return orders;
}

void write_all(std::ostream& out, const std::vector<SupplyOrder>& orders, bool json) {
  if (json) {
    Json list = Json::array();
    for (const SupplyOrder& order : orders) list.push_back(supplies_json(order));
    out << dump_json({{"orders", std::move(list)}}) << '\n';
    return;
  }
  for (std::size_t i = 0; i < orders.size(); ++i) {
    out << (i == 0 ? "" : "\n");
    write_supplies(out, orders[i]);
  }
}

Status supplies(const Options& options, const Streams& streams) {
  const auto folder = find_content(options.content);
  if (!folder) {
    streams.err << kNoContent;
    return Status::call_at_fault;
  }
  if (const std::string_view fault = fault_of(options); !fault.empty()) {
    streams.err << "trowelbell supplies: " << fault << '\n';
    return Status::call_at_fault;
  }
  std::vector<FileProblems> faults;
  const Content content = load_content_folder(*folder, faults);
  for (const FileProblems& fault : faults) {
    write_problems(streams.err, fault.file, fault.problems);
  }
  const auto visits = read_season(options, parse_date(options.from), content, streams);
  if (!visits) {
    return Status::input_at_fault;
  }
  if (visits->empty()) {
    streams.err << "trowelbell supplies: there are no visits to supply\n";
    return Status::input_at_fault;
  }
  const auto orders = make_orders(*visits, content, options, streams);
  if (!orders) {
    return Status::input_at_fault;
  }
  write_all(streams.out, *orders, options.json);
  return Status::done;
}

}  // namespace

void add_supplies(CLI::App& app, const Streams& streams, Status& status) {
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "supplies", "Lists what to lay out for each visit, what to buy, and what is left over");
  command->add_option("--brief", options->briefs, "The visits' briefs")->type_name("FILE");
  command->add_option("--county", options->county, "All visits of a county file")
      ->type_name("FILE");
  command
      ->add_option("--season", options->season,
                   "A spreadsheet saved as CSV, a row a visit, with the columns visit, date, "
                   "lesson, children, adults and, if wanted, start, tables, kits, spares")
      ->type_name("FILE");
  command->add_option("--from", options->from, "Leave out visits before this day: YYYY-MM-DD")
      ->type_name("DATE");
  command
      ->add_option("--stock", options->stock,
                   "What is on the shelf: CSV with the columns id, pieces and, if wanted, parts")
      ->type_name("FILE");
  command->add_option("--content", options->content, std::string(kContentHelp))->type_name("DIR");
  command
      ->add_option("--spares", options->spares,
                   "Spare kits for each visit (default: the kits beyond the children; where none "
                   "are brought, one for every ten children, at least two)")
      ->type_name("N")
      ->check(CLI::Range(0, 60));
  command->add_flag("--json", options->json, "Write the result as JSON");
  command->footer(
      "What one visit leaves over goes to the next. Where an item comes in packs of several sizes, "
      "the order is the cheapest that is enough.\n\n"
      "Example: the packing table for one visit\n"
      "  trowelbell supplies --brief maple-12.brief.json\n"
      "Example: the season's order, with what is on the shelf\n"
      "  trowelbell supplies --season visits.csv --from 2027-03-01 --stock shelf.csv");
  command->callback([options, &streams, &status] { status = supplies(*options, streams); });
}

}  // namespace trowelbell
