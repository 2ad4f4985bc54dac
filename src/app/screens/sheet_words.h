// The teacher's sheet of the open visit, in words.
#pragma once

#include "app/app_state.h"
#include "core/sheet_words.h"

namespace trowelbell {

SheetWords sheet_words(const AppState& app, const Language& language);

}  // namespace trowelbell
