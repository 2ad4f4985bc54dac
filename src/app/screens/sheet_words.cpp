#include "app/screens/sheet_words.h"

namespace trowelbell {

SheetWords sheet_words(const AppState& app, const Language& language) {
  const Visit& visit = *app.visit;
  const VisitState& state = visit.state();
  const auto species = app.library.species(*visit.lesson());
  SheetWords words = sheet_words(visit.brief(), species, state.kits.with_teacher, language);
  for (std::size_t i = 0; i < state.steps.size(); ++i) {
    const Step& step = visit.lesson()->steps[i];
    const bool missed = state.phase == Phase::finished && !state.steps[i].entered;
    if (missed && !step.left_with_teacher.empty())
      words.left.push_back(step.left_with_teacher.in(language.tag()));
  }
  return words;
}

}  // namespace trowelbell
