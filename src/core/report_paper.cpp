#include "report_paper.h"

#include <span>

namespace trowelbell {
namespace {

class Paper {
 public:
  explicit Paper(const Language& language) : language_(language) {}

  void line(std::string_view text) { text_.append(text).append("\n"); }
  void gap() { text_ += "\n"; }
  // A name of the coordinator's page, and what it has there.
  void entry(std::string_view key, std::string_view value) {
    line(language_.say(key) + ": " + std::string(value));
  }
  const std::string& text() const { return text_; }

 private:
  const Language& language_;
  std::string text_;
};

std::string clock_words(std::int64_t at, const Brief& brief) {
  return at == 0 ? "–" : format_clock(local_minutes(at, brief.utc_offset_minutes));
}

std::string step_words(const StepFacts& step, const Lesson& lesson, const Language& language) {
  const std::size_t index = step_index(lesson, step.id);
  const std::string title =
      index < lesson.steps.size() ? lesson.steps[index].title.in(language.tag()) : step.id;
  const std::string plan = minutes_seconds(step.planned_seconds);
  switch (step.outcome) {
    case Outcome::left_out:
      return language.say("paper.step.left_out", {{"step", title}, {"plan", plan}});
    case Outcome::not_reached:
      return language.say("paper.step.not_reached", {{"step", title}, {"plan", plan}});
    case Outcome::done:
      break;
  }
  return language.say(
      "paper.step.done",
      {{"step", title}, {"plan", plan}, {"time", minutes_seconds(step.actual_seconds)}});
}

void write_children(Paper& paper, const ReportFacts& facts, const Language& language) {
  const HeadCount& c = facts.children;
  const auto n = [](std::int64_t value) { return std::to_string(value); };
  paper.entry("coordinator.report.children",
              language.say("coordinator.report.children_text", {{"places", n(c.places)},
                                                                {"present", n(c.present)},
                                                                {"late", n(c.late)},
                                                                {"left_early", n(c.left_early)},
                                                                {"absent", n(c.absent)},
                                                                {"unknown", n(c.unknown)}}));
  paper.entry("coordinator.report.adults",
              language.say("coordinator.report.adults_text",
                           {{"adults", n(facts.adults)}, {"minutes", n(facts.adult_minutes)}}));
  const KitPiles& k = facts.kits;
  paper.entry("coordinator.report.kits",
              language.say("coordinator.report.kits_text", {{"brought", n(k.brought)},
                                                            {"given", n(k.given)},
                                                            {"spoiled", n(k.spoiled)},
                                                            {"with_teacher", n(k.with_teacher)},
                                                            {"spare", n(k.spare)},
                                                            {"unaccounted", n(k.unaccounted())}}));
}

void write_mishaps(Paper& paper, const ReportFacts& facts, const CareCards& care,
                   const Language& language) {
  if (facts.mishaps.empty())
    paper.entry("coordinator.report.mishaps", language.say("coordinator.report.none"));
  else
    paper.line(language.say("coordinator.report.mishaps") + ":");
  for (const auto& [id, times] : facts.mishaps) {
    const CareCard* card = find_card(care, id);
    const std::string name = card == nullptr ? id : card->mishap.in(language.tag());
    paper.line("- " + name + ": " + std::to_string(times));
  }
}

void write_handover(Paper& paper, const Json& ticks, const ReportFacts& facts, const Lesson& lesson,
                    const Language& language) {
  paper.line(language.say("coordinator.report.handover") + ":");
  for (const auto& tick : ticks.items()) {
    std::string words = tick.key();
    for (const CheckItem& item : lesson.handover) {
      if (item.id == tick.key()) words = item.text.in(language.tag());
    }
    paper.line((tick.value() == Json(true) ? "[x] " : "[  ] ") + words);
  }
  paper.entry("coordinator.report.taken_by",
              facts.taken_by.empty()
                  ? std::string("–")
                  : language.say("coordinator.report.taken_by." + facts.taken_by));
}

// In eights: nobody reads 64 digits in one go.
std::string spaced(std::string_view digest) {
  std::string text;
  for (std::size_t at = 0; at < digest.size(); at += 8)
    text.append(at == 0 ? "" : " ").append(digest.substr(at, 8));
  return text;
}

}  // namespace

std::string report_paper(const Json& report, std::string_view digest, const Brief& brief,
                         const Lesson& lesson, const CareCards& care, const Language& language) {
  Problems problems;
  const ReportFacts facts = read_report(report, problems);
  if (!problems.empty()) return "";
  Paper paper(language);
  paper.line(language.say("report.where", {{"room", facts.room},
                                           {"school", facts.school},
                                           {"date", language.date(facts.date)}}) +
             " " + format_date(facts.date).substr(0, 4));
  paper.line(lesson.title.in(language.tag()));
  paper.line(language.say("paper.visit", {{"visit", facts.visit},
                                          {"device", facts.device},
                                          {"revision", std::to_string(facts.revision)}}));
  paper.gap();
  paper.entry("coordinator.report.time",
              clock_words(facts.began_at, brief) + " – " + clock_words(facts.ended_at, brief));
  paper.entry("paper.bell", clock_words(facts.bell_at, brief));
  write_children(paper, facts, language);
  for (const KitItem& item : lesson.kit) {
    const auto found = facts.lacking.find(item.id);
    if (found != facts.lacking.end())
      paper.line(language.say("report.lacking", {{"n", std::to_string(found->second)},
                                                 {"item", item.name.in(language.tag())}}));
  }
  write_mishaps(paper, facts, care, language);
  paper.gap();
  write_handover(paper, report["handover"], facts, lesson, language);
  paper.entry("coordinator.report.note", facts.note.empty() ? "–" : facts.note);
  paper.gap();
  paper.line(language.say("paper.steps") + ":");
  for (const StepFacts& step : facts.steps) paper.line("- " + step_words(step, lesson, language));
  paper.gap();
  paper.line(language.say("report.privacy"));
  paper.line(language.say("paper.digest") + ":");
  paper.line(spaced(digest));
  return paper.text();
}

}  // namespace trowelbell
