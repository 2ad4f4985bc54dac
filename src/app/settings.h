// What this phone remembers beside its visits: its own id, the visit that was open, language,
// theme, text size, sound, hand.
#pragma once

#include <string>
#include <vector>

#include "core/json.h"

namespace trowelbell {

enum class Theme { phone, light, dark };

struct Settings {
  static constexpr std::string_view kStream = "app";

  std::string device;    // 16 hex digits; "" until the first opening made one
  std::string visit;     // id of the visit last open, or ""
  std::string language;  // "en", "es", or "" for the phone's own
  Theme theme = Theme::phone;
  std::int64_t text_percent = 100;  // 100, 125, 150 or 200
  bool sound = true;                // the chime and the buzz
  bool left_handed = false;         // what is tapped most stands on the left

  // Takes in one record, such as {"language": "es"}; what it does not know it leaves alone.
  void apply(const Json& record);
};

}  // namespace trowelbell
