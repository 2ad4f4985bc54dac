#include "app/qr_code.h"

extern "C" {
#include <qrcodegen.h>
}

namespace trowelbell {

QrCode make_qr_code(const std::string& text) {
  std::vector<std::uint8_t> work(qrcodegen_BUFFER_LEN_MAX), made(qrcodegen_BUFFER_LEN_MAX);
  if (!qrcodegen_encodeText(text.c_str(), work.data(), made.data(), qrcodegen_Ecc_MEDIUM,
                            qrcodegen_VERSION_MIN, qrcodegen_VERSION_MAX, qrcodegen_Mask_AUTO,
                            true))
    return {};
  QrCode code{qrcodegen_getSize(made.data()), {}};
  for (int y = 0; y < code.size; ++y) {
    for (int x = 0; x < code.size; ++x) code.dark.push_back(qrcodegen_getModule(made.data(), x, y));
  }
  return code;
}

}  // namespace trowelbell
