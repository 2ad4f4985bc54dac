// The report as QR codes, one part after the other: what is on screen, and when it turns by itself.
#pragma once

#include "app/qr_code.h"

namespace trowelbell {

inline constexpr std::int64_t kTurnMs = 4000;  // time enough to take a picture

class ReportCodes {
 public:
  ReportCodes() = default;
  // `report`: its bytes. From the first part on.
  explicit ReportCodes(const std::string& report);

  std::size_t parts() const { return parts_.size(); }
  std::size_t shown() const { return shown_; }  // from 0
  const std::string& text() const { return parts_[shown_]; }
  const QrCode& code() const { return code_; }

  // `by` parts on (or back), round at the ends.
  void turn(int by, std::int64_t now);

  bool turning() const { return turning_; }
  void set_turning(bool on, std::int64_t now);
  // When the next turn is due by itself; -1: never.
  std::int64_t due() const { return turning_ ? turned_at_ + kTurnMs : -1; }

 private:
  std::vector<std::string> parts_;
  std::size_t shown_ = 0;
  QrCode code_;
  bool turning_ = false;
  std::int64_t turned_at_ = 0;
};

}  // namespace trowelbell
