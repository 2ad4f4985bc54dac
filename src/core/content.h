// All shipped content in one place, and whether its parts fit together.
#pragma once

#include "brief.h"
#include "care.h"
#include "county.h"
#include "index.h"
#include "language.h"
#include "lesson.h"
#include "species.h"
#include "story.h"

namespace trowelbell {

struct Content {
  std::map<std::string, Lesson, std::less<>> lessons;
  std::map<std::string, Story, std::less<>> stories;
  std::map<std::string, Species, std::less<>> species;
  std::map<std::string, Language, std::less<>> languages;
  CareCards care;
};

inline constexpr JsonLimits kContentLimits{512 * 1024, 12};

enum class ContentKind { lesson, story, species, language, care };

// One file that an index names.
struct ContentFile {
  ContentKind kind = ContentKind::lesson;
  std::string id;  // "" for the care cards
  std::string path;
};

std::vector<ContentFile> content_files(const ContentIndex& index);
// Reads one of them into `content`. Where problems are found, and where the file is not the one the
// index names, nothing is added.
void load_content(Content& content, const ContentFile& file, std::string_view text,
                  Problems& problems);

// The drawings that content may name, by where.
inline constexpr std::string_view kStepDrawings[] = {
    "sign_in",     "wave",       "circle",     "book",        "seeds",      "bag",
    "damp_cotton", "tuck_seeds", "close_bag",  "hang_window", "wash_hands", "tidy",
    "handover",    "goodbye",    "two_adults", "sprout",      "pot_soil"};
inline constexpr std::string_view kStoryDrawings[] = {
    "bean_in_hand", "pot_soil", "sun",    "rain",  "moon",         "night_window",  "root",
    "sprout",       "leaves",   "garden", "snail", "watering_can", "waiting_child", "bell"};
inline constexpr std::string_view kCareDrawings[] = {
    "small_parts", "nose_ear",   "raw_bean", "treated_seed", "allergy",    "gloves",
    "plastic_bag", "soil_hands", "spill",    "camera",       "two_adults", "phone_help"};

// What one document asks of the rest and does not find there: ids of stories, species, care cards
// and lessons, names of drawings; for a language, the keys and {names} that the English texts have.
// Paths are within that document.
Problems check_references(const Lesson& lesson, const Content& content);
Problems check_references(const Story& story);
Problems check_references(const CareCards& care);
Problems check_references(const Brief& brief, const Content& content);
Problems check_references(const County& county, const Content& content);
Problems check_references(const Language& language, const Content& content);

}  // namespace trowelbell
