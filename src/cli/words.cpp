#include "cli/words.h"

#include <algorithm>
#include <cstdlib>
#include <ostream>

namespace trowelbell {

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

std::string minutes_seconds(std::int64_t seconds) {
  const std::int64_t size = std::abs(seconds);
  const std::string rest = std::to_string(size % 60);
  return (seconds < 0 ? "-" : "") + std::to_string(size / 60) + (rest.size() < 2 ? ":0" : ":") +
         rest;
}

std::string padded(std::string_view text, std::size_t width) {
  const auto characters =
      static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
      }));
  return std::string(text) + std::string(width > characters ? width - characters : 0, ' ');
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
