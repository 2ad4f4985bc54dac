#include "cli/program.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <ostream>

#include "cli/words.h"

namespace trowelbell {

int run_program(std::vector<std::string> arguments, const Streams& streams) {
  CLI::App app(
      "Prepares and reviews classroom visits.\n"
      "Files are JSON; \"-\" stands for standard input. Results go to standard output, messages to "
      "standard error.\n"
      "Exit status: 0 done, 1 the input is at fault, 2 the call is at fault.",
      "trowelbell");
  app.footer("Each subcommand explains itself: trowelbell brief --help");
  app.require_subcommand(1);
  Status status = Status::done;
  add_brief(app, streams, status);
  add_check(app, streams, status);
  add_learn(app, streams, status);
  add_pace(app, streams, status);
  add_rehearse(app, streams, status);
  add_report(app, streams, status);
  add_rollup(app, streams, status);
  add_sheet(app, streams, status);
  add_sprouts(app, streams, status);
  add_supplies(app, streams, status);
  const auto known = app.get_subcommands(nullptr);
  if (!arguments.empty() && arguments.front().rfind('-', 0) != 0 &&
      std::none_of(known.begin(), known.end(),
                   [&](const CLI::App* each) { return each->get_name() == arguments.front(); })) {
    streams.err << "trowelbell: there is no subcommand \"" << plain(arguments.front())
                << "\"; there are";
    for (const CLI::App* each : known) {
      streams.err << ' ' << each->get_name();
    }
    streams.err << " (see trowelbell --help)\n";
    return static_cast<int>(Status::call_at_fault);
  }
  std::reverse(arguments.begin(), arguments.end());  // as the parser takes them
  try {
    app.parse(arguments);
  } catch (const CLI::Success& help) {
    app.exit(help, streams.out, streams.err);
  } catch (const CLI::ParseError& error) {
    app.exit(error, streams.out, streams.err);
    status = Status::call_at_fault;
  }
  return static_cast<int>(status);
}

}  // namespace trowelbell
