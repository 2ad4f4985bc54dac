#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <cmath>
#include <memory>
#include <ostream>

#include "cli/visit_files.h"
#include "cli/warmth.h"
#include "cli/words.h"
#include "core/germination.h"
#include "core/sprouting.h"

namespace trowelbell {

namespace {

struct Options : VisitOptions {
  std::string sown;
  std::string day, night, closed;    // warmth, "": the brief's
  std::vector<std::string> packets;  // "garden-bean=85"
  std::int64_t seeds = 2;            // of each kind in a bag
  std::int64_t assurance = 95;       // percent
};

constexpr std::string_view kWarmthNames[] = {"known", "too_cold", "too_warm"};

// Percents on packets, by species id; nothing where one is not written as ID=PERCENT.
using Packets = std::map<std::string, std::int64_t, std::less<>>;
std::optional<Packets> read_packets(const std::vector<std::string>& texts) {
  Packets packets;
  for (const std::string& text : texts) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos) {
      return std::nullopt;
    }
    std::int64_t percent = 0;
    const char* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data() + equals + 1, end, percent);
    if (read.ec != std::errc() || read.ptr != end || percent < 1 || percent > 100) {
      return std::nullopt;
    }
    packets[text.substr(0, equals)] = percent;
  }
  return packets;
}

struct Kind {
  const Species* species;
  SproutForecast forecast;
  std::int64_t percent = 0;  // of seeds to plan with
  std::optional<std::int64_t> least_seeds;
};

struct Outlook {
  Brief brief;
  std::vector<Kind> kinds;
  std::vector<SeedLot> bag;  // of the kinds that can grow here
};

Outlook make_outlook(const VisitFiles& files, const Brief& brief, const Options& options,
                     const Packets& packets) {
  Outlook outlook{brief, {}, {}};
  for (const Species& species : files.species) {
    Kind kind{&species, forecast(species, brief), 0, std::nullopt};
    if (kind.forecast.warmth == Warmth::known) {
      const auto packet = packets.find(species.id);
      kind.percent =
          planning_percent(species, brief.warmth,
                           packet == packets.end() ? std::nullopt : std::optional(packet->second));
      const double rate = static_cast<double>(kind.percent) / 100;
      kind.least_seeds =
          least_seeds(rate, brief.children, static_cast<double>(options.assurance) / 100);
      outlook.bag.push_back({rate, options.seeds});
    }
    outlook.kinds.push_back(std::move(kind));
  }
  return outlook;
}

std::optional<std::int64_t> spare_bags(const Outlook& outlook, const Options& options) {
  return least_spares(outlook.bag, outlook.brief.children,
                      static_cast<double>(options.assurance) / 100);
}

std::string range_words(const DayRange& range) {
  return format_date(range.earliest) + " to " + format_date(range.latest) + ", about " +
         format_date(range.middle);
}

std::string count_or_more(std::optional<std::int64_t> count, std::int64_t most) {
  return count ? std::to_string(*count) : "more than " + std::to_string(most);
}

void write_kind(std::ostream& out, const Kind& kind, const Options& options) {
  const std::string& name = kind.species->plural.en;
  if (kind.forecast.warmth != Warmth::known) {
    out << name << ": this room is "
        << (kind.forecast.warmth == Warmth::too_cold ? "too cold" : "too warm")
        << "; the published tables give no date\n";
    return;
  }
  out << name << '\n'
      << "  first root  " << range_words(kind.forecast.root) << '\n'
      << "  leaves out  " << range_words(kind.forecast.leaves) << '\n'
      << "  plan with   " << kind.percent << " of 100 seeds; with nothing else in the bags, "
      << count_or_more(kind.least_seeds, kMostSeeds) << " a child, to be " << options.assurance
      << " % sure that every child has a sprout\n";
}

// The chance that more than 0, 1, 2 and 3 children are without.
Json more_json(const Outlook& outlook) {
  Json list = Json::array();
  for (std::int64_t k = 0; k <= 3; ++k) {
    list.push_back(chance_of_more_without(outlook.bag, k, outlook.brief.children));
  }
  return list;
}

void write_words(std::ostream& out, const Outlook& outlook, const Options& options) {
  const Brief& brief = outlook.brief;
  out << plain(brief.school) << ", " << plain(brief.room) << ", sown " << format_date(brief.date)
      << "; room " << warmth_words(brief.warmth.day) << " by day, "
      << warmth_words(brief.warmth.night) << " by night, " << warmth_words(brief.warmth.closed)
      << " without school\n\n";
  for (const Kind& kind : outlook.kinds) {
    write_kind(out, kind, options);
  }
  if (!outlook.bag.empty()) {
    out << "\nBags with " << options.seeds << " of each kind, " << brief.children << " children\n"
        << "  a bag shows a sprout: " << percent_words(chance_of_sprout(outlook.bag)) << "; all "
        << brief.children
        << " bags: " << percent_words(chance_in_every_bag(outlook.bag, brief.children)) << '\n'
        << "  without a sprout: "
        << tenths(std::lround(expected_without(outlook.bag, brief.children) * 10)) << " of "
        << brief.children << " children on average; more than 1 with "
        << percent_words(chance_of_more_without(outlook.bag, 1, brief.children))
        << ", more than 2 with "
        << percent_words(chance_of_more_without(outlook.bag, 2, brief.children)) << '\n'
        << "  spare bags to start, to be " << options.assurance
        << " % sure: " << count_or_more(spare_bags(outlook, options), kMostSparePots) << '\n';
  }
  out << "\nDates are ranges, not promises. Mould, cold and drying out strike all seeds of a bag "
         "at "
         "once;\nthe chances here are the hopeful side.\n";
}

Json range_json(const DayRange& range) {
  return {{"earliest", format_date(range.earliest)},
          {"middle", format_date(range.middle)},
          {"latest", format_date(range.latest)}};
}

Json count_json(std::optional<std::int64_t> count) {
  return count ? Json(*count) : Json(nullptr);
}

void write_json(std::ostream& out, const Outlook& outlook, const Options& options) {
  Json kinds = Json::array();
  for (const Kind& kind : outlook.kinds) {
    Json entry = {{"id", kind.species->id},
                  {"warmth", kWarmthNames[static_cast<std::size_t>(kind.forecast.warmth)]}};
    if (kind.forecast.warmth == Warmth::known) {
      entry["root"] = range_json(kind.forecast.root);
      entry["leaves"] = range_json(kind.forecast.leaves);
      entry["percent"] = kind.percent;
      entry["least_seeds"] = count_json(kind.least_seeds);
    }
    kinds.push_back(std::move(entry));
  }
  Json document = {{"visit", outlook.brief.visit},
                   {"sown", format_date(outlook.brief.date)},
                   {"children", outlook.brief.children},
                   {"room",
                    {{"day", warmth_json(outlook.brief.warmth.day)},
                     {"night", warmth_json(outlook.brief.warmth.night)},
                     {"closed", warmth_json(outlook.brief.warmth.closed)}}},
                   {"assurance_percent", options.assurance},
                   {"species", std::move(kinds)}};
  if (!outlook.bag.empty()) {
    document["bag"] = {{"seeds_of_each", options.seeds},
                       {"sprout", chance_of_sprout(outlook.bag)},
                       {"every_kind", chance_of_every_kind(outlook.bag)},
                       {"every_bag", chance_in_every_bag(outlook.bag, outlook.brief.children)},
                       {"expected_without", expected_without(outlook.bag, outlook.brief.children)},
                       {"more_without_than", more_json(outlook)},
                       {"spare_bags", count_json(spare_bags(outlook, options))}};
  }
  out << dump_json(document) << '\n';
}

// The brief, with what the call says instead.
std::optional<Brief> changed_brief(const Brief& brief, const Options& options,
                                   const Streams& streams) {
  Brief changed = brief;
  if (!options.sown.empty()) {
    const auto date = parse_date(options.sown);
    if (!date) {
      streams.err << "trowelbell sprouts: --sown must be a date that exists, as YYYY-MM-DD\n";
      return std::nullopt;
    }
    changed.date = *date;
  }
  RoomWarmth& warmth = changed.warmth;
  for (const auto& [text, part] : {std::pair(&options.day, &warmth.day),
                                   {&options.night, &warmth.night},
                                   {&options.closed, &warmth.closed}}) {
    const auto celsius = text->empty() ? *part : parse_warmth(*text);
    if (!celsius) {
      streams.err << "trowelbell sprouts: \"" << plain(*text)
                  << "\" must be a room's warmth from 0 to 40 C, as 21C or 70F\n";
      return std::nullopt;
    }
    *part = *celsius;
  }
  return changed;
}

Status sprouts(const Options& options, const Streams& streams) {
  const auto packets = read_packets(options.packets);
  if (!packets) {
    streams.err << "trowelbell sprouts: --packet must be a species id and 1 to 100 percent, as "
                   "garden-bean=85\n";
    return Status::call_at_fault;
  }
  Status status = Status::done;
  const auto files = read_visit_files(options, streams, status);
  if (!files) {
    return status;
  }
  for (const auto& [id, percent] : *packets) {
    const auto same = [&id = id](const Species& species) { return species.id == id; };
    if (std::none_of(files->species.begin(), files->species.end(), same)) {
      streams.err << "trowelbell sprouts: --packet names \"" << plain(id)
                  << "\", which this lesson does not sow\n";
      return Status::call_at_fault;
    }
  }
  const auto brief = changed_brief(files->brief, options, streams);
  if (!brief) {
    return Status::call_at_fault;
  }
  const Outlook outlook = make_outlook(*files, *brief, options, *packets);
  options.json ? write_json(streams.out, outlook, options)
               : write_words(streams.out, outlook, options);
  return Status::done;
}

}  // namespace

void add_sprouts(CLI::App& app, const Streams& streams, Status& status) {
  const auto options = std::make_shared<Options>();
  CLI::App* command = app.add_subcommand(
      "sprouts", "Says when roots and leaves are due in the room, and how many seeds it takes");
  add_brief_options(*command, *options);
  command->add_option("--sown", options->sown, "Sown on this day instead: YYYY-MM-DD")
      ->type_name("DATE");
  const auto warmth = [&](const char* name, std::string& value, const char* help) {
    command->add_option(name, value, help)->type_name("WARMTH");
  };
  warmth("--day", options->day, "Warmth in school hours instead: 21C or 70F");
  warmth("--night", options->night, "Warmth at night instead");
  warmth("--closed", options->closed, "Warmth on days without school instead");
  command
      ->add_option("--packet", options->packets,
                   "Percent printed on a seed packet; may be given again")
      ->type_name("SPECIES=PERCENT");
  command->add_option("--seeds", options->seeds, "Seeds of each kind in a bag (default: 2)")
      ->type_name("N")
      ->check(CLI::Range(1, 50));
  command->add_option("--assurance", options->assurance, "How sure to be, in percent (default: 95)")
      ->type_name("PERCENT")
      ->check(CLI::Range(1, 99));
  command->footer(
      "How the numbers come about: METHODS.md in the content folder.\n\n"
      "Example: the dates of a visit\n"
      "  trowelbell sprouts --brief maple-12.brief.json\n"
      "Example: what a cold weekend and a fresh packet change\n"
      "  trowelbell sprouts --brief maple-12.brief.json --closed 54F --packet garden-bean=92");
  command->callback([options, &streams, &status] { status = sprouts(*options, streams); });
}

}  // namespace trowelbell
