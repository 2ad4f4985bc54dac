#include "picture_codes.h"

#define ZX_USE_UTF8 1  // texts as std::string
#include <ZXing/ReadBarcode.h>

namespace trowelbell::collector {

std::vector<std::string> codes_in_picture(std::string_view grey, int width, int height) {
  ZXing::DecodeHints hints;
  hints.setFormats(ZXing::BarcodeFormat::QRCode);
  hints.setMaxNumberOfSymbols(20);
  const ZXing::ImageView view(reinterpret_cast<const std::uint8_t*>(grey.data()), width, height,
                              ZXing::ImageFormat::Lum);
  std::vector<std::string> texts;
  for (const ZXing::Result& result : ZXing::ReadBarcodes(view, hints))
    if (result.isValid()) texts.push_back(result.text());
  return texts;
}

}  // namespace trowelbell::collector
