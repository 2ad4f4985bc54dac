#include "app/screens/sheet_words.h"

namespace trowelbell {

SheetWords sheet_words(const AppState& app, const Language& language) {
  const Visit& visit = *app.visit;
  return sheet_words(visit.brief(), *visit.lesson(), visit.state(),
                     app.library.species(*visit.lesson()), language);
}

}  // namespace trowelbell
