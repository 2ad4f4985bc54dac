// QR codes (ISO/IEC 18004), by the library qrcodegen.
#pragma once

#include <string>
#include <vector>

namespace trowelbell {

struct QrCode {
  int size = 0;            // modules a side, without the quiet zone
  std::vector<bool> dark;  // row by row
  bool at(int x, int y) const {
    return dark[static_cast<std::size_t>(y) * static_cast<std::size_t>(size) +
                static_cast<std::size_t>(x)];
  }
};

// The smallest code that holds `text`, which must have no zero byte, with error correction level M
// or better; nothing (size 0) where none can.
QrCode make_qr_code(const std::string& text);

}  // namespace trowelbell
