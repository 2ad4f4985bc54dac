// The app's own files: languages, care cards, lessons, stories, species. Fetched once, as they are
// needed.
#pragma once

#include <map>
#include <optional>
#include <set>

#include "core/care.h"
#include "core/language.h"
#include "core/lesson.h"
#include "core/species.h"
#include "core/story.h"
#include "host/host.h"

namespace trowelbell {

class Library {
 public:
  explicit Library(Host& host) : host_(host) {}

  // Asks for the index, and with it for the care cards.
  void open();
  // Asks for a language; nothing where it is here or on its way.
  void want_language(const std::string& tag);
  void want_all_languages();
  // Asks for a lesson with its story and species; nothing where they are here or on their way.
  void want_lesson(const std::string& id);
  // One file came. A file that cannot be read counts as missing and is told in `trouble`.
  void fetched(std::string_view path, bool ok, std::string_view text);
  void retry();

  const Language* language(std::string_view tag) const;
  const CareCards* care() const { return care_ ? &*care_ : nullptr; }
  // The lesson, once its story and all its species are here as well.
  const Lesson* lesson(const std::string& id) const;
  // Id of the first by name, or "" before the index is here.
  std::string first_lesson() const {
    return lesson_paths_.empty() ? "" : lesson_paths_.begin()->first;
  }
  const Story& story(const Lesson& lesson) const { return stories_.at(lesson.story); }
  std::vector<Species> species(const Lesson& lesson) const;
  bool lesson_unknown(const std::string& id) const;

  // What could not be had, as "path: reason"; empty when all is well.
  const std::string& trouble() const { return trouble_; }

 private:
  void want(const std::string& path);
  void take(std::string_view path, const Json& document, Problems& problems);

  Host& host_;
  bool indexed_ = false;
  std::map<std::string, std::string> lesson_paths_, story_paths_, species_paths_, language_paths_;
  std::string care_path_;
  std::set<std::string, std::less<>> asked_;
  std::set<std::string> wanted_lessons_, wanted_languages_;
  std::optional<CareCards> care_;
  std::map<std::string, Language, std::less<>> languages_;
  std::map<std::string, Lesson> lessons_;
  std::map<std::string, Story> stories_;
  std::map<std::string, Species> species_;
  std::string trouble_;
};

}  // namespace trowelbell
