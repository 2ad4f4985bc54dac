#include "core/base32.h"

#include <doctest/doctest.h>

using namespace trowelbell;

TEST_CASE("base32: the test vectors of RFC 4648, without padding") {
  // Section 10; section 3.2 allows to leave the padding out.
  const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                         {"f", "MY"},
                                                         {"fo", "MZXQ"},
                                                         {"foo", "MZXW6"},
                                                         {"foob", "MZXW6YQ"},
                                                         {"fooba", "MZXW6YTB"},
                                                         {"foobar", "MZXW6YTBOI"}};
  for (const auto& [bytes, text] : vectors) {
    CHECK(base32(bytes) == text);
    CHECK(base32_bytes(text) == bytes);
  }
}

TEST_CASE("base32: every byte comes back") {
  std::string all;
  for (int i = 0; i < 256; ++i) all += static_cast<char>(i);
  for (std::size_t length = 0; length <= all.size(); ++length)
    CHECK(base32_bytes(base32(all.substr(0, length))) == all.substr(0, length));
}

TEST_CASE("base32: one text for one value") {
  // "MZ" differs from "MY" only in bits that are cut off (RFC 4648, section 3.5); 1, 3 and 6
  // letters are the length of nothing.
  for (const char* bad : {"M", "MZX", "MZXW6Y", "MZ", "my", "MY======", "M Y", "M1", "M0", "M8"}) {
    CAPTURE(bad);
    CHECK_FALSE(base32_bytes(bad).has_value());
  }
}
