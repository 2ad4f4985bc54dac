// The report on paper: every number of it in words, so that somebody could type it in.
#pragma once

#include "brief.h"
#include "care.h"
#include "language.h"
#include "lesson.h"
#include "report.h"

namespace trowelbell {

// `report`: one that read_report takes, of the visit of `brief`; times are the school's. `digest`:
// of its bytes, to tell whether the collector has this one. From the texts "paper.*" and "report.*"
// of the language, and from "coordinator.report.*": on paper things are called as on the
// coordinator's page.
std::string report_paper(const Json& report, std::string_view digest, const Brief& brief,
                         const Lesson& lesson, const CareCards& care, const Language& language);

}  // namespace trowelbell
