// First names that a lead may type for places, where the school allows it. They are kept in one
// file of their own on this phone (Host::keep_names), never in a stream, a report or a request, and
// go when a report of the visit is received, at the latest seven days after the first was typed.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>

namespace trowelbell {

class Names {
 public:
  static constexpr std::int64_t kKeptMs = 7 * 24 * 3600 * std::int64_t{1000};
  static constexpr int kMostBytes = 24;

  // What the file holds; where it cannot be understood, nothing. `now`: ms since 1970 UTC.
  void load(std::string_view text, std::int64_t now);
  // For the file; "" when there is none to keep, and the file should go.
  std::string text() const;

  bool empty() const { return visits_.empty(); }
  bool any(std::string_view visit) const { return visits_.contains(visit); }
  // "" where none was typed.
  std::string of(std::string_view visit, int place) const;
  // An empty name takes it away.
  void set(std::string_view visit, int place, std::string_view name, std::int64_t now);

  // Both tell whether something went.
  bool wipe(std::string_view visit);
  bool wipe_old(std::int64_t now);

 private:
  struct OfVisit {
    std::int64_t until = 0;
    std::map<int, std::string> by_place;
  };
  std::map<std::string, OfVisit, std::less<>> visits_;
};

}  // namespace trowelbell
