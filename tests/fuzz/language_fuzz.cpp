// A language: any text of it can be said, counted and searched for placeholders.
#include "core/language.h"

#include "core/content.h"
#include "fuzz.h"

using namespace trowelbell;

static void fuzz_one(std::string_view text) {
  fuzz::read_document(text, kContentLimits, read_language,
                      [](const Json&, const Language& language) {
                        for (const auto& [key, said] : language.texts()) {
                          fuzz::must(language.say(key) == said);
                          // A value for every placeholder leaves only braces that are not closed.
                          if (const auto names = placeholders(said); names.size() == 1) {
                            language.say(key, {{*names.begin(), "{value}"}});
                          }
                          language.count(key, 1);
                        }
                        const Date date = std::chrono::year{2027} / 3 / 8;
                        language.date_range(date, date);
                      });
}

TROWELBELL_FUZZ_TARGET(fuzz_one)
