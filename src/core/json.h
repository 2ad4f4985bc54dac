// Reading untrusted JSON without exceptions: bounded parsing, and a cursor that names what is wrong
// and where.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <initializer_list>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace trowelbell {

using Json = nlohmann::json;

// 2^53 - 1: no document has a larger whole number, so that it is the same number in a browser too.
inline constexpr std::int64_t kLargestExact = 9'007'199'254'740'991;

// One thing wrong with a document. `path` is a JSON Pointer (RFC 6901; "" is the whole document);
// `what` is one plain English sentence that also says what is allowed.
struct Problem {
  std::string path;
  std::string what;
  bool operator==(const Problem&) const = default;
};
using Problems = std::vector<Problem>;

// At most this many problems are collected; a hostile file must not make a huge answer.
inline constexpr std::size_t kMostProblems = 50;
// Adds problems found in a part of a document, with the part's path put before theirs.
void add_problems(Problems& to, const Problems& from, std::string_view under = "");

struct JsonLimits {
  std::size_t bytes = 1024 * 1024;
  int depth = 16;
};

// The document, or nothing and one problem: too long, not UTF-8, too deep, cut off, not JSON (with
// the byte where), or a name given twice in one object.
std::optional<Json> parse_json(std::string_view text, const JsonLimits& limits, Problems& problems);

// The one way JSON leaves the program: keys sorted by their bytes, no white space, ill-formed UTF-8
// replaced. Same value, same bytes. With ASCII keys and whole numbers within 2^53 it is RFC 8785's
// canonical form; not otherwise.
std::string dump_json(const Json& value);

// Text for people by language tag ("en", "es"). English is always there.
struct LocalText {
  std::string en;
  std::string es;
  // The text in `language`, or in English where that is empty or unknown.
  const std::string& in(std::string_view language) const;
  bool empty() const { return en.empty() && es.empty(); }
  bool operator==(const LocalText&) const = default;
};

// A cursor on one JSON value. Every getter adds a Problem and returns a harmless default when the
// field is missing, of the wrong type, or out of bounds; so a reader function reads straight down
// and asks `ok()` at its end. The key "" means the value itself, for items of an array. One place
// gets one problem: the first. The `_or` getters take a missing field, and an empty text, as the
// fallback. The value and the list of problems must outlive the cursor.
class Reader {
 public:
  Reader(const Json& value, Problems& problems, std::string path = "");

  const Json& value() const { return *value_; }
  const std::string& path() const { return path_; }
  // The value at `key` as it is, or its text; nullptr where there is none.
  const Json* find(std::string_view key) const;
  const std::string* find_text(std::string_view key) const;
  bool has(std::string_view key) const { return find(key) != nullptr; }
  bool ok() const { return problems_->empty(); }
  void problem(std::string_view key, std::string what) const;
  // The complaint of every getter: "must be <allowed>", or that the field, or the whole object, is
  // missing.
  void refuse(std::string_view key, const std::string& allowed) const;

  // Checks "format" and "version": a newer major version is refused with a sentence that says to
  // update the app.
  bool header(std::string_view format, int newest_version) const;

  // Text of 1..most bytes of UTF-8, without control characters (newline allowed only where `lines`
  // is set).
  std::string text(std::string_view key, std::size_t most, bool lines = false) const;
  std::string text_or(std::string_view key, std::size_t most, std::string fallback,
                      bool lines = false) const;
  // An identifier: 1..64 of a-z 0-9 and '-', beginning with a letter or digit.
  std::string id(std::string_view key) const;
  std::string id_or(std::string_view key, std::string fallback) const;
  // A JSON integer: 3.0 and "3" are refused.
  std::int64_t whole(std::string_view key, std::int64_t least, std::int64_t most) const;
  std::int64_t whole_or(std::string_view key, std::int64_t least, std::int64_t most,
                        std::int64_t fallback) const;
  double number(std::string_view key, double least, double most) const;
  double number_or(std::string_view key, double least, double most, double fallback) const;
  bool flag(std::string_view key) const;
  bool flag_or(std::string_view key, bool fallback) const;
  // One of `allowed`; its index there, 0 (and a problem) otherwise.
  std::size_t choice(std::string_view key, std::initializer_list<std::string_view> allowed) const;
  // Text by language, lines allowed; English must be there.
  LocalText local(std::string_view key, std::size_t most) const;
  LocalText local_or_empty(std::string_view key, std::size_t most) const;

  // A cursor on the object at `key` (on null, and a problem, where there is none).
  Reader object(std::string_view key) const;
  // Calls `each` for the items of the array at `key`, in order; a problem outside least..most
  // items.
  void array(std::string_view key, std::size_t least, std::size_t most,
             const std::function<void(const Reader&)>& each) const;
  // The items of an array of identifiers, of plain texts of one line, or of localised texts.
  std::vector<std::string> ids(std::string_view key, std::size_t least, std::size_t most) const;
  std::vector<std::string> texts(std::string_view key, std::size_t least, std::size_t most,
                                 std::size_t most_bytes) const;
  std::vector<LocalText> locals(std::string_view key, std::size_t least, std::size_t most,
                                std::size_t most_bytes) const;

 private:
  const Json* value_;
  Problems* problems_;
  std::string path_;
};

}  // namespace trowelbell
