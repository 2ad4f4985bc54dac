#include "cli/pace_words.h"

#include "cli/words.h"

namespace trowelbell {

std::string_view why_name(PaceWhy why) {
  constexpr std::string_view kNames[] = {"as_planned", "shortened", "left_out_hurry",
                                         "left_out_time", "left_out_lead"};
  return kNames[static_cast<std::size_t>(why)];
}

std::string_view why_words(PaceWhy why) {
  constexpr std::string_view kWords[] = {
      "kept, as planned", "kept, shortened", "left out: keeping it would rush the other steps",
      "left out: there is no time for it", "left out: the lead's choice"};
  return kWords[static_cast<std::size_t>(why)];
}

std::string time_words(const PacedItem& step) {
  return step.kept ? minutes_seconds((step.ms + 500) / 1000) : "-";
}

}  // namespace trowelbell
