// No English word is left on a Spanish screen: every word that the app says is looked up among the
// words of its English and its Spanish texts.
#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <set>

#include "tests/app/walk.h"

namespace trowelbell {
namespace {

using Words = std::set<std::string, std::less<>>;

// Words of two letters and more, in lower case as far as ASCII goes; {placeholders} are none.
void add_words(std::string_view text, Words& words) {
  std::string word;
  bool placeholder = false;
  for (const char c : std::string(text) + " ") {
    const bool letter = (c & 0x80) != 0 || std::isalpha(static_cast<unsigned char>(c)) != 0;
    if (letter && !placeholder) {
      word += static_cast<char>((c & 0x80) != 0 ? c : std::tolower(static_cast<unsigned char>(c)));
    } else {
      if (word.size() > 1) words.insert(word);
      word.clear();
    }
    placeholder = c == '{' || (placeholder && c != '}');
  }
}

// All texts of a document of content/, by language; in a language file all are of its own.
void add_texts(const Json& json, const std::string& file_language, Words& english, Words& spanish) {
  if (json.is_string() && !file_language.empty())
    add_words(json.get_ref<const std::string&>(), file_language == "en" ? english : spanish);
  if (!json.is_structured()) return;
  for (const auto& [key, value] : json.items()) {
    const bool local = value.is_string() && (key == "en" || key == "es");
    add_texts(value, local ? key : file_language, english, spanish);
  }
}

Words only_english() {
  Words english, spanish, only;
  const std::filesystem::path content = TROWELBELL_CONTENT_DIR;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(content)) {
    const auto folder = entry.path().parent_path().filename();
    if (entry.path().extension() != ".json" || folder == "schema" || folder == "demo") continue;
    std::ifstream in(entry.path());
    const Json json = Json::parse(in, nullptr, false);
    REQUIRE(!json.is_discarded());
    if (folder == "lang") {
      add_texts(json["texts"], entry.path().stem().string(), english, spanish);
    } else {
      add_texts(json, "", english, spanish);
    }
  }
  std::set_difference(english.begin(), english.end(), spanish.begin(), spanish.end(),
                      std::inserter(only, only.end()));
  return only;
}

// What people wrote stands in the language they wrote it in; here it is in none.
Brief wordless_brief() {
  Brief brief = demo_brief();
  brief.school = "Qx";
  brief.room = "7";
  brief.sponsor = "Zq";
  brief.school_asks = {"Qxz"};
  brief.sheet_language = "es";
  return brief;
}

// A key without a text is shown as it is.
bool looks_like_key(std::string_view text) {
  constexpr std::string_view kOfKeys = "abcdefghijklmnopqrstuvwxyz_.0123456789";
  return text.find('.') != std::string_view::npos && text.back() != '.' && text.front() >= 'a' &&
         text.find_first_not_of(kOfKeys) == std::string_view::npos;
}

// Said in English on purpose: the language's own name.
const Words kAllowed = {"english"};

TEST_CASE("no English word is left on a Spanish screen") {
  const Words english = only_english();
  CHECK(english.size() > 300);
  for (const char* word : {"undo", "lesson", "handed", "nobody"}) CHECK(english.contains(word));
  Words seen;
  MemoryStore store;
  DemoPhone phone(store, 390, 844, "es-MX");
  walk_visit(phone, wordless_brief(), 0, 60, [&](const DemoPhone& screen) {
    for (const Node& node : screen.app.nodes()) {
      for (const std::string& text : {node.name, node.value, node.hint}) {
        CAPTURE(text);
        CHECK((text.empty() || !looks_like_key(text)));
        Words words;
        add_words(text, words);
        for (const std::string& word : words) {
          seen.insert(word);
          INFO(node.id << ": " << text);
          CHECK((kAllowed.contains(word) || !english.contains(word)));
        }
      }
    }
  });
  for (const auto& said : phone.host.announcements) {
    Words words;
    add_words(said.text, words);
    CAPTURE(said.text);
    CHECK(std::none_of(words.begin(), words.end(),
                       [&](const std::string& word) { return english.contains(word); }));
  }
  CHECK(seen.size() > 500);  // it has walked somewhere
}

}  // namespace
}  // namespace trowelbell
