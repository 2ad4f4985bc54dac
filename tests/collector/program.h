// The built collector as a process of its own: started, stopped, killed.
#pragma once

#include <sys/types.h>

#include <chrono>
#include <string>
#include <vector>

namespace trowelbell::collector::testing {

class Program {
 public:
  explicit Program(const std::vector<std::string>& arguments);
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;
  ~Program();  // kills what still runs

  // Waits for "listening on http://127.0.0.1:PORT" and gives the port; 0 where the program ends
  // first.
  unsigned short port();
  void signal(int number) const;
  // The exit status, or -1 for one that was killed or (after killing it) took longer.
  int wait(std::chrono::milliseconds patience = std::chrono::seconds(10));
  // What it wrote so far; all of it after wait().
  std::string output();    // standard output
  std::string messages();  // standard error

 private:
  std::string out_file_, err_file_;
  pid_t child_ = -1;
};

}  // namespace trowelbell::collector::testing
