#include <algorithm>
#include <cmath>

#include "json.h"
#include "utf8.h"

namespace trowelbell {

namespace {

// A key as one step of a JSON Pointer (RFC 6901, section 3): "~" and "/" are escaped.
std::string pointer_step(std::string_view key) {
  std::string step = "/";
  for (const char c : key) {
    if (c == '~') {
      step += "~0";
    } else if (c == '/') {
      step += "~1";
    } else {
      step += c;
    }
  }
  return step;
}

// C0 and C1 controls and DEL: none of them belongs in a text that goes to a screen, a terminal or a
// sheet.
bool has_control(std::string_view text, bool lines) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const bool c1 =
        byte == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0;
    if (c1 || byte == 0x7F || (byte < 0x20 && !(lines && byte == '\n'))) {
      return true;
    }
  }
  return false;
}

bool is_id(std::string_view text) {
  const auto letter_or_digit = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
  };
  return !text.empty() && text.size() <= 64 && letter_or_digit(text.front()) &&
         std::all_of(text.begin(), text.end(),
                     [&](char c) { return letter_or_digit(c) || c == '-'; });
}

std::string shown(double value) {
  std::string text = Json(value).dump();
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  return text;
}

const Json& nothing() {
  static const Json null;
  return null;
}

bool is_blank(const Reader& reader, std::string_view key) {
  const std::string* text = reader.find_text(key);
  return !reader.has(key) || (text != nullptr && text->empty());
}

}  // namespace

Reader::Reader(const Json& value, Problems& problems, std::string path)
    : value_(&value), problems_(&problems), path_(std::move(path)) {}

const Json* Reader::find(std::string_view key) const {
  if (key.empty()) {
    return value_;
  }
  const auto* members = value_->get_ptr<const Json::object_t*>();
  if (members == nullptr) {
    return nullptr;
  }
  const auto member = members->find(key);
  return member == members->end() ? nullptr : &member->second;
}

const std::string* Reader::find_text(std::string_view key) const {
  const Json* found = find(key);
  return found == nullptr ? nullptr : found->get_ptr<const std::string*>();
}

void Reader::problem(std::string_view key, std::string what) const {
  std::string path = key.empty() ? path_ : path_ + pointer_step(key);
  const bool told = std::any_of(problems_->begin(), problems_->end(),
                                [&](const Problem& other) { return other.path == path; });
  if (!told && problems_->size() < kMostProblems) {
    problems_->push_back({std::move(path), std::move(what)});
  }
}

void Reader::refuse(std::string_view key, const std::string& allowed) const {
  if (has(key)) {
    problem(key, "must be " + allowed);
  } else if (!value_->is_object()) {
    problem("", "must be an object: { ... }");
  } else {
    problem(key, "is missing; it must be " + allowed);
  }
}

bool Reader::header(std::string_view format, int newest_version) const {
  const std::size_t before = problems_->size();
  const std::string* name = find_text("format");
  if (name == nullptr || *name != format) {
    refuse("format", "\"" + std::string(format) + "\"");
    return false;
  }
  constexpr std::int64_t kAnyVersion = 1'000'000;
  const std::int64_t version = whole("version", 1, kAnyVersion);
  if (version > newest_version) {
    problem("version",
            "is " + std::to_string(version) + ", which is newer than this program knows (" +
                std::to_string(newest_version) + "); update the program, then open it again");
  }
  return problems_->size() == before;
}

std::string Reader::text(std::string_view key, std::size_t most, bool lines) const {
  const std::string* text = find_text(key);
  if (text == nullptr || text->empty() || text->size() > most || !is_utf8(*text) ||
      has_control(*text, lines)) {
    refuse(key, "text of 1 to " + std::to_string(most) + " bytes" + (lines ? "" : " on one line") +
                    ", without control characters");
    return "";
  }
  return *text;
}

std::string Reader::text_or(std::string_view key, std::size_t most, std::string fallback,
                            bool lines) const {
  return is_blank(*this, key) ? std::move(fallback) : text(key, most, lines);
}

std::string Reader::id(std::string_view key) const {
  const std::string* text = find_text(key);
  if (text == nullptr || !is_id(*text)) {
    refuse(key, "an id: 1 to 64 of a-z, 0-9 and \"-\", beginning with a letter or digit");
    return "";
  }
  return *text;
}

std::string Reader::id_or(std::string_view key, std::string fallback) const {
  return is_blank(*this, key) ? std::move(fallback) : id(key);
}

std::int64_t Reader::whole(std::string_view key, std::int64_t least, std::int64_t most) const {
  const Json* found = find(key);
  std::optional<std::int64_t> value;
  if (found != nullptr && found->is_number_unsigned()) {
    const auto large = *found->get_ptr<const std::uint64_t*>();
    if (large <= static_cast<std::uint64_t>(INT64_MAX)) {
      value = static_cast<std::int64_t>(large);
    }
  } else if (found != nullptr && found->is_number_integer()) {
    value = *found->get_ptr<const std::int64_t*>();
  }
  if (!value || *value < least || *value > most) {
    refuse(key, "a whole number from " + std::to_string(least) + " to " + std::to_string(most) +
                    ", without quotes or a decimal point");
    return least;
  }
  return *value;
}

std::int64_t Reader::whole_or(std::string_view key, std::int64_t least, std::int64_t most,
                              std::int64_t fallback) const {
  return has(key) ? whole(key, least, most) : fallback;
}

double Reader::number(std::string_view key, double least, double most) const {
  const Json* found = find(key);
  const double value = found != nullptr && found->is_number() ? found->get<double>() : NAN;
  if (!(value >= least && value <= most)) {
    refuse(key, "a number from " + shown(least) + " to " + shown(most) + ", without quotes");
    return least;
  }
  return value;
}

double Reader::number_or(std::string_view key, double least, double most, double fallback) const {
  return has(key) ? number(key, least, most) : fallback;
}

bool Reader::flag(std::string_view key) const {
  const Json* found = find(key);
  const auto* value = found == nullptr ? nullptr : found->get_ptr<const bool*>();
  if (value == nullptr) {
    refuse(key, "true or false, without quotes");
    return false;
  }
  return *value;
}

bool Reader::flag_or(std::string_view key, bool fallback) const {
  return has(key) ? flag(key) : fallback;
}

std::size_t Reader::choice(std::string_view key,
                           std::initializer_list<std::string_view> allowed) const {
  const std::string* text = find_text(key);
  const auto* match =
      text == nullptr ? allowed.end() : std::find(allowed.begin(), allowed.end(), *text);
  if (match == allowed.end()) {
    std::string list;
    for (const auto name : allowed) {
      list += (list.empty() ? "\"" : ", \"") + std::string(name) + "\"";
    }
    refuse(key, "one of " + list);
    return 0;
  }
  return static_cast<std::size_t>(match - allowed.begin());
}

LocalText Reader::local(std::string_view key, std::size_t most) const {
  const Json* found = find(key);
  if (found == nullptr || !found->is_object()) {
    refuse(key, "text by language: { \"en\": \"...\", \"es\": \"...\" }");
    return {};
  }
  const Reader inside(*found, *problems_, key.empty() ? path_ : path_ + pointer_step(key));
  return {inside.text("en", most, true), inside.text_or("es", most, "", true)};
}

LocalText Reader::local_or_empty(std::string_view key, std::size_t most) const {
  return has(key) ? local(key, most) : LocalText{};
}

Reader Reader::object(std::string_view key) const {
  const Json* found = find(key);
  const bool good = found != nullptr && found->is_object();
  if (!good) {
    refuse(key, "an object: { ... }");
  }
  return {good ? *found : nothing(), *problems_, path_ + pointer_step(key)};
}

void Reader::array(std::string_view key, std::size_t least, std::size_t most,
                   const std::function<void(const Reader&)>& each) const {
  const Json* found = find(key);
  if (found == nullptr && least == 0 && value_->is_object()) {
    return;
  }
  const auto* items = found == nullptr ? nullptr : found->get_ptr<const Json::array_t*>();
  if (items == nullptr || items->size() < least || items->size() > most) {
    refuse(key, "a list of " + std::to_string(least) + " to " + std::to_string(most) +
                    " items: [ ... ]");
    return;
  }
  const std::string path = path_ + pointer_step(key);
  for (std::size_t i = 0; i < items->size(); ++i) {
    each(Reader((*items)[i], *problems_, path + "/" + std::to_string(i)));
  }
}

std::vector<std::string> Reader::ids(std::string_view key, std::size_t least,
                                     std::size_t most) const {
  std::vector<std::string> all;
  array(key, least, most, [&](const Reader& item) { all.push_back(item.id("")); });
  return all;
}

std::vector<std::string> Reader::texts(std::string_view key, std::size_t least, std::size_t most,
                                       std::size_t most_bytes) const {
  std::vector<std::string> all;
  array(key, least, most, [&](const Reader& item) { all.push_back(item.text("", most_bytes)); });
  return all;
}

std::vector<LocalText> Reader::locals(std::string_view key, std::size_t least, std::size_t most,
                                      std::size_t most_bytes) const {
  std::vector<LocalText> all;
  array(key, least, most, [&](const Reader& item) { all.push_back(item.local("", most_bytes)); });
  return all;
}

}  // namespace trowelbell
