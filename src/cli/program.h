// `trowelbell`, the command line of coordinators and content writers. One file a subcommand.
#pragma once

#include <iosfwd>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace trowelbell {

// Results go to `out`, messages to `err`; `in` is read where a file is given as "-".
struct Streams {
  std::istream& in;
  std::ostream& out;
  std::ostream& err;
};

enum class Status { done = 0, input_at_fault = 1, call_at_fault = 2 };

// Runs one command line, without the program's name. Gives the exit status.
int run_program(std::vector<std::string> arguments, const Streams& streams);

// Each adds its subcommand, which sets `status` when it runs. All three must outlive the parsing.
void add_check(CLI::App& app, const Streams& streams, Status& status);
void add_learn(CLI::App& app, const Streams& streams, Status& status);
void add_pace(CLI::App& app, const Streams& streams, Status& status);
void add_rehearse(CLI::App& app, const Streams& streams, Status& status);
void add_report(CLI::App& app, const Streams& streams, Status& status);
void add_rollup(CLI::App& app, const Streams& streams, Status& status);
void add_brief(CLI::App& app, const Streams& streams, Status& status);
void add_sheet(CLI::App& app, const Streams& streams, Status& status);
void add_sprouts(CLI::App& app, const Streams& streams, Status& status);
void add_supplies(CLI::App& app, const Streams& streams, Status& status);

}  // namespace trowelbell
