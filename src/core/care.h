// Safety cards: what to watch for, what to do at once, and whom to tell. Format "trowelbell.care".
#pragma once

#include "json.h"

namespace trowelbell {

struct CareCard {
  std::string id;
  LocalText title;
  std::vector<LocalText> prevent;  // before anything happens
  std::vector<LocalText> now;      // if it happens: stop, tell the teacher, ...
  LocalText
      mishap;  // what the log calls it ("Seed in mouth, nose or ear"); empty: the card logs nothing
  std::string drawing;
  std::vector<std::string> sources;
};

struct CareCards {
  std::vector<CareCard> cards;  // 1..40
};

CareCards read_care_cards(const Json& document, Problems& problems);
const CareCard* find_card(const CareCards& care, std::string_view id);

}  // namespace trowelbell
