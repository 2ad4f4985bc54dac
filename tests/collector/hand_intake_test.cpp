// Reports that reach the coordinator without a network, without sockets. The codes are made by
// qrcodegen and read by the collector's ZXing: two libraries without common code.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>

extern "C" {
#include <qrcodegen.h>
}

#include "collector/picture_codes.h"
#include "core/report_parts.h"
#include "support.h"

namespace trowelbell::collector {
namespace {

using namespace testing;

Request post(const std::string& target, std::string body, const std::string& type,
             const std::string& key = kCoordinatorKey) {
  Request request = put(target, std::move(body), key);
  request.method = "POST";
  request.content_type = type;
  return request;
}

Request by_hand(std::string body) {
  return post("/v1/reports", std::move(body), "application/json");
}

// So long that it takes more than one part.
std::string long_body() {
  Json document = report("fern-k1");
  document["note"] = std::string(400, 'n');
  return dump_json(document);
}

Json gathered(House& house, const std::string& text) {
  const Response response = house.ask(post("/v1/parts", text, "text/plain"));
  CHECK(response.status == 200);
  return body_of(response);
}

struct Picture {
  int width, height;
  std::string grey;
};

// A photograph of a code: `module` px wide, turned by `degrees`, in a grey room, with uneven light.
Picture photograph(const std::string& text, double module, double degrees) {
  std::vector<std::uint8_t> work(qrcodegen_BUFFER_LEN_MAX), code(qrcodegen_BUFFER_LEN_MAX);
  REQUIRE(qrcodegen_encodeText(text.c_str(), work.data(), code.data(), qrcodegen_Ecc_MEDIUM, 1, 40,
                               qrcodegen_Mask_AUTO, true));
  const int size = qrcodegen_getSize(code.data());
  const int side = static_cast<int>((size + 8) * module * 1.6);
  Picture picture{side, side, std::string(static_cast<std::size_t>(side * side), '\x50')};
  const double angle = degrees * std::acos(-1.0) / 180;
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      const double dx = x - side / 2.0, dy = y - side / 2.0;
      const double u = (dx * std::cos(angle) + dy * std::sin(angle)) / module + size / 2.0;
      const double v = (dy * std::cos(angle) - dx * std::sin(angle)) / module + size / 2.0;
      if (u < -4 || v < -4 || u >= size + 4 || v >= size + 4) continue;
      const bool dark = qrcodegen_getModule(code.data(), static_cast<int>(std::floor(u)),
                                            static_cast<int>(std::floor(v)));
      const int light = 150 + 90 * x / side;
      picture.grey[static_cast<std::size_t>(y) * static_cast<std::size_t>(side) +
                   static_cast<std::size_t>(x)] = static_cast<char>(dark ? light / 5 : light);
    }
  }
  return picture;
}

Response ask_picture(House& house, const Picture& picture) {
  return house.ask(post("/v1/picture?width=" + std::to_string(picture.width) +
                            "&height=" + std::to_string(picture.height),
                        picture.grey, "application/octet-stream"));
}

std::string problem_of(const Response& response) {
  return body_of(response)["type"].get<std::string>();
}

}  // namespace

TEST_CASE("a report taken in by hand is the one that the phone would have sent") {
  House house;
  const std::string body = dump_json(report("fern-k1"));
  const Response first = house.ask(by_hand(body));
  CHECK(first.status == 201);
  CHECK(body_of(first)["digest"] == hex(sha256(body)));
  CHECK(house.archive->latest("fern-k1")->body == body);
  const Response sent = house.ask(put(report_path("fern-k1"), body));  // a network after all
  CHECK(sent.status == 200);
  CHECK(sent.body == first.body);
  CHECK(house.ask(by_hand(body)).status == 200);
  CHECK(house.writer->reports() == 1);
}

TEST_CASE("by hand, too, another report under the same number changes nothing") {
  House house;
  const std::string body = dump_json(report("fern-k1"));
  house.ask(put(report_path("fern-k1"), body));
  Json other = report("fern-k1");
  other["note"] = "Something else.";
  CHECK(house.ask(by_hand(dump_json(other))).status == 409);
  CHECK(house.archive->latest("fern-k1")->body == body);
}

TEST_CASE("by hand, a report is refused with the reason") {
  House house;
  const Response unknown = house.ask(by_hand(dump_json(report("no-such-visit"))));
  CHECK(unknown.status == 404);
  CHECK(problem_of(unknown) == "urn:trowelbell:problem:no-visit");
  CHECK(body_of(unknown)["detail"].get<std::string>().find("no-such-visit") != std::string::npos);
  CHECK(house.ask(by_hand("{")).status == 400);
  Json wrong = report("fern-k1");
  wrong["kits"]["given"] = 99;
  CHECK(house.ask(by_hand(dump_json(wrong))).status == 422);
  CHECK(house.ask(post("/v1/reports", dump_json(report("fern-k1")), "text/plain")).status == 415);
  CHECK(house.writer->reports() == 0);
}

TEST_CASE("only the coordinator takes in by hand, and only by POST") {
  House house;
  const std::string body = dump_json(report("fern-k1"));
  for (const std::string target : {"/v1/reports", "/v1/parts", "/v1/picture?width=1&height=1"}) {
    CAPTURE(target);
    CHECK(house.ask(post(target, body, "application/json", kKey)).status == 401);
    CHECK(house.ask(post(target, body, "application/json", "")).status == 401);
    CHECK(house.ask(get(target, kCoordinatorKey)).status == 405);
    CHECK(house.ask(put(target, body, kCoordinatorKey)).status == 405);
  }
  CHECK(house.writer->reports() == 0);
}

TEST_CASE("parts are put together, and what is missing is told") {
  House house;
  const std::string body = long_body();
  const auto parts = report_parts(body);
  REQUIRE(parts.size() >= 2);
  const Json some = gathered(house, parts.back());
  REQUIRE(some["sets"].size() == 1);
  CHECK(some["sets"][0]["of"] == parts.size());
  CHECK(some["sets"][0]["missing"][0] == 1);
  CHECK_FALSE(some["sets"][0].contains("report"));
  std::string text = "Part\n";
  auto backwards = parts;
  std::reverse(backwards.begin(), backwards.end());
  for (const std::string& part : backwards) text += part + "\n";
  const Json all = gathered(house, text + parts[0]);
  CHECK(all["unread"] == 0);
  CHECK(all["newer"] == false);
  REQUIRE(all["sets"][0].contains("report"));
  CHECK(house.ask(by_hand(all["sets"][0]["report"].get<std::string>())).status == 201);
  CHECK(house.archive->latest("fern-k1")->body == body);
}

TEST_CASE("texts without parts are no fault, and too long ones are") {
  House house;
  CHECK(gathered(house, "Hello")["sets"].empty());
  CHECK(gathered(house, "TROWELBELL-REPORT-1-1-1-")["unread"] == 1);
  CHECK(gathered(house, "TROWELBELL-REPORT-9-")["newer"] == true);
  CHECK(house.ask(post("/v1/parts", std::string(kMostPartsText + 1, 'x'), "text/plain")).status ==
        413);
}

TEST_CASE("codes are read in photographs: turned, small, in uneven light") {
  House house;
  const auto parts = report_parts(dump_json(report("fern-k1")));
  for (const double module : {3.0, 5.5, 12.0}) {
    for (const double degrees : {0.0, 7.0, 90.0, 200.0}) {
      CAPTURE(module);
      CAPTURE(degrees);
      const Response response = ask_picture(house, photograph(parts[0], module, degrees));
      CHECK(response.status == 200);
      CHECK(body_of(response) == Json{{"texts", {parts[0]}}});
    }
  }
}

TEST_CASE("several codes in one picture are all read") {
  const auto parts = report_parts(long_body());
  REQUIRE(parts.size() >= 2);
  const Picture one = photograph(parts[0], 4, 0), two = photograph(parts[1], 4, 0);
  Picture both{std::min(one.width, two.width), one.height + two.height, ""};
  for (const Picture* each : {&one, &two}) {
    for (int y = 0; y < each->height; ++y)
      both.grey.append(each->grey,
                       static_cast<std::size_t>(y) * static_cast<std::size_t>(each->width),
                       static_cast<std::size_t>(both.width));
  }
  const auto texts = codes_in_picture(both.grey, both.width, both.height);
  CHECK(std::set<std::string>(texts.begin(), texts.end()) ==
        std::set<std::string>{parts[0], parts[1]});
}

TEST_CASE("a picture without a code is no fault") {
  House house;
  for (const int side : {1, 2, 20, 300}) {
    const Picture blank{side, side, std::string(static_cast<std::size_t>(side * side), '\xC0')};
    CHECK(body_of(ask_picture(house, blank)) == Json{{"texts", Json::array()}});
  }
  Picture noise{200, 200, ""};
  for (unsigned i = 0, at = 1; i < 40'000; ++i) {
    at = at * 1664525 + 1013904223;
    noise.grey += static_cast<char>(at >> 24);
  }
  CHECK(body_of(ask_picture(house, noise)) == Json{{"texts", Json::array()}});
}

TEST_CASE("a picture that is not as large as it says is refused") {
  House house;
  for (const char* query :
       {"", "?width=2", "?width=2&height=0", "?width=2&height=3", "?width=-2&height=-2",
        "?width=2x&height=2", "?width=4097&height=1", "?width=4294967298&height=2"}) {
    CAPTURE(query);
    const Response response =
        house.ask(post(std::string("/v1/picture") + query, "abcd", "application/octet-stream"));
    CHECK(response.status == 400);
    CHECK(problem_of(response) == "urn:trowelbell:problem:picture");
  }
  CHECK(
      house.ask(post("/v1/picture?width=2&height=2", "abcd", "application/octet-stream")).status ==
      200);
}

}  // namespace trowelbell::collector
