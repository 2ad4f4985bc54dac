#include "visit_book.h"

#include <algorithm>
#include <fstream>
#include <map>

#include "core/brief.h"

namespace trowelbell::collector {
namespace {

namespace fs = std::filesystem;
constexpr std::string_view kBriefEnding = ".brief.json";

std::vector<fs::path> brief_files(const fs::path& path) {
  if (!fs::exists(path)) throw BriefError("There is no brief at " + path.string() + ".");
  if (!fs::is_directory(path)) return {path};
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(path))
    if (entry.is_regular_file() && entry.path().filename().string().ends_with(kBriefEnding))
      files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

std::string read_file(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  if (!stream) throw BriefError("Cannot read " + file.string() + ". Check who may read it.");
  // One byte more than allowed is enough for the parser to see that it is too long.
  std::string text(kBriefLimits.bytes + 1, '\0');
  stream.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(stream.gcount()));
  return text;
}

VisitEntry read_entry(const fs::path& file) {
  Problems problems;
  const std::optional<Brief> brief = brief_from_text(read_file(file), problems);
  if (!problems.empty() || !brief) {
    std::string message = file.string() + " is not a brief in order.";
    for (const Problem& problem : problems)
      message +=
          "\n  " + (problem.path.empty() ? "whole file" : problem.path) + ": " + problem.what;
    throw BriefError(message);
  }
  const Json facts = {{"school", brief->school},
                      {"room", brief->room},
                      {"sponsor", brief->sponsor},
                      {"start", format_clock(brief->start_minutes)},
                      {"bell", format_clock(brief->bell_minutes)},
                      {"children", brief->children}};
  return {brief->visit, sha256(brief->key), format_date(brief->date), dump_json(facts)};
}

std::string_view view(const Digest& digest) {
  return {reinterpret_cast<const char*>(digest.data()), digest.size()};
}

bool same(const VisitEntry& a, const VisitEntry& b) {
  return a.key_digest == b.key_digest && a.date == b.date && a.facts == b.facts;
}

}  // namespace

std::vector<VisitEntry> read_briefs(const std::vector<fs::path>& paths) {
  std::map<std::string, std::pair<VisitEntry, fs::path>> by_visit;
  for (const fs::path& path : paths) {
    for (const fs::path& file : brief_files(path)) {
      VisitEntry entry = read_entry(file);
      const auto [place, added] = by_visit.try_emplace(entry.visit, entry, file);
      if (!added && !same(place->second.first, entry))
        throw BriefError("Two different briefs say they are visit " + entry.visit + ": " +
                         place->second.second.string() + " and " + file.string() +
                         ". Leave only the right one.");
    }
  }
  std::vector<VisitEntry> entries;
  entries.reserve(by_visit.size());
  for (auto& [visit, entry] : by_visit) entries.push_back(std::move(entry.first));
  return entries;
}

ImportCount import_visits(Database& database, const std::vector<VisitEntry>& entries) {
  ImportCount count;
  Transaction transaction(database);
  Statement find(database, "SELECT key_digest, date, facts FROM visits WHERE visit = ?1");
  Statement write(database,
                  "INSERT INTO visits (visit, key_digest, date, facts) VALUES (?1, ?2, ?3, ?4) "
                  "ON CONFLICT (visit) DO UPDATE SET key_digest = excluded.key_digest, "
                  "date = excluded.date, facts = excluded.facts");
  for (const VisitEntry& entry : entries) {
    const std::string_view key_digest = view(entry.key_digest);
    bool known = false;
    bool as_before = false;
    {
      Rows rows = find.start(entry.visit);
      known = rows.next();
      as_before = known && rows.bytes(0) == key_digest && rows.bytes(1) == entry.date &&
                  rows.bytes(2) == entry.facts;
    }
    if (!as_before) write.run(entry.visit, Blob{key_digest}, entry.date, entry.facts);
    ++(as_before ? count.as_before : known ? count.changed : count.added);
  }
  transaction.commit();
  return count;
}

}  // namespace trowelbell::collector
