#include "report_parts.h"

#include <algorithm>
#include <charconv>
#include <map>
#include <optional>

#include "base32.h"
#include "report.h"
#include "report_digest.h"
#include "utf8.h"

namespace trowelbell {
namespace {

constexpr std::string_view kMark = "TROWELBELL-REPORT-";
constexpr int kVersion = 1;
constexpr std::size_t kDigestDigits = 16;
constexpr std::size_t kMostShare = 2000;  // read; a later version may make longer parts

// A part of format version 1 can be read for ever, so nothing here may change or move.
constexpr std::string_view kFixed[] = {
    R"({"adult_minutes":)",
    R"(,"began_at":)",
    R"(,"bell_at":)",
    R"(,"children":{"absent":)",
    R"(,"late":)",
    R"(,"left_early":)",
    R"(,"places":)",
    R"(,"present":)",
    R"(,"unknown":)",
    R"(},"date":")",
    R"(","device":")",
    R"(","ended_at":)",
    R"(,"events":)",
    R"(,"format":"trowelbell.report","handover":{)",
    R"(},"holds":[)",
    R"({"reason":")",
    R"(","seconds":)",
    R"(],"kits":{"brought":)",
    R"(,"given":)",
    R"(,"spare":)",
    R"(,"spoiled":)",
    R"(,"unaccounted":)",
    R"(,"with_teacher":)",
    R"(},"lacking":{)",
    R"(},"lesson":")",
    R"(","mishaps":{)",
    R"(},"note":")",
    R"(","pages":[)",
    R"(],"ready":{)",
    R"(},"revision":)",
    R"(,"room":")",
    R"(","school":")",
    R"(","sponsor":")",
    R"(","steps":[{"actual_seconds":)",
    R"(},{"actual_seconds":)",
    R"(,"id":")",
    R"(","outcome":"done","planned_seconds":)",
    R"(","outcome":"left_out","planned_seconds":)",
    R"(","outcome":"not_reached","planned_seconds":)",
    R"(}],"taken_by":")",
    R"(","version":1,"visit":")",
    R"(":true)",
};
constexpr std::size_t kControls = 31;  // 0x01 to 0x1F: JSON has them only escaped
constexpr unsigned kNeverUtf8 = 0xF5;  // 0xF5 to 0xFF
static_assert(std::size(kFixed) == kControls + 0x100 - kNeverUtf8);

char sign_of(std::size_t index) {
  return static_cast<char>(index < kControls ? index + 1 : kNeverUtf8 + index - kControls);
}

// The fixed words that `byte` stands for; nothing where it stands for itself.
std::optional<std::string_view> fixed_of(unsigned char byte) {
  if (byte >= 1 && byte <= kControls) return kFixed[byte - 1];
  if (byte >= kNeverUtf8) return kFixed[kControls + byte - kNeverUtf8];
  return std::nullopt;
}

std::string shortened(std::string_view report) {
  std::string text;
  while (!report.empty()) {
    std::size_t best = std::size(kFixed);
    for (std::size_t i = 0; i < std::size(kFixed); ++i) {
      const bool longer = best == std::size(kFixed) || kFixed[i].size() > kFixed[best].size();
      if (longer && report.substr(0, kFixed[i].size()) == kFixed[i]) best = i;
    }
    const bool found = best < std::size(kFixed);
    text += found ? sign_of(best) : report.front();
    report.remove_prefix(found ? kFixed[best].size() : 1);
  }
  return text;
}

// "" where the result would be too long for a report.
std::string lengthened(std::string_view text) {
  std::string report;
  for (const char c : text) {
    if (const auto fixed = fixed_of(static_cast<unsigned char>(c)))
      report += *fixed;
    else
      report += c;
    if (report.size() > kReportLimits.bytes) return "";
  }
  return report;
}

std::string short_digest(std::string_view report) {
  std::string digest = report_digest(report).substr(0, kDigestDigits);
  for (char& c : digest) c = c >= 'a' ? static_cast<char>(c - 'a' + 'A') : c;
  return digest;
}

// Up to the next '-', which goes too.
std::string_view take_field(std::string_view& text) {
  const std::size_t end = std::min(text.find('-'), text.size());
  const std::string_view field = text.substr(0, end);
  text.remove_prefix(std::min(end + 1, text.size()));
  return field;
}

// Written in the one usual way; 0 for anything else.
std::size_t number(std::string_view text) {
  std::size_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  const bool whole = error == std::errc() && end == text.data() + text.size();
  return whole && text.front() != '0' ? value : 0;
}

bool is_digest(std::string_view text) {
  return text.size() == kDigestDigits &&
         text.find_first_not_of("0123456789ABCDEF") == std::string_view::npos;
}

using Shares = std::map<std::size_t, std::string>;

class Gatherer {
 public:
  // What follows a mark, up to the next one.
  void take(std::string_view text) {
    const std::size_t version = number(take_field(text));
    if (version > kVersion) {
      gathered_.newer = true;
      return;
    }
    const std::size_t n = number(take_field(text));
    const std::size_t of = number(take_field(text));
    const std::string_view digest = take_field(text);
    const std::size_t end = text.find('.');
    const auto bytes = base32_bytes(text.substr(0, std::min(end, text.size())));
    const bool in_order = version == kVersion && n >= 1 && n <= of && of <= kMostParts &&
                          is_digest(digest) && end != std::string_view::npos && bytes &&
                          !bytes->empty() && bytes->size() <= kMostShare;
    if (!in_order || !keep(digest, n, of, *bytes)) ++gathered_.unread;
  }

  GatheredParts finish() {
    for (std::size_t i = 0; i < gathered_.sets.size(); ++i) complete(gathered_.sets[i], shares_[i]);
    return std::move(gathered_);
  }

  void leave_out() { ++gathered_.unread; }

 private:
  bool keep(std::string_view digest, std::size_t n, std::size_t of, const std::string& bytes) {
    std::size_t i = 0;
    while (i < gathered_.sets.size() &&
           (gathered_.sets[i].digest != digest || gathered_.sets[i].of != of))
      ++i;
    if (i == kMostPartSets) return false;
    if (i == gathered_.sets.size()) {
      gathered_.sets.push_back({std::string(digest), of, {}, "", false});
      shares_.emplace_back();
    }
    shares_[i].emplace(n, bytes);
    return true;
  }

  static void complete(PartSet& set, const Shares& shares) {
    for (std::size_t n = 1; n <= set.of; ++n) {
      if (!shares.contains(n)) set.missing.push_back(n);
    }
    if (!set.missing.empty()) return;
    std::string text;
    for (const auto& [n, share] : shares) text += share;
    std::string report = lengthened(text);
    set.damaged = report.empty() || short_digest(report) != set.digest || !is_utf8(report);
    if (!set.damaged) set.report = std::move(report);
  }

  GatheredParts gathered_;
  std::vector<Shares> shares_;  // of each set
};

}  // namespace

std::vector<std::string> report_parts(std::string_view report) {
  const bool plain = is_utf8(report) && std::none_of(report.begin(), report.end(), [](char c) {
                       return static_cast<unsigned char>(c) < 0x20;
                     });
  if (report.empty() || report.size() > kReportLimits.bytes || !plain) return {};
  const std::string text = shortened(report);
  const std::size_t of = (text.size() + kPartBytes - 1) / kPartBytes;
  const std::string digest = short_digest(report);
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < of; ++i) {
    const std::size_t from = text.size() * i / of, to = text.size() * (i + 1) / of;
    parts.push_back(std::string(kMark) + std::to_string(kVersion) + '-' + std::to_string(i + 1) +
                    '-' + std::to_string(of) + '-' + digest + '-' +
                    base32(std::string_view(text).substr(from, to - from)) + '.');
  }
  return parts;
}

GatheredParts gather_parts(std::string_view text) {
  Gatherer gatherer;
  if (text.size() > kMostPartsText) gatherer.leave_out();
  std::string tight;
  for (const char c : text.substr(0, kMostPartsText)) {
    if (c != ' ' && c != '\t' && c != '\r' && c != '\n') tight += c;
  }
  std::string_view rest = tight;
  for (std::size_t at; (at = rest.find(kMark)) != std::string_view::npos;) {
    rest.remove_prefix(at + kMark.size());
    gatherer.take(rest.substr(0, rest.find(kMark)));
  }
  return gatherer.finish();
}

}  // namespace trowelbell
