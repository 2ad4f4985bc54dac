#include "app/library.h"

namespace trowelbell {
namespace {

constexpr std::string_view kRoot = "content/";
constexpr std::string_view kIndex = "content/index.json";
constexpr JsonLimits kContentLimits{512 * 1024, 12};

void read_paths(const Reader& index, std::string_view key,
                std::map<std::string, std::string>& paths) {
  const Reader group = index.object(key);
  for (const auto& [id, path] : group.value().items()) {
    if (path.is_string() && paths.size() < 100)
      paths[id] = std::string(kRoot) + path.get_ref<const std::string&>();
  }
}

}  // namespace

void Library::open() {
  want(std::string(kIndex));
}

void Library::want(const std::string& path) {
  if (path.empty() || !asked_.insert(path).second) return;
  host_.fetch(path);
}

void Library::retry() {
  trouble_.clear();
  asked_.clear();
  open();
}

void Library::want_language(const std::string& tag) {
  wanted_languages_.insert(tag);
  if (const auto path = language_paths_.find(tag); path != language_paths_.end())
    want(path->second);
}

void Library::want_all_languages() {
  if (wanted_languages_.size() >= language_paths_.size()) return;
  for (const auto& entry : language_paths_) want_language(entry.first);
}

void Library::want_lesson(const std::string& id) {
  wanted_lessons_.insert(id);
  if (const auto path = lesson_paths_.find(id); path != lesson_paths_.end()) want(path->second);
  const auto found = lessons_.find(id);
  if (found == lessons_.end()) return;
  if (const auto path = story_paths_.find(found->second.story); path != story_paths_.end())
    want(path->second);
  for (const std::string& species : found->second.species) {
    if (const auto path = species_paths_.find(species); path != species_paths_.end())
      want(path->second);
  }
}

void Library::fetched(std::string_view path, bool ok, std::string_view text) {
  Problems problems;
  if (ok) {
    if (const auto document = parse_json(text, kContentLimits, problems))
      take(path, *document, problems);
  } else {
    problems.push_back({"", "could not be fetched"});
  }
  if (!problems.empty()) trouble_ = std::string(path) + problems[0].path + ": " + problems[0].what;
  for (const std::string& tag : wanted_languages_) want_language(tag);
  for (const std::string& id : wanted_lessons_) want_lesson(id);
}

void Library::take(std::string_view path, const Json& document, Problems& problems) {
  const std::string format = Reader(document, problems).text_or("format", 64, "");
  if (path == kIndex) {
    const Reader index(document, problems);
    if (!index.header("trowelbell.index", 1)) return;
    read_paths(index, "lessons", lesson_paths_);
    read_paths(index, "stories", story_paths_);
    read_paths(index, "species", species_paths_);
    read_paths(index, "languages", language_paths_);
    care_path_ = std::string(kRoot) + index.text("care", 200);
    indexed_ = true;
    want(care_path_);
  } else if (format == "trowelbell.language") {
    Language language = read_language(document, problems);
    if (problems.empty()) languages_.insert_or_assign(language.tag(), std::move(language));
  } else if (format == "trowelbell.care") {
    CareCards cards = read_care_cards(document, problems);
    if (problems.empty()) care_ = std::move(cards);
  } else if (format == "trowelbell.lesson") {
    Lesson lesson = read_lesson(document, problems);
    if (problems.empty()) lessons_.insert_or_assign(lesson.id, std::move(lesson));
  } else if (format == "trowelbell.story") {
    Story story = read_story(document, problems);
    if (problems.empty()) stories_.insert_or_assign(story.id, std::move(story));
  } else if (format == "trowelbell.species") {
    Species species = read_species(document, problems);
    if (problems.empty()) species_.insert_or_assign(species.id, std::move(species));
  }
}

const Language* Library::language(std::string_view tag) const {
  const auto found = languages_.find(tag);
  return found == languages_.end() ? nullptr : &found->second;
}

const Lesson* Library::lesson(const std::string& id) const {
  const auto found = lessons_.find(id);
  if (found == lessons_.end() || !stories_.contains(found->second.story)) return nullptr;
  for (const std::string& species : found->second.species) {
    if (!species_.contains(species)) return nullptr;
  }
  return &found->second;
}

std::vector<Species> Library::species(const Lesson& lesson) const {
  std::vector<Species> all;
  for (const std::string& id : lesson.species) all.push_back(species_.at(id));
  return all;
}

bool Library::lesson_unknown(const std::string& id) const {
  return indexed_ && !lesson_paths_.contains(id);
}

}  // namespace trowelbell
