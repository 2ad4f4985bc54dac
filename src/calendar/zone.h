// A school's clock, from the system's zone database (IANA names; Debian's package tzdata).
#pragma once

#include "core/county.h"

namespace trowelbell {

// Fills the school's offset and its changes, from the first day of `window` to its last, by the
// rules of its `time_zone`. False, and nothing changed, where the system does not know that zone.
// Years to come are computed by the rule that stands today; governments change such rules, so
// briefs are made anew when the system's database is renewed.
bool look_up_zone(School& school, const DateRange& window);

}  // namespace trowelbell
