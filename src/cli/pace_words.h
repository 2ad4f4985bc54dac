// Why a step has the time it has, for people and for programs.
#pragma once

#include <string>
#include <string_view>

#include "core/pacing.h"

namespace trowelbell {

std::string_view why_name(PaceWhy why);   // "left_out_hurry"
std::string_view why_words(PaceWhy why);  // "left out: keeping it would rush the other steps"

// The step's time to the nearest second, "-" where it is left out.
std::string time_words(const PacedItem& step);

}  // namespace trowelbell
