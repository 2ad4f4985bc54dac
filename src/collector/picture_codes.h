// Reading QR codes (ISO/IEC 18004) in a picture.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace trowelbell::collector {

inline constexpr int kMostSide = 4096;  // px

// The texts of the QR codes in a picture of width x height grey bytes; at most 20.
std::vector<std::string> codes_in_picture(std::string_view grey, int width, int height);

}  // namespace trowelbell::collector
