#include "content.h"

#include <algorithm>
#include <span>

namespace trowelbell {

namespace {

void add_files(std::vector<ContentFile>& files, ContentKind kind, const ContentPaths& paths) {
  for (const auto& [id, path] : paths) {
    files.push_back({kind, id, path});
  }
}

// Keeps what was read if it is free of problems and is what the index calls it.
template <class Item>
void keep(std::map<std::string, Item, std::less<>>& items, const ContentFile& file, Item item,
          const std::string& id, std::string_view field, Problems& found) {
  if (found.empty() && id != file.id) {
    found.push_back(
        {"/" + std::string(field), "must be \"" + file.id + "\", as the index calls this file"});
  }
  if (found.empty()) {
    items.insert_or_assign(file.id, std::move(item));
  }
}

std::string item_path(std::string_view list, std::size_t index, std::string_view field) {
  std::string path(1, '/');
  path.append(list).append("/").append(std::to_string(index)).append("/").append(field);
  return path;
}

template <class Item>
std::string known_ids(const std::map<std::string, Item, std::less<>>& items) {
  std::string list;
  for (const auto& entry : items) {
    list += (list.empty() ? "\"" : ", \"") + entry.first + "\"";
  }
  return list.empty() ? "there is none" : "there is " + list;
}

template <class Item>
void want(const std::map<std::string, Item, std::less<>>& items, const std::string& id,
          std::string path, std::string_view noun, Problems& problems) {
  if (items.find(id) == items.end()) {
    add_problems(problems,
                 {{std::move(path), "names the " + std::string(noun) + " \"" + id +
                                        "\", which is not in the content; " + known_ids(items)}});
  }
}

void want_drawing(std::span<const std::string_view> drawings, const std::string& name,
                  std::string path, Problems& problems) {
  if (name.empty() || std::find(drawings.begin(), drawings.end(), name) != drawings.end()) {
    return;
  }
  std::string list;
  for (const auto drawing : drawings) {
    list += (list.empty() ? "" : ", ") + std::string(drawing);
  }
  add_problems(problems,
               {{std::move(path), "is not the name of a drawing here; there are " + list}});
}

}  // namespace

std::vector<ContentFile> content_files(const ContentIndex& index) {
  std::vector<ContentFile> files;
  add_files(files, ContentKind::lesson, index.lessons);
  add_files(files, ContentKind::story, index.stories);
  add_files(files, ContentKind::species, index.species);
  add_files(files, ContentKind::language, index.languages);
  files.push_back({ContentKind::care, "", index.care});
  return files;
}

void load_content(Content& content, const ContentFile& file, std::string_view text,
                  Problems& problems) {
  Problems found;
  if (const auto document = parse_json(text, kContentLimits, found)) {
    switch (file.kind) {
      case ContentKind::lesson: {
        Lesson lesson = read_lesson(*document, found);
        const std::string id = lesson.id;
        keep(content.lessons, file, std::move(lesson), id, "id", found);
        break;
      }
      case ContentKind::story: {
        Story story = read_story(*document, found);
        const std::string id = story.id;
        keep(content.stories, file, std::move(story), id, "id", found);
        break;
      }
      case ContentKind::species: {
        Species species = read_species(*document, found);
        const std::string id = species.id;
        keep(content.species, file, std::move(species), id, "id", found);
        break;
      }
      case ContentKind::language: {
        Language language = read_language(*document, found);
        const std::string tag = language.tag();
        keep(content.languages, file, std::move(language), tag, "language", found);
        break;
      }
      case ContentKind::care: {
        CareCards care = read_care_cards(*document, found);
        if (found.empty()) {
          content.care = std::move(care);
        }
        break;
      }
    }
  }
  add_problems(problems, found);
}

Problems check_references(const Lesson& lesson, const Content& content) {
  Problems problems;
  want(content.stories, lesson.story, "/story", "story", problems);
  for (std::size_t i = 0; i < lesson.species.size(); ++i) {
    want(content.species, lesson.species[i], "/species/" + std::to_string(i), "species", problems);
  }
  for (std::size_t i = 0; i < lesson.steps.size(); ++i) {
    const Step& step = lesson.steps[i];
    for (std::size_t card = 0; card < step.cards.size(); ++card) {
      if (find_card(content.care, step.cards[card]) == nullptr) {
        add_problems(problems, {{item_path("steps", i, "cards/" + std::to_string(card)),
                                 "names the care card \"" + step.cards[card] +
                                     "\", which is not in the content"}});
      }
    }
    want_drawing(kStepDrawings, step.drawing, item_path("steps", i, "drawing"), problems);
  }
  return problems;
}

Problems check_references(const Story& story) {
  Problems problems;
  for (std::size_t i = 0; i < story.pages.size(); ++i) {
    want_drawing(kStoryDrawings, story.pages[i].picture, item_path("pages", i, "picture"),
                 problems);
  }
  return problems;
}

Problems check_references(const CareCards& care) {
  Problems problems;
  for (std::size_t i = 0; i < care.cards.size(); ++i) {
    want_drawing(kCareDrawings, care.cards[i].drawing, item_path("cards", i, "drawing"), problems);
  }
  return problems;
}

Problems check_references(const Brief& brief, const Content& content) {
  Problems problems;
  want(content.lessons, brief.lesson, "/lesson", "lesson", problems);
  return problems;
}

Problems check_references(const County& county, const Content& content) {
  Problems problems;
  for (std::size_t i = 0; i < county.visits.size(); ++i) {
    want(content.lessons, county.visits[i].lesson, item_path("visits", i, "lesson"), "lesson",
         problems);
  }
  return problems;
}

Problems check_references(const Language& language, const Content& content) {
  Problems problems;
  const auto english = content.languages.find("en");
  if (english == content.languages.end()) {
    return {{"", "cannot be compared: the English texts are not in the content"}};
  }
  for (const auto& [key, text] : english->second.texts()) {
    if (!language.has(key)) {
      add_problems(problems, {{"/texts/" + key, "is missing; the English texts have it"}});
    } else if (placeholders(language.say(key)) != placeholders(text)) {
      add_problems(problems,
                   {{"/texts/" + key, "must have the same {names} in braces as the English text"}});
    }
  }
  for (const auto& entry : language.texts()) {
    if (!english->second.has(entry.first)) {
      add_problems(problems, {{"/texts/" + entry.first,
                               "is not among the English texts; add it there or remove it here"}});
    }
  }
  return problems;
}

}  // namespace trowelbell
