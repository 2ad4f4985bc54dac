// The phone's store of a headless test: outlives the app that writes to it, as a phone's disk does.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "host/host.h"

namespace trowelbell {

class MemoryStore {
 public:
  // Writes a record. False where the store has been told to fail.
  bool append(std::string_view stream, std::string_view record);
  // What an opening finds: the records still there, and how many the witness misses.
  std::vector<std::string> records(std::string_view stream) const;
  // Records that were ever acknowledged, over all streams.
  std::size_t acknowledged() const;
  StreamHealth health(std::string_view stream) const;

  std::string names;  // the one file for them

  // Faults a test can set.
  bool fails = false;  // every append fails
  bool file = true,
       copy = true;  // which of the two copies can be used; neither: every append fails
  // The last `count` records vanish from both copies, as after a wiped disk; the witness remembers
  // them.
  void lose(std::string_view stream, std::size_t count);

 private:
  struct Stream {
    std::vector<std::string> records;
    std::size_t witness = 0;  // how many were ever acknowledged
  };
  std::map<std::string, Stream, std::less<>> streams_;
};

}  // namespace trowelbell
