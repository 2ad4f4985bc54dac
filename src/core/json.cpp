#include "json.h"

#include <algorithm>

#include "utf8.h"

namespace trowelbell {

namespace {

void add(Problems& problems, std::string path, std::string what) {
  if (problems.size() < kMostProblems) {
    problems.push_back({std::move(path), std::move(what)});
  }
}

// "byte 120 (line 5)", both counted from 1.
std::string place_of(std::string_view text, std::size_t byte) {
  const std::size_t end = std::min(byte, text.size());
  const auto lines =
      std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(end), '\n');
  return "byte " + std::to_string(byte + 1) + " (line " + std::to_string(lines + 1) + ")";
}

// Looks at brackets outside strings only, so that a hostile nesting is refused before anything is
// built.
bool deeper_than(std::string_view text, int most) {
  int depth = 0;
  bool in_string = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (in_string && c == '\\') {
      ++i;
    } else if (c == '"') {
      in_string = !in_string;
    } else if (!in_string && (c == '[' || c == '{') && ++depth > most) {
      return true;
    } else if (!in_string && (c == ']' || c == '}')) {
      --depth;
    }
  }
  return false;
}

// Builds the value, and refuses what the library's own builder takes silently: a name given twice
// in one object (I-JSON forbids it: two programs may read two different documents).
class Builder {
 public:
  explicit Builder(std::string_view text) : text_(text) {}

  Json root;
  std::string path;   // of the error
  std::string error;  // empty: none

  bool null() { return put(nullptr); }
  bool boolean(bool value) { return put(value); }
  bool number_integer(std::int64_t value) { return put(value); }
  bool number_unsigned(std::uint64_t value) { return put(value); }
  bool number_float(double value, const std::string&) { return put(value); }
  bool string(std::string& value) { return put(std::move(value)); }
  bool binary(Json::binary_t&) { return false; }
  bool start_object(std::size_t) { return open(Json::object()); }
  bool start_array(std::size_t) { return open(Json::array()); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }

  bool key(std::string& name) {
    auto* members = open_.back()->get_ptr<Json::object_t*>();
    const auto [member, is_new] = members->emplace(name, nullptr);
    member_ = &member->second;
    if (!is_new) {
      const bool short_and_plain =
          name.size() <= 40 &&
          std::all_of(name.begin(), name.end(), [](char c) { return c >= ' ' && c <= '~'; });
      error = std::string("gives ") + (short_and_plain ? "\"" + name + "\"" : "a name") +
              " twice in one object; each name may stand there once";
    }
    return is_new;
  }

  bool parse_error(std::size_t bytes_read, const std::string&, const Json::exception& why) {
    constexpr int kNumberOutOfRange = 406;
    const std::size_t byte = bytes_read == 0 ? 0 : bytes_read - 1;
    if (why.id == kNumberOutOfRange) {
      error = "has a number that is too large at " + place_of(text_, byte) + "; use a smaller one";
    } else if (bytes_read > text_.size()) {
      error = "stops too early, at " + place_of(text_, text_.size()) +
              "; it was probably cut off, so get it again";
    } else {
      error =
          "is not JSON: something is wrong at " + place_of(text_, byte) + "; a JSON file is needed";
    }
    return false;
  }

 private:
  Json* insert(Json value) {
    if (open_.empty()) {
      root = std::move(value);
      return &root;
    }
    if (auto* items = open_.back()->get_ptr<Json::array_t*>()) {
      return &items->emplace_back(std::move(value));
    }
    *member_ = std::move(value);
    return member_;
  }
  bool put(Json value) { return insert(std::move(value)) != nullptr; }
  bool open(Json value) {
    open_.push_back(insert(std::move(value)));
    return true;
  }
  bool close() {
    open_.pop_back();
    return true;
  }

  std::string_view text_;
  std::vector<Json*> open_;
  Json* member_ = nullptr;
};

}  // namespace

std::optional<Json> parse_json(std::string_view text, const JsonLimits& limits,
                               Problems& problems) {
  if (text.size() > limits.bytes) {
    add(problems, "",
        "is too long: " + std::to_string(text.size()) + " bytes; at most " +
            std::to_string(limits.bytes) + " are read");
    return std::nullopt;
  }
  if (text.empty()) {
    add(problems, "", "is empty; a JSON file is needed");
    return std::nullopt;
  }
  if (const std::size_t good = utf8_prefix(text); good < text.size()) {
    add(problems, "", "is not UTF-8 text at " + place_of(text, good) + "; save it as UTF-8");
    return std::nullopt;
  }
  if (deeper_than(text, limits.depth)) {
    add(problems, "",
        "is nested too deep; at most " + std::to_string(limits.depth) +
            " brackets may be open at once");
    return std::nullopt;
  }
  Builder builder(text);
  if (!Json::sax_parse(text, &builder)) {
    add(problems, "", builder.error);
    return std::nullopt;
  }
  return std::move(builder.root);
}

std::string dump_json(const Json& value) {
  return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

void add_problems(Problems& to, const Problems& from, std::string_view under) {
  for (const Problem& problem : from) {
    add(to, std::string(under) + problem.path, problem.what);
  }
}

const std::string& LocalText::in(std::string_view language) const {
  return language == "es" && !es.empty() ? es : en;
}

}  // namespace trowelbell
