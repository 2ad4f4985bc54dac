#include "cli/report_files.h"

#include <algorithm>
#include <ostream>

#include "cli/files.h"
#include "cli/words.h"

namespace trowelbell {

namespace {

constexpr std::size_t kLargestFile = 16 * 1024 * 1024;  // of many reports

class ReportReader {
 public:
  explicit ReportReader(const Streams& streams) : streams_(streams) {}

  void read_file(const std::string& name) {
    Problems problems;
    const auto text = read_text(name, kLargestFile, streams_.in, problems);
    if (!text) {
      leave_out(name, problems);
      return;
    }
    const std::size_t begin = std::min(text->find_first_not_of(" \t\r\n"), text->size());
    if (text->compare(begin, 1, "[") == 0) {
      read_array(name, *text);
    } else if (one_a_line(*text)) {
      read_lines(name, *text);
    } else {
      read_text_of_one(name, *text, "");
    }
  }

  bool too_many() const { return files.reports.size() + files.left_out.size() > kMostReports; }

  ReportFiles files;

 private:
  // A file of one report is one line, or its first line is no whole document.
  static bool one_a_line(const std::string& text) {
    const std::size_t end = text.find('\n');
    Problems problems;
    return end != std::string::npos &&
           text.find_first_not_of(" \t\r\n", end) != std::string::npos &&
           parse_json(std::string_view(text).substr(0, end), kReportLimits, problems);
  }

  void read_array(const std::string& name, const std::string& text) {
    Problems problems;
    const auto document = parse_json(text, {kLargestFile, kReportLimits.depth + 1}, problems);
    if (!document) {
      leave_out(name, problems);
      return;
    }
    for (std::size_t i = 0; i < document->size() && !too_many(); ++i) {
      take(name, (*document)[i], "/" + std::to_string(i));
    }
  }

  void read_lines(const std::string& name, std::string_view text) {
    for (std::size_t line = 1; !text.empty() && !too_many(); ++line) {
      const std::size_t end = std::min(text.find('\n'), text.size());
      const std::string_view one = text.substr(0, end);
      text.remove_prefix(std::min(end + 1, text.size()));
      if (one.find_first_not_of(" \t\r") != std::string_view::npos) {
        read_text_of_one(name, one, "line " + std::to_string(line));
      }
    }
  }

  void read_text_of_one(const std::string& name, std::string_view text, const std::string& place) {
    Problems problems;
    if (const auto document = parse_json(text, kReportLimits, problems)) {
      take(name, *document, place);
    } else {
      leave_out(name, problems, place);
    }
  }

  void take(const std::string& name, const Json& document, const std::string& place) {
    Problems problems;
    ReportFacts facts = read_report(document, problems);
    if (problems.empty()) {
      files.reports.push_back(std::move(facts));
    } else {
      leave_out(name, problems, place);
    }
  }

  void leave_out(const std::string& name, const Problems& problems, const std::string& place = "") {
    FileProblems fault{name == "-" ? "standard input" : name, {}};
    add_problems(fault.problems, {problems.front()}, place);
    write_problems(streams_.err, fault.file, fault.problems, "left out: ");
    files.left_out.push_back(std::move(fault));
  }

  const Streams& streams_;
};

}  // namespace

std::optional<ReportFiles> read_report_files(const std::vector<std::string>& names,
                                             const Streams& streams, Status& status) {
  std::vector<std::string> all;
  for (const std::string& name : names) {
    std::error_code error;
    if (name != "-" && std::filesystem::is_directory(name, error)) {
      const auto below = files_below(name, ".json");
      all.insert(all.end(), below.begin(), below.end());
    } else {
      all.push_back(name);
    }
  }
  status = Status::call_at_fault;
  if (std::count(all.begin(), all.end(), "-") > 1) {
    streams.err << "trowelbell: standard input can be read only once\n";
    return std::nullopt;
  }
  ReportReader reader(streams);
  for (const std::string& name : all) {
    if (!reader.too_many()) {
      reader.read_file(name);
    }
  }
  ReportFiles& files = reader.files;
  status = files.left_out.empty() ? Status::done : Status::input_at_fault;
  if (reader.too_many()) {
    streams.err << "trowelbell: more than " << kMostReports << " reports; give fewer at a time\n";
    status = Status::call_at_fault;
    return std::nullopt;
  }
  if (files.reports.empty()) {
    streams.err << "trowelbell: there is no report to read; give files, or a folder of *.json\n";
    status = Status::input_at_fault;
    return std::nullopt;
  }
  return std::move(files);
}

}  // namespace trowelbell
