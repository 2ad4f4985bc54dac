#include "care.h"

#include <algorithm>

#include "item_list.h"

namespace trowelbell {

namespace {

CareCard read_card(const Reader& reader) {
  constexpr std::size_t kMostLines = 12, kLongText = 400;
  CareCard card;
  card.id = reader.id("id");
  card.title = reader.local("title", 120);
  card.prevent = reader.locals("prevent", 0, kMostLines, kLongText);
  card.now = reader.locals("now", 1, kMostLines, kLongText);
  card.mishap = reader.local_or_empty("mishap", 120);
  card.drawing = reader.text_or("drawing", 40, "");
  card.sources = reader.texts("sources", 1, 20, kLongText);
  return card;
}

}  // namespace

CareCards read_care_cards(const Json& document, Problems& problems) {
  const Reader reader(document, problems);
  CareCards care;
  if (!reader.header("trowelbell.care", 1)) {
    return care;
  }
  care.cards = read_items<CareCard>(reader, "cards", 1, 40, read_card);
  return care;
}

const CareCard* find_card(const CareCards& care, std::string_view id) {
  const auto card = std::find_if(care.cards.begin(), care.cards.end(),
                                 [&](const CareCard& each) { return each.id == id; });
  return card == care.cards.end() ? nullptr : &*card;
}

}  // namespace trowelbell
