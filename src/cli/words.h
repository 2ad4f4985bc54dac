// How the command line writes: safe text, times, columns, problems.
#pragma once

#include <iosfwd>

#include "core/dates.h"
#include "core/json.h"

namespace trowelbell {

// Control characters replaced by '?': a file must not steer the terminal.
std::string plain(std::string_view text);
// A chance or share as a percent with one digit, rounded down: 99.99 % must not read as certain.
std::string percent_words(double share);
// "3.1" of 31, "31.80" of 3180; not negative.
std::string tenths(std::int64_t number);
std::string hundredths(std::int64_t number);
// "1 visit", "2 visits".
std::string counted(std::int64_t count, std::string_view one, std::string_view many);
// Filled with blanks up to `width` characters.
std::string padded(std::string_view text, std::size_t width);
// The same with the blanks before it, as numbers stand in a column.
std::string right(std::string_view text, std::size_t width);
// "brief.json: /children: must be ..." on one line; a problem with the whole file has no pointer.
void write_problems(std::ostream& out, std::string_view file, const Problems& problems,
                    std::string_view prefix = "");
Json problems_json(const Problems& problems);

}  // namespace trowelbell
