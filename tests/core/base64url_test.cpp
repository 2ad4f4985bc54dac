#include "core/base64url.h"

#include <doctest/doctest.h>

using namespace trowelbell;

TEST_CASE("the test vectors of RFC 4648, without padding") {
  // Section 10; section 3.2 allows to leave the padding out.
  const std::pair<const char*, const char*> vectors[] = {
      {"", ""},           {"f", "Zg"},          {"fo", "Zm8"},         {"foo", "Zm9v"},
      {"foob", "Zm9vYg"}, {"fooba", "Zm9vYmE"}, {"foobar", "Zm9vYmFy"}};
  for (const auto& [bytes, text] : vectors) {
    CHECK(base64url(bytes) == text);
    CHECK(base64url_bytes(text) == bytes);
  }
  // Table 2: 62 is "-" and 63 is "_".
  CHECK(base64url("\xFB\xEF\xFF") == "--__");
  // Section 9 gives 14fb9c03d97e as FPucA9l+ in the plain alphabet.
  CHECK(base64url("\x14\xFB\x9C\x03\xD9\x7E") == "FPucA9l-");
}

TEST_CASE("every byte comes back") {
  std::string all;
  for (int i = 0; i < 256; ++i) {
    all += static_cast<char>(i);
  }
  for (std::size_t length = 0; length <= all.size(); ++length) {
    CHECK(base64url_bytes(base64url(all.substr(0, length))) == all.substr(0, length));
  }
}

TEST_CASE("one text for one value") {
  // "Zh" and "Zm9" differ from "Zg" and "Zm8" only in bits that are cut off (RFC 4648,
  // section 3.5).
  for (const char* bad : {"Z", "A", "Zm9vY", "Zm9vA", "Zh", "Zm9", "Zg==", "Zg=", "Zm 9v", "Zm9v\n",
                          "Zm+v", "Zm/v", "Zm9\xC3"}) {
    CAPTURE(bad);
    CHECK_FALSE(base64url_bytes(bad).has_value());
  }
}
