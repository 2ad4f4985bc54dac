#include "language.h"

#include <algorithm>
#include <span>

namespace trowelbell {

namespace {

constexpr std::size_t kMostTexts = 2000;
constexpr std::size_t kLongestText = 2000;  // bytes

bool is_key(std::string_view key) {
  return !key.empty() && key.size() <= 64 && std::all_of(key.begin(), key.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' || c == '_' || c == '-';
  });
}

bool is_tag(std::string_view tag) {
  return tag.size() >= 2 && tag.size() <= 8 && std::all_of(tag.begin(), tag.end(), [](char c) {
           return (c >= 'a' && c <= 'z') || c == '-';
         });
}

// Puts the values in, in one pass, so that braces inside a value are left alone. An unknown {name}
// stays as it is.
std::string fill(std::string_view text, std::span<const Arg> args) {
  std::string filled;
  std::size_t at = 0;
  for (;;) {
    const std::size_t open = text.find('{', at);
    const std::size_t close = text.find('}', open == std::string_view::npos ? text.size() : open);
    if (close == std::string_view::npos) {
      return filled += text.substr(at);
    }
    const std::string_view name = text.substr(open + 1, close - open - 1);
    const auto arg =
        std::find_if(args.begin(), args.end(), [&](const Arg& each) { return each.first == name; });
    filled += text.substr(at, open - at);
    filled +=
        arg == args.end() ? text.substr(open, close + 1 - open) : std::string_view{arg->second};
    at = close + 1;
  }
}

std::string day_number(Date date) {
  return std::to_string(static_cast<unsigned>(date.day()));
}

}  // namespace

Language read_language(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  Language language;
  if (!reader.header("trowelbell.language", 1)) {
    return language;
  }
  if (const std::string* tag = reader.find_text("language"); tag != nullptr && is_tag(*tag)) {
    language.tag_ = *tag;
  } else {
    reader.refuse("language", "a language tag such as \"en\": 2 to 8 of a-z and \"-\"");
  }
  const Reader texts = reader.object("texts");
  const auto* members = texts.value().get_ptr<const Json::object_t*>();
  if (members == nullptr) {
    return language;
  }
  if (members->empty() || members->size() > kMostTexts) {
    reader.problem("texts", "must have 1 to " + std::to_string(kMostTexts) + " texts");
    return language;
  }
  for (const auto& [key, value] : *members) {
    if (!is_key(key)) {
      texts.problem("", "must have keys of 1 to 64 of a-z, 0-9, \".\", \"_\" and \"-\" only");
    } else {
      language.texts_.emplace(key, texts.text(key, kLongestText, true));
    }
  }
  return language;
}

std::set<std::string> placeholders(std::string_view text) {
  std::set<std::string> names;
  for (std::size_t open = text.find('{'); open != std::string_view::npos;
       open = text.find('{', open + 1)) {
    if (const std::size_t close = text.find('}', open); close != std::string_view::npos) {
      names.emplace(text.substr(open + 1, close - open - 1));
    }
  }
  return names;
}

bool Language::has(std::string_view key) const {
  return texts_.find(key) != texts_.end();
}

std::string Language::say(std::string_view key, std::initializer_list<Arg> args) const {
  const auto found = texts_.find(key);
  return found == texts_.end() ? std::string(key) : fill(found->second, args);
}

std::string Language::count(std::string_view key, std::int64_t n,
                            std::initializer_list<Arg> args) const {
  const std::string form = std::string(key) + (n == 1 ? ".one" : ".other");
  const auto found = texts_.find(form);
  std::vector<Arg> all(args);
  all.emplace_back("n", std::to_string(n));
  return found == texts_.end() ? form : fill(found->second, all);
}

std::string Language::weekday(Date date) const {
  return say("date.weekday." + std::to_string(weekday_index(date)));
}

std::string Language::month(Date date) const {
  return say("date.month." + std::to_string(static_cast<unsigned>(date.month())));
}

std::string Language::date(Date date) const {
  return say("date.day",
             {{"weekday", weekday(date)}, {"day", day_number(date)}, {"month", month(date)}});
}

std::string Language::date_range(Date from, Date to) const {
  if (from == to) {
    return date(from);
  }
  if (from.year() == to.year() && from.month() == to.month()) {
    return say("date.range_same_month", {{"from_weekday", weekday(from)},
                                         {"from_day", day_number(from)},
                                         {"to_weekday", weekday(to)},
                                         {"to_day", day_number(to)},
                                         {"month", month(to)}});
  }
  return say("date.range", {{"from", date(from)}, {"to", date(to)}});
}

}  // namespace trowelbell
