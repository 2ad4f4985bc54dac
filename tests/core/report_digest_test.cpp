#include "core/report_digest.h"

#include <doctest/doctest.h>

using namespace trowelbell;

TEST_CASE("a report's digest is SHA-256, by the examples that NIST publishes with FIPS 180-4") {
  // csrc.nist.gov, "Examples with Intermediate Values", SHA256: one block and two blocks.
  CHECK(report_digest("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(report_digest("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  // NIST CAVP, SHA256ShortMsg.rsp, Len = 0.
  CHECK(report_digest("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}
// Every length around a block is held to libsodium in tests/collector/digest_test.cpp.
