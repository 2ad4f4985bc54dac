#include "lesson.h"

#include <algorithm>

#include "item_list.h"
#include "pack_cover.h"

namespace trowelbell {

namespace {

constexpr std::size_t kLongText = 600;  // bytes of one line for people
constexpr std::size_t kShortText = 120;
constexpr std::size_t kMostLines = 16;
constexpr std::size_t kMostItems = 60;

StepSeconds read_seconds(const Reader& reader) {
  StepSeconds seconds;
  seconds.min = reader.whole("min", 0, kLongestStepSeconds);
  seconds.plan = reader.whole("plan", 0, kLongestStepSeconds);
  seconds.max = reader.whole("max", 0, kLongestStepSeconds);
  if (seconds.plan < seconds.min) {
    reader.problem("plan", "must not be less than \"min\"");
  }
  if (seconds.max < seconds.plan) {
    reader.problem("max", "must not be less than \"plan\"");
  }
  return seconds;
}

void read_step_times(const Reader& reader, Step& step) {
  step.reading = reader.flag_or("reading", false);
  if (reader.has("per_child")) {
    step.per_child = read_seconds(reader.object("per_child"));
  }
  if (!step.reading) {
    step.seconds = read_seconds(reader.object("seconds"));
    if (step.seconds.plan + step.per_child.plan == 0) {
      reader.problem("seconds", "must plan at least 1 second, here or for each child");
    }
  } else if (reader.has("seconds") || reader.has("per_child")) {
    reader.problem("seconds", "must be left out of a reading step; its time comes from the story");
  }
}

Step read_step(const Reader& reader) {
  constexpr std::string_view kWho[] = {"lead", "reader", "helper", "all"};
  Step step;
  step.id = reader.id("id");
  step.title = reader.local("title", kShortText);
  step.keep = static_cast<Keep>(reader.choice("keep", {"must", "should", "may"}));
  step.worth = reader.whole_or("worth", 0, 1000, 0);
  read_step_times(reader, step);
  step.who = kWho[reader.choice("who", {"lead", "reader", "helper", "all"})];
  step.say = reader.locals("say", 0, kMostLines, kLongText);
  step.act = reader.locals("do", 0, kMostLines, kLongText);
  step.watch = reader.locals("watch", 0, kMostLines, kLongText);
  step.safety = reader.flag_or("safety", false);
  if (step.safety && step.watch.empty()) {
    reader.problem("watch", "must say what to watch for, since this is a safety step");
  }
  step.cards = reader.ids("cards", 0, kMostLines);
  step.drawing = reader.text_or("drawing", 40, "");
  step.left_with_teacher = reader.local_or_empty("left_with_teacher", kLongText);
  return step;
}

std::vector<Pack> read_packs(const Reader& reader) {
  if (!reader.has("packs")) return {{reader.whole_or("pack", 1, 10'000, 1), 0}};
  if (reader.has("pack")) reader.problem("pack", "must be left out: \"packs\" tells the sizes");
  std::vector<Pack> packs;
  reader.array("packs", 1, 6, [&](const Reader& at) {
    packs.push_back(
        {at.whole("size", 1, kLargestPackOfSeveral), at.whole("price_cents", 1, 1'000'000)});
  });
  if (packs.empty()) packs.emplace_back();
  return packs;
}

KitItem read_kit_item(const Reader& reader) {
  constexpr std::string_view kPer[] = {"child", "table", "adult", "visit"};
  KitItem item;
  item.id = reader.id("id");
  item.name = reader.local("name", kShortText);
  item.count = reader.whole("count", 1, 1000);
  item.per = kPer[reader.choice("per", {"child", "table", "adult", "visit"})];
  item.cut_parts = reader.whole_or("cut_parts", 1, 100, 1);
  item.packs = read_packs(reader);
  item.reusable = reader.flag_or("reusable", false);
  if (item.reusable && item.cut_parts > 1) {
    reader.problem("reusable", "must be left out of an item that is cut");
  }
  return item;
}

CheckItem read_check_item(const Reader& reader) {
  return {reader.id("id"), reader.local("text", kLongText)};
}

}  // namespace

Lesson read_lesson(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  Lesson lesson;
  if (!reader.header("trowelbell.lesson", 1)) {
    return lesson;
  }
  lesson.id = reader.id("id");
  lesson.title = reader.local("title", kShortText);
  lesson.story = reader.id("story");
  lesson.species = reader.ids("species", 1, 4);
  lesson.comfort_percent = reader.whole_or("comfort_percent", 1, 100, lesson.comfort_percent);
  lesson.reserve_seconds = reader.whole_or("reserve_seconds", 0, 900, lesson.reserve_seconds);
  lesson.least_adults = reader.whole_or("least_adults", 1, 20, lesson.least_adults);
  lesson.steps = read_items<Step>(reader, "steps", 1, kMostItems, read_step);
  lesson.kit = read_items<KitItem>(reader, "kit", 0, kMostItems, read_kit_item);
  lesson.ready = read_items<CheckItem>(reader, "ready", 0, kMostItems, read_check_item);
  lesson.handover = read_items<CheckItem>(reader, "handover", 0, kMostItems, read_check_item);
  if (std::count_if(lesson.steps.begin(), lesson.steps.end(),
                    [](const Step& step) { return step.reading; }) > 1) {
    reader.problem("steps", "must have at most one reading step; the story is read once");
  }
  return lesson;
}

std::size_t step_index(const Lesson& lesson, std::string_view id) {
  const auto step = std::find_if(lesson.steps.begin(), lesson.steps.end(),
                                 [&](const Step& each) { return each.id == id; });
  return static_cast<std::size_t>(step - lesson.steps.begin());
}

}  // namespace trowelbell
