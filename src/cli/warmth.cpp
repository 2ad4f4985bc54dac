#include "cli/warmth.h"

#include <charconv>
#include <cmath>

#include "core/temperature.h"

namespace trowelbell {

namespace {

constexpr double kColdest = 0, kHottest = 40;  // as a brief has it

double to_tenths(double degrees) {
  return std::round(degrees * 10) / 10;
}

std::string tenths_words(double degrees) {
  const auto tenths = static_cast<std::int64_t>(std::llround(degrees * 10));
  const std::string whole = std::to_string(tenths / 10);
  return tenths % 10 == 0 ? whole : whole + "." + std::to_string(tenths % 10);
}

}  // namespace

std::optional<double> parse_warmth(std::string_view text) {
  double degrees = 0;
  const char* const end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, degrees, std::chars_format::fixed);
  if (read.ec != std::errc()) {
    return std::nullopt;
  }
  std::string_view scale(read.ptr, static_cast<std::size_t>(end - read.ptr));
  scale.remove_prefix(scale.empty() || scale.front() != ' ' ? 0 : 1);
  double celsius = degrees;
  if (scale == "F" || scale == "f") {
    celsius = celsius_of(degrees);
  } else if (!scale.empty() && scale != "C" && scale != "c") {
    return std::nullopt;
  }
  return celsius >= kColdest && celsius <= kHottest ? std::optional(celsius) : std::nullopt;
}

std::string warmth_words(double celsius) {
  return tenths_words(celsius) + " C (" + tenths_words(fahrenheit_of(celsius)) + " F)";
}

Json warmth_json(double celsius) {
  return {{"celsius", to_tenths(celsius)}, {"fahrenheit", to_tenths(fahrenheit_of(celsius))}};
}

}  // namespace trowelbell
