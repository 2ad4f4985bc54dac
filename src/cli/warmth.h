// Room temperatures as people write them.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/json.h"

namespace trowelbell {

// "21", "21C", "21.5 c" or "70F", in Celsius; nothing for other text or outside 0 to 40 C.
std::optional<double> parse_warmth(std::string_view text);
// "21.1 C (70 F)", to a tenth.
std::string warmth_words(double celsius);
Json warmth_json(double celsius);

}  // namespace trowelbell
