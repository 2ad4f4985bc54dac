#include "app/settings.h"

namespace trowelbell {

void Settings::apply(const Json& record) {
  Problems problems;
  const Reader reader(record, problems);
  if (reader.has("device")) {
    const std::string id = reader.text_or("device", 16, "");
    if (id.size() == 16) device = id;
  }
  if (reader.has("open")) visit = reader.id_or("open", visit);
  if (reader.has("language")) {
    const std::string tag = reader.text_or("language", 2, "");
    if (tag == "en" || tag == "es") language = tag;
  }
  if (reader.has("theme"))
    theme = static_cast<Theme>(reader.choice("theme", {"phone", "light", "dark"}));
  if (reader.has("text")) text_percent = reader.whole_or("text", 100, 200, text_percent);
  if (reader.has("sound")) sound = reader.choice("sound", {"on", "off"}) == 0;
  if (reader.has("hand")) left_handed = reader.choice("hand", {"right", "left"}) == 1;
}

}  // namespace trowelbell
