#include "cli/season.h"

#include <algorithm>
#include <ostream>
#include <set>

#include "cli/csv.h"
#include "cli/files.h"
#include "cli/visit_files.h"
#include "cli/words.h"
#include "core/brief_fields.h"
#include "core/county.h"

namespace trowelbell {

namespace {

constexpr std::int64_t kMostSpares = 60;

// Reads the rows of a spreadsheet with `use(const Reader&)`; false where anything is wrong.
template <class Use>
bool read_rows(const std::string& name, const std::vector<std::string>& needed,
               const std::vector<std::string>& optional, const Streams& streams, Use use) {
  Problems problems;
  std::vector<std::string> unused;
  if (const auto text = read_text(name, kCsvBytes, streams.in, problems)) {
    if (const auto rows = read_csv(*text, needed, optional, unused, problems)) {
      for (const CsvRow& row : *rows) use(Reader(row.cells, problems, row.place));
    }
  }
  for (const std::string& head : unused) {
    streams.err << "note: " << plain(name) << ": the column \"" << plain(head)
                << "\" is not used\n";
  }
  write_problems(streams.err, name, problems);
  return problems.empty();
}

SeasonVisit season_visit(const Brief& brief) {
  return {brief.visit, brief.lesson, brief.start_minutes, {brief.date, needs_of(brief)}};
}

SeasonVisit season_visit(const PlannedVisit& visit) {
  return {visit.id,
          visit.lesson,
          visit.start_minutes,
          {visit.date,
           {visit.children, visit.tables, visit.adults, spares_of(visit.children, visit.kits)}}};
}

// A row has the county file's fields, and may say the spares itself.
SeasonVisit season_visit(const Reader& row) {
  SeasonVisit visit;
  visit.id = row.id("visit");
  visit.lesson = row.id("lesson");
  visit.supply.date = read_date(row, "date");
  visit.start_minutes = row.has("start") ? read_clock(row, "start") : 0;
  KitNeeds& needs = visit.supply.needs;
  needs.children = row.whole("children", 1, 60);
  needs.adults = row.whole("adults", 1, 20);
  needs.tables = row.whole_or("tables", 1, 20, 1);
  const std::int64_t kits = row.whole_or("kits", 0, 120, 0);
  needs.spares = row.whole_or("spares", 0, kMostSpares, spares_of(needs.children, kits));
  if (kits > 0 && row.has("spares") && kits != needs.children + needs.spares) {
    row.problem("spares", "must be kits less children, or be left empty");
  }
  return visit;
}

bool read_county_visits(const std::string& name, const Streams& streams,
                        std::vector<SeasonVisit>& visits) {
  Problems problems;
  if (const auto text = read_text(name, kCountyLimits.bytes, streams.in, problems)) {
    if (const auto document = parse_json(*text, kCountyLimits, problems)) {
      for (const PlannedVisit& visit : read_county(*document, problems).visits) {
        visits.push_back(season_visit(visit));
      }
    }
  }
  write_problems(streams.err, name, problems);
  return problems.empty();
}

// Problems of the visits together, whichever file they came from.
bool are_sound(const std::vector<SeasonVisit>& visits, const Content& content,
               const Streams& streams) {
  std::set<std::string_view> seen;
  bool sound = true;
  const auto fault = [&](const SeasonVisit& visit, const std::string& what) {
    streams.err << "visit " << plain(visit.id) << ": " << plain(what) << '\n';
    sound = false;
  };
  for (const SeasonVisit& visit : visits) {
    if (!seen.insert(visit.id).second) {
      fault(visit, "is there more than once; give each visit once");
    }
    if (content.lessons.find(visit.lesson) == content.lessons.end()) {
      fault(visit, "the content has no lesson \"" + visit.lesson + "\"");
    }
  }
  return sound;
}

}  // namespace

std::optional<std::vector<SeasonVisit>> read_season(const SeasonOptions& options,
                                                    std::optional<Date> from,
                                                    const Content& content,
                                                    const Streams& streams) {
  std::vector<SeasonVisit> visits;
  bool whole = true;
  for (const std::string& name : options.briefs) {
    const auto brief = load_brief(name, streams);
    if (brief) visits.push_back(season_visit(*brief));
    whole = whole && brief;
  }
  if (!options.county.empty()) {
    whole = read_county_visits(options.county, streams, visits) && whole;
  }
  if (!options.season.empty()) {
    whole = read_rows(options.season, {"visit", "date", "lesson", "children", "adults"},
                      {"start", "tables", "kits", "spares"}, streams,
                      [&](const Reader& row) { visits.push_back(season_visit(row)); }) &&
            whole;
  }
  if (!whole || !are_sound(visits, content, streams)) return std::nullopt;
  std::erase_if(visits, [&](const SeasonVisit& each) { return from && each.supply.date < *from; });
  std::stable_sort(visits.begin(), visits.end(), [](const SeasonVisit& a, const SeasonVisit& b) {
    return std::pair(a.supply.date, a.start_minutes) < std::pair(b.supply.date, b.start_minutes);
  });
  for (SeasonVisit& visit : visits) {
    visit.supply.needs.spares = options.spares.value_or(visit.supply.needs.spares);
  }
  return visits;
}

std::optional<std::vector<Shelf>> read_stock(const std::string& name, const Lesson& lesson,
                                             const Streams& streams) {
  constexpr std::int64_t kMostPieces = 1'000'000;
  std::vector<Shelf> shelf(lesson.kit.size());
  std::set<std::string> seen;
  const bool good = read_rows(name, {"id", "pieces"}, {"parts"}, streams, [&](const Reader& row) {
    const std::string id = row.id("id");
    const auto item = std::find_if(lesson.kit.begin(), lesson.kit.end(),
                                   [&](const KitItem& each) { return each.id == id; });
    if (item == lesson.kit.end()) {
      return row.problem("id", "must be the id of an item of lesson \"" + lesson.id + "\"");
    }
    if (!seen.insert(id).second) return row.problem("id", "stands in an earlier row, too");
    Shelf& here = shelf[static_cast<std::size_t>(item - lesson.kit.begin())];
    here = {row.whole("pieces", 0, kMostPieces), row.whole_or("parts", 0, kMostPieces, 0)};
    if (here.parts > 0 && item->cut_parts == 1) {
      row.problem("parts", "must be empty: this item is not cut");
    }
  });
  return good ? std::optional(std::move(shelf)) : std::nullopt;
}

}  // namespace trowelbell
