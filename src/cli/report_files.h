// Reading many reports: files, folders, standard input.
#pragma once

#include "cli/content_folder.h"
#include "cli/program.h"
#include "core/report.h"

namespace trowelbell {

inline constexpr std::size_t kMostReports = 10'000;

inline constexpr std::string_view kReportsHelp =
    "Reports: files, folders of *.json, or \"-\" for standard input; a file may hold one report, a "
    "JSON array of them, or one on each line";

struct ReportFiles {
  std::vector<ReportFacts> reports;
  std::vector<FileProblems> left_out;  // each with its first problem
};

// Everything that can be read; what cannot is told on `streams.err`, one line each, and sets
// `status` to input_at_fault. Nothing, where there is no report at all, or more than kMostReports.
std::optional<ReportFiles> read_report_files(const std::vector<std::string>& names,
                                             const Streams& streams, Status& status);

}  // namespace trowelbell
