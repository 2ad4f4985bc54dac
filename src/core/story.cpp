#include "story.h"

namespace trowelbell {

namespace {

StoryPage read_page(const Reader& reader) {
  StoryPage page;
  page.text = reader.local("text", 1000);
  page.prompt = reader.local_or_empty("prompt", 300);
  page.pause_seconds = reader.whole_or("pause_seconds", 0, 120, 0);
  page.picture = reader.text_or("picture", 40, "");
  return page;
}

// White space as Unicode has it, among what a story may hold: ASCII blanks and the no-break space
// (C2 A0).
std::size_t space_length(std::string_view text) {
  if (text.front() == ' ' || text.front() == '\n' || text.front() == '\t' || text.front() == '\r') {
    return 1;
  }
  return text.substr(0, 2) == "\xC2\xA0" ? 2 : 0;
}

// A letter or digit of ASCII, or any character past Latin-1's signs; so a lone dash or mark is no
// word, "a" and "n" with tilde are. Punctuation past U+00BF that Spanish and English use (dashes,
// quotes, dots) begins with the byte E2.
bool speaks(std::string_view word) {
  for (const char letter : word) {
    const auto byte = static_cast<unsigned char>(letter);
    const bool ascii =
        (byte >= '0' && byte <= '9') || ((byte | 0x20) >= 'a' && (byte | 0x20) <= 'z');
    const bool lead = byte >= 0xC3 && byte != 0xE2;
    if (ascii || lead) {
      return true;
    }
  }
  return false;
}

}  // namespace

Story read_story(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  Story story;
  if (!reader.header("trowelbell.story", 1)) {
    return story;
  }
  story.id = reader.id("id");
  story.title = reader.local("title", 120);
  reader.array("pages", 1, 60, [&](const Reader& item) { story.pages.push_back(read_page(item)); });
  return story;
}

std::int64_t count_words(std::string_view text) {
  std::int64_t words = 0;
  std::size_t begin = 0;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t space = at == text.size() ? 1 : space_length(text.substr(at));
    if (space > 0) {
      words += speaks(text.substr(begin, at - begin)) ? 1 : 0;
      begin = at + space;
    }
    at += space > 0 ? space : 1;
  }
  return words;
}

}  // namespace trowelbell
