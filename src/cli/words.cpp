#include "cli/words.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <ostream>

namespace trowelbell {

namespace {

// What `text` lacks to so many characters.
std::string blanks(std::string_view text, std::size_t width) {
  const auto characters =
      static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
      }));
  return std::string(width > characters ? width - characters : 0, ' ');
}

}  // namespace

std::string plain(std::string_view text) {
  std::string safe;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const bool c1 =
        byte == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0;
    i += c1 ? 1 : 0;
    safe += c1 || byte < 0x20 || byte == 0x7F ? '?' : static_cast<char>(byte);
  }
  return safe;
}

std::string percent_words(double share) {
  return tenths(static_cast<std::int64_t>(std::floor(share * 1000 + 1e-9))) + " %";
}

std::string tenths(std::int64_t number) {
  return std::to_string(number / 10) + "." + std::to_string(number % 10);
}

std::string hundredths(std::int64_t number) {
  const std::string part = std::to_string(number % 100);
  return std::to_string(number / 100) + (part.size() < 2 ? ".0" : ".") + part;
}

std::string counted(std::int64_t count, std::string_view one, std::string_view many) {
  return std::to_string(count) + " " + std::string(count == 1 ? one : many);
}

std::string padded(std::string_view text, std::size_t width) {
  return std::string(text) + blanks(text, width);
}

std::string right(std::string_view text, std::size_t width) {
  return blanks(text, width) + std::string(text);
}

void write_problems(std::ostream& out, std::string_view file, const Problems& problems,
                    std::string_view prefix) {
  for (const Problem& problem : problems) {
    const std::string place = problem.path.empty() ? "the file" : problem.path + ":";
    out << prefix << plain(file) << ": " << plain(place) << ' ' << plain(problem.what) << '\n';
  }
}

Json problems_json(const Problems& problems) {
  Json list = Json::array();
  for (const Problem& problem : problems) {
    list.push_back({{"pointer", problem.path}, {"what", problem.what}});
  }
  return list;
}

}  // namespace trowelbell
