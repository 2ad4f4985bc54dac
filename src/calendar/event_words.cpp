#include "calendar/event_words.h"

#include <libical/ical.h>

#include <algorithm>

namespace trowelbell {

namespace {

bool is_letter_or_digit(char c) {
  // Bytes of characters beyond ASCII count as letters: "ó" does.
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || static_cast<unsigned char>(c) >= 0x80;
}

// In small letters: ASCII, and the Latin-1 letters, which UTF-8 writes as C3 80 to C3 9E.
std::string small(std::string_view text) {
  std::string out(text);
  for (std::size_t i = 0; i < out.size(); ++i) {
    const auto byte = static_cast<unsigned char>(out[i]);
    const bool latin = i > 0 && static_cast<unsigned char>(out[i - 1]) == 0xC3 && byte >= 0x80 &&
                       byte <= 0x9E && byte != 0x97;
    if (latin || (byte >= 'A' && byte <= 'Z')) out[i] = static_cast<char>(byte + 0x20);
  }
  return out;
}

// Whether `words` stand in `text` as whole words: "break" is not in "Breakfast".
bool stands_in(std::string_view text, std::string_view words) {
  for (std::size_t at = text.find(words); at != std::string_view::npos && !words.empty();
       at = text.find(words, at + 1)) {
    const std::size_t end = at + words.size();
    if ((at == 0 || !is_letter_or_digit(text[at - 1])) &&
        (end == text.size() || !is_letter_or_digit(text[end]))) {
      return true;
    }
  }
  return false;
}

bool says(const EventWords& event, const std::vector<std::string>& words) {
  return std::any_of(words.begin(), words.end(), [&](const std::string& each) {
    const std::string wanted = small(each);
    const auto has = [&](const std::string& text) { return stands_in(small(text), wanted); };
    return has(event.summary) || std::any_of(event.categories.begin(), event.categories.end(), has);
  });
}

}  // namespace

EventWords words_of(icalcomponent* event) {
  EventWords words;
  for (icalproperty* at = icalcomponent_get_first_property(event, ICAL_ANY_PROPERTY); at != nullptr;
       at = icalcomponent_get_next_property(event, ICAL_ANY_PROPERTY)) {
    const auto kind = icalproperty_isa(at);
    const char* text = kind == ICAL_SUMMARY_PROPERTY      ? icalproperty_get_summary(at)
                       : kind == ICAL_CATEGORIES_PROPERTY ? icalproperty_get_categories(at)
                                                          : nullptr;
    if (text == nullptr) continue;
    if (kind == ICAL_SUMMARY_PROPERTY) {
      words.summary = text;
    } else {
      words.categories.emplace_back(text);
    }
  }
  return words;
}

DayKind kind_of(const EventWords& words, const CalendarFile& calendar) {
  if (says(words, calendar.half_day_words)) return DayKind::half_day;
  return says(words, calendar.closed_words) ? DayKind::closed : DayKind::other;
}

std::string shortened(std::string text, std::size_t most) {
  if (text.size() > most) {
    std::size_t end = most;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
    text.resize(end);
  }
  return text;
}

}  // namespace trowelbell
