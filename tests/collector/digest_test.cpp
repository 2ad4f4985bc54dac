#include "collector/digest.h"

#include <doctest/doctest.h>

#include <set>

#include "core/report_digest.h"

namespace trowelbell::collector {

TEST_CASE("SHA-256 gives the digests that NIST publishes with FIPS 180-4") {
  // csrc.nist.gov, "Examples with Intermediate Values", SHA256: one block and two blocks.
  CHECK(hex(sha256("abc")) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(hex(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq")) ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  // NIST CAVP, SHA256ShortMsg.rsp, Len = 0.
  CHECK(hex(sha256("")) == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("the page's own SHA-256 is libsodium's, at every length around a block") {
  std::string bytes;
  for (int length = 0; length < 300; ++length) {
    CAPTURE(length);
    CHECK(report_digest(bytes) == hex(sha256(bytes)));
    bytes += static_cast<char>(length * 7);
  }
}

TEST_CASE("two digests are the same only where every byte is") {
  const Digest digest = sha256("abc");
  CHECK(same_digest(digest, sha256("abc")));
  for (std::size_t i = 0; i < digest.size(); ++i) {
    Digest other = digest;
    other[i] ^= 1;
    CHECK_FALSE(same_digest(digest, other));
  }
}

TEST_CASE("random keys fit a brief's grammar and do not repeat") {
  std::set<std::string> keys;
  for (int i = 0; i < 100; ++i) {
    const std::string key = random_key();
    CHECK(key.size() == 32);
    CHECK(
        key.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_") ==
        std::string::npos);
    keys.insert(key);
  }
  CHECK(keys.size() == 100);
}

}  // namespace trowelbell::collector
