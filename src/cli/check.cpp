#include <CLI/CLI.hpp>
#include <memory>

#include "cli/content_folder.h"
#include "cli/files.h"
#include "cli/formats.h"
#include "cli/program.h"
#include "cli/words.h"

namespace trowelbell {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t kMostFiles = 10'000;

struct Options {
  std::vector<std::string> names;
  std::string content;
  bool json = false;
};

// One file to check, and the content it is checked against (nullptr: none was found).
struct Task {
  std::string file;
  std::shared_ptr<const Content> content;
};

struct Job {
  const Options& options;
  const Streams& streams;
  std::vector<Task> tasks;
  std::shared_ptr<const Content> usual;
};

bool ends_with(std::string_view text, std::string_view end) {
  return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

// A folder with an index is checked against itself: its own files report their own faults.
void add_folder(Job& job, const fs::path& folder) {
  std::shared_ptr<const Content> content = job.usual;
  std::error_code error;
  if (fs::is_regular_file(folder / "index.json", error)) {
    std::vector<FileProblems> told_with_each_file;
    content = std::make_shared<Content>(load_content_folder(folder, told_with_each_file));
  }
  for (std::string& name : files_below(folder, ".json")) {
    // Schemas describe our files; they are none.
    if (!ends_with(name, ".schema.json")) {
      job.tasks.push_back({std::move(name), content});
    }
  }
}

Checked check_one(const Task& task, std::istream& in) {
  Checked checked;
  checked.file = task.file == "-" ? "standard input" : task.file;
  if (const auto text = read_text(task.file, kLargestFile, in, checked.problems)) {
    check_text(*text, task.content.get(), fs::path(task.file).parent_path(), checked);
  }
  return checked;
}

void write_words(std::ostream& out, const std::vector<Checked>& all, std::size_t faults) {
  for (const Checked& checked : all) {
    if (checked.problems.empty()) {
      out << plain(checked.file) << ": good (" << checked.noun << ")\n";
    }
    write_problems(out, checked.file, checked.problems);
    write_problems(out, checked.file, checked.notes, "note: ");
  }
  out << all.size() << (all.size() == 1 ? " file, " : " files, ") << faults
      << (faults == 1 ? " problem\n" : " problems\n");
}

void write_json(std::ostream& out, const std::vector<Checked>& all, std::size_t faults) {
  Json files = Json::array();
  for (const Checked& checked : all) {
    files.push_back({{"file", checked.file},
                     {"kind", checked.noun},
                     {"problems", problems_json(checked.problems)},
                     {"notes", problems_json(checked.notes)}});
  }
  out << dump_json({{"files", std::move(files)}, {"problems", faults}}) << '\n';
}

// The usual content, with its own faults told; false where the call asked for a folder that is
// none.
bool load_usual(Job& job) {
  const auto folder = find_content(job.options.content);
  if (!folder) {
    job.streams.err
        << (job.options.content.empty()
                ? "note: no content folder was found, so names of lessons, stories and cards are "
                  "not "
                  "looked up; give one with --content DIR\n"
                : "trowelbell check: --content: there is no index.json in that folder\n");
    return job.options.content.empty();
  }
  std::vector<FileProblems> faults;
  job.usual = std::make_shared<Content>(load_content_folder(*folder, faults));
  for (const FileProblems& fault : faults) {
    write_problems(job.streams.err, fault.file, fault.problems, "note: ");
  }
  return true;
}

Status check(const Options& options, const Streams& streams) {
  Job job{options, streams, {}, nullptr};
  if (!load_usual(job)) {
    return Status::call_at_fault;
  }
  for (const std::string& name : options.names) {
    std::error_code error;
    if (name != "-" && fs::is_directory(name, error)) {
      add_folder(job, name);
    } else {
      job.tasks.push_back({name, job.usual});
    }
  }
  if (job.tasks.empty() || job.tasks.size() > kMostFiles) {
    streams.err << "trowelbell check: " << job.tasks.size() << " files; 1 to " << kMostFiles
                << " are checked\n";
    return Status::call_at_fault;
  }
  std::vector<Checked> all;
  std::size_t faults = 0;
  for (const Task& task : job.tasks) {
    all.push_back(check_one(task, streams.in));
    faults += all.back().problems.size();
  }
  options.json ? write_json(streams.out, all, faults) : write_words(streams.out, all, faults);
  return faults == 0 ? Status::done : Status::input_at_fault;
}

}  // namespace

void add_check(CLI::App& app, const Streams& streams, Status& status) {
  const auto options = std::make_shared<Options>();
  CLI::App* command =
      app.add_subcommand("check", "Checks files: lessons, stories, briefs, journals, reports, ...");
  command->add_option("FILE", options->names, "Files or folders; \"-\" is standard input")
      ->type_name("")
      ->required();
  command->add_option("--content", options->content, std::string(kContentHelp))->type_name("DIR");
  command->add_flag("--json", options->json, "Write the result as JSON");
  command->footer(
      "Every problem is one line: file: /place/in/the/file: what is wrong and what is allowed.\n"
      "A folder is walked; one with an index.json is checked against itself.\n\n"
      "Example: check a new story together with all other content\n"
      "  trowelbell check content/\n"
      "Example: check briefs before they are sent\n"
      "  trowelbell check briefs/*.brief.json");
  command->callback([options, &streams, &status] { status = check(*options, streams); });
}

}  // namespace trowelbell
