// A lesson's file, for writing it anew with other times.
#pragma once

#include "cli/program.h"
#include "core/step_learning.h"

namespace trowelbell {

// Writes the lesson of the content folder, as its author wrote it but for the proposed times, to
// `out`. Nothing is written, and the reasons are told on `streams.err`, where `check` would find a
// fault in it.
bool write_learned_lesson(const std::string& content, const std::string& lesson,
                          const LearnedTimes& learned, const std::string& out,
                          const Streams& streams);

}  // namespace trowelbell
