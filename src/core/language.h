// Words on the screen: texts by key in one language, with counts and dates. Format
// "trowelbell.language".
#pragma once

#include <initializer_list>
#include <map>
#include <set>
#include <utility>

#include "dates.h"
#include "json.h"

namespace trowelbell {

// A named value for a text: {"n", "24"}.
using Arg = std::pair<std::string_view, std::string>;

class Language {
 public:
  const std::string& tag() const { return tag_; }  // "en", "es"
  bool has(std::string_view key) const;
  // The text with every {name} replaced. A missing key gives the key itself, so that a hole is seen
  // and found by tests.
  std::string say(std::string_view key, std::initializer_list<Arg> args = {}) const;
  // key.one for 1, key.other otherwise (both languages here have these two forms); {n} is the
  // count.
  std::string count(std::string_view key, std::int64_t n,
                    std::initializer_list<Arg> args = {}) const;
  // "Tue 9 March" / "mar 9 de marzo", from the texts date.day, date.weekday.0 (Monday) .. .6 and
  // date.month.1 .. .12; a range from date.range_same_month or date.range.
  std::string date(Date date) const;
  std::string date_range(Date from, Date to) const;
  const std::map<std::string, std::string, std::less<>>& texts() const { return texts_; }

 private:
  std::string weekday(Date date) const;
  std::string month(Date date) const;

  friend Language read_language(const Json& document, Problems& problems);
  std::string tag_;
  std::map<std::string, std::string, std::less<>> texts_;
};

Language read_language(const Json& document, Problems& problems);
// The names in braces of a text.
std::set<std::string> placeholders(std::string_view text);

}  // namespace trowelbell
