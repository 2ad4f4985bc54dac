#include "species.h"

namespace trowelbell {

namespace {

EmergenceColumn read_column(const Reader& reader) {
  constexpr double kShortest = 0.1, kLongest = 400;  // days
  return {reader.number("celsius", -10, 60), reader.number("days", kShortest, kLongest),
          reader.number("percent", 0, 100)};
}

void read_root(const Reader& root, Species& species) {
  if (root.has("degree_days")) {
    species.root_base_celsius = root.number("base_celsius", -10, 30);
    species.root_degree_days = root.number("degree_days", 1, 1000);
    species.root_warmest_celsius = root.number("warmest_celsius", 0, 60);
    if (species.root_warmest_celsius <= species.root_base_celsius) {
      root.problem("warmest_celsius", "must be warmer than \"base_celsius\"");
    }
    return;
  }
  species.root_least_days = root.whole("least_days", 1, 60);
  species.root_most_days = root.whole("most_days", 1, 60);
  if (species.root_most_days < species.root_least_days) {
    root.problem("most_days", "must not be less than \"least_days\"");
  }
}

}  // namespace

Species read_species(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  Species species;
  if (!reader.header("trowelbell.species", 1)) {
    return species;
  }
  species.id = reader.id("id");
  species.name = reader.local("name", 80);
  species.plural = reader.local("plural", 80);
  species.legal_minimum_percent = reader.whole_or("legal_minimum_percent", 0, 100, 0);
  reader.array("emergence", 2, 12, [&](const Reader& item) {
    const EmergenceColumn column = read_column(item);
    if (!species.emergence.empty() && column.celsius <= species.emergence.back().celsius) {
      item.problem("celsius", "must be warmer than the column before it");
    }
    species.emergence.push_back(column);
  });
  read_root(reader.object("root"), species);
  species.seed_leaves_rise = reader.flag("seed_leaves_rise");
  species.sources = reader.texts("sources", 1, 20, 400);
  return species;
}

}  // namespace trowelbell
