#include "cli/learn_output.h"

#include <cmath>
#include <ostream>

#include "cli/words.h"

namespace trowelbell {

namespace {

std::string band_words(ClassBand band) {
  return band.to == kMostChildren ? std::to_string(band.from) + " or more"
                                  : std::to_string(band.from) + " to " + std::to_string(band.to);
}

std::string seconds_words(double seconds) {
  return minutes_seconds(static_cast<std::int64_t>(std::floor(seconds + 0.5)));
}

// "0:20 1:00 3:00": shortest, planned, longest.
std::string times_words(const StepSeconds& seconds) {
  return minutes_seconds(seconds.min) + " " + minutes_seconds(seconds.plan) + " " +
         minutes_seconds(seconds.max);
}

std::string times_words(const StepSeconds& group, const StepSeconds& per_child) {
  return times_words(group) +
         (per_child.plan > 0 ? ", each round " + times_words(per_child) : std::string());
}

void write_sample(std::ostream& out, const std::string& who, const StepSample& sample) {
  out << "    " << padded(who, 15) << right(std::to_string(sample.visits), 6);
  if (sample.seconds && sample.of_plan) {
    for (const double value : {sample.seconds->low, sample.seconds->middle, sample.seconds->high}) {
      out << right(seconds_words(value), 8);
    }
    out << "  ";
    for (const double share : {sample.of_plan->low, sample.of_plan->middle, sample.of_plan->high}) {
      out << right(std::to_string(std::lround(share * 100)), 6);
    }
  } else {
    out << "  too few";
  }
  out << '\n';
}

void write_proposal(std::ostream& out, const Step& step, const LearnedStep& learned) {
  if (step.reading) {
    out << "    the story's time comes from its pages: words and pauses\n";
    return;
  }
  out << "    lesson    " << times_words(step.seconds, step.per_child) << '\n';
  if (!learned.proposed) {
    return;
  }
  const ProposedTimes& proposed = *learned.proposed;
  const bool same = proposed.seconds == step.seconds && proposed.per_child == step.per_child;
  out << "    proposed  " << (same ? "as it is" : times_words(proposed.seconds, proposed.per_child))
      << (proposed.at_shortest ? "; the shortest stays, though the middle is less" : "") << '\n';
}

Json seconds_json(const StepSeconds& seconds) {
  return {{"min", seconds.min}, {"plan", seconds.plan}, {"max", seconds.max}};
}

Json spread_json(const std::optional<Spread>& spread) {
  return spread ? Json::array({spread->low, spread->middle, spread->high}) : Json(nullptr);
}

Json sample_json(const StepSample& sample) {
  return {{"visits", sample.visits},
          {"seconds", spread_json(sample.seconds)},
          {"of_plan", spread_json(sample.of_plan)}};
}

Json step_json(const Step& step, const LearnedStep& learned) {
  Json bands = Json::array();
  for (std::size_t band = 0; band < kClassBandCount; ++band) {
    Json entry = sample_json(learned.bands[band]);
    entry["from"] = kClassBands[band].from;
    entry["to"] = kClassBands[band].to;
    bands.push_back(std::move(entry));
  }
  Json proposed = nullptr;
  if (learned.proposed) {
    proposed = {{"seconds", seconds_json(learned.proposed->seconds)},
                {"per_child", seconds_json(learned.proposed->per_child)},
                {"at_shortest", learned.proposed->at_shortest}};
  }
  return {{"id", step.id},
          {"reading", step.reading},
          {"lesson",
           {{"seconds", seconds_json(step.seconds)}, {"per_child", seconds_json(step.per_child)}}},
          {"all", sample_json(learned.all)},
          {"bands", std::move(bands)},
          {"proposed", std::move(proposed)}};
}

}  // namespace

void write_learned_words(std::ostream& out, const LearnedResult& learned) {
  out << learned.lesson.title.en << ": "
      << counted(static_cast<std::int64_t>(learned.times.visits), "visit", "visits") << " from "
      << counted(static_cast<std::int64_t>(learned.reports), "report", "reports") << '\n';
  if (learned.left_out > 0) {
    out << counted(static_cast<std::int64_t>(learned.left_out),
                   "report could not be read and was left out",
                   "reports could not be read and were left out")
        << ": see the messages\n";
  }
  for (const std::string& step : learned.times.unknown) {
    out << "the step " << step << " was done, but the lesson no longer has it\n";
  }
  out << "Steps that were done: 10, 50 and 90 of 100 visits took at most so long; then the same "
         "in\n"
         "percent of the lesson's plan for the children and adults there were. Fewer than "
      << learned.least << " visits show nothing.\nTimes are shortest, planned, longest.\n";
  for (std::size_t i = 0; i < learned.lesson.steps.size(); ++i) {
    const Step& step = learned.lesson.steps[i];
    const LearnedStep& times = learned.times.steps[i];
    out << '\n'
        << padded(step.title.en, 30) << "  visits    10 %    50 %    90 %     % of the plan\n";
    write_sample(out, "all classes", times.all);
    for (std::size_t band = 0; band < kClassBandCount; ++band) {
      write_sample(out, band_words(kClassBands[band]), times.bands[band]);
    }
    write_proposal(out, step, times);
  }
  out << "\nThe shortest times are the lesson writer's; hurried visits do not change them. Nothing "
         "is\ntaken over unless it is written with --out and put in the lesson's place.\n";
}

void write_learned_json(std::ostream& out, const LearnedResult& learned) {
  Json steps = Json::array();
  for (std::size_t i = 0; i < learned.lesson.steps.size(); ++i) {
    steps.push_back(step_json(learned.lesson.steps[i], learned.times.steps[i]));
  }
  out << dump_json({{"lesson", learned.lesson.id},
                    {"reports", learned.reports},
                    {"left_out", learned.left_out},
                    {"visits", learned.times.visits},
                    {"least_visits", learned.least},
                    {"unknown_steps", learned.times.unknown},
                    {"steps", std::move(steps)}})
      << '\n';
}

}  // namespace trowelbell
