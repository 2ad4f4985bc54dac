// A report as a few short texts, for a phone without any network: each is shown as a QR code, or
// passed on by whatever carries text. A part:
//
//   TROWELBELL-REPORT-1-<n>-<of>-<digest>-<bytes>.
//
// 1 is the version of this format, <n> the part from 1, <of> how many there are, <digest> the first
// 16 hexadecimal digits, in capitals, of the report's SHA-256, <bytes> this part's share in Base32
// (RFC 4648). Only characters of a QR code's alphanumeric mode (ISO/IEC 18004) stand in it. The
// full stop tells that nothing was cut off; white space anywhere, as mail programs break lines, is
// skipped.
//
// What is shared out is the report with its fixed words ("planned_seconds" and the like) as single
// bytes that no report contains: about a third of the length, so a third of the codes.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace trowelbell {

inline constexpr std::size_t kPartBytes = 320;  // at most this share in a part that we make
inline constexpr std::size_t kMostParts = 250;
inline constexpr std::size_t kMostPartsText = 512 * 1024;  // of what is gathered at a time
inline constexpr std::size_t kMostPartSets = 50;

// The parts, in order; shares differ by at most one byte. None for what is no report: over 64 KiB,
// not UTF-8, with control characters, or empty.
std::vector<std::string> report_parts(std::string_view report);

// What has been gathered of one report.
struct PartSet {
  std::string digest;                // its first 16 digits, as in the parts
  std::size_t of = 0;                // parts there are
  std::vector<std::size_t> missing;  // from 1, ascending
  std::string report;                // once nothing is missing: its exact bytes
  bool damaged = false;              // all are here, but they do not make that report
};

struct GatheredParts {
  std::vector<PartSet> sets;  // in the order first met
  std::size_t unread = 0;     // parts cut off, mistyped or otherwise not in order
  bool newer = false;         // some were made by a newer version of the app
};

// The parts in `text`: any number, in any order, of several reports, with repeats and with other
// words between them. Of two that claim the same place the first counts. Text beyond kMostPartsText
// and reports beyond kMostPartSets are left out and count as one unread part each.
GatheredParts gather_parts(std::string_view text);

}  // namespace trowelbell
