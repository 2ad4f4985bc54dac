// What the collector keeps, in the shapes its parts hand to each other.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace trowelbell::collector {

// The numbers of a visit's newest report that are summed up for the coordinator.
struct Sums {
  std::int64_t came = 0;     // children in the room at some time
  std::int64_t present = 0;  // children there from the start to the end
  std::int64_t absent = 0;
  std::int64_t kits_given = 0;
  std::int64_t mishaps = 0;  // of every kind
  std::int64_t adult_minutes = 0;
};

// A report that has passed every check and waits to be written.
struct NewReport {
  std::string visit;
  std::string device;
  std::int64_t revision = 0;
  std::string body;              // the bytes as they came
  std::string digest;            // SHA-256 of the body, hexadecimal
  std::int64_t received_at = 0;  // ms since 1970
  std::string facts;             // what a list shows of it, as JSON
  Sums sums;
  bool only_if_absent = false;  // the request said "If-None-Match: *"
};

// What became of it. `failed`: the disk refused, nothing was kept.
enum class Kept { created, already, conflict, visit_full, failed };
struct Outcome {
  Kept kept = Kept::failed;
  std::int64_t received_at = 0;  // of the stored report; set for created and already
};

struct StoredReport {
  std::string body;
  std::string digest;
};

// Which visits a list shows; newest first.
enum class Show { all, waiting, in };
struct VisitQuery {
  Show show = Show::all;
  std::string after_date = "9999-12-31";  // continue behind this date and visit
  std::string after_visit;
  std::int64_t most = 500;
};

struct VisitRow {
  std::string visit;
  std::string date;
  std::string facts;  // of the brief, as JSON
  std::int64_t reports = 0;
  std::optional<std::string> latest;  // facts of the newest report, as JSON
};

struct Totals {
  std::int64_t visits = 0;
  std::int64_t reported = 0;  // visits with a report
  Sums sums;                  // over the newest report of each visit
};

struct VisitPage {
  std::vector<VisitRow> visits;
  bool more = false;
  Totals totals;  // over all visits, whatever the page shows
};

}  // namespace trowelbell::collector
