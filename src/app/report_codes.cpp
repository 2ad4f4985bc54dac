#include "app/report_codes.h"

#include "core/report_parts.h"

namespace trowelbell {

ReportCodes::ReportCodes(const std::string& report) : parts_(report_parts(report)) {
  if (!parts_.empty()) code_ = make_qr_code(text());
}

void ReportCodes::turn(int by, std::int64_t now) {
  turned_at_ = now;
  if (parts_.size() < 2) return;
  shown_ = (shown_ + (by < 0 ? parts_.size() - 1 : 1)) % parts_.size();
  code_ = make_qr_code(text());
}

void ReportCodes::set_turning(bool on, std::int64_t now) {
  turning_ = on;
  turned_at_ = now;
}

}  // namespace trowelbell
