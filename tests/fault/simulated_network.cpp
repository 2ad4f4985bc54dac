#include "simulated_network.h"

#include <algorithm>
#include <array>

#include "host/headless/headless_host.h"

namespace trowelbell::fault {
namespace {

constexpr std::int64_t kPatience = 20'000;  // of a phone, from the request to the whole answer
constexpr std::int64_t kMinute = 60'000;

// What stands between a phone and a collector and answers in its place: a proxy, a captive portal,
// a school's filter.
constexpr std::array kStrangers = {200, 201, 302, 403, 404, 408, 425, 500, 502, 503, 504};
constexpr const char* kStrangersPage = "<html><title>Welcome to the guest network</title></html>";
constexpr const char* kStrangersProblem = R"({"type":"about:blank","title":"Not allowed here"})";
constexpr std::int64_t kLongestRetryAfter = 3600;  // seconds that a phone waits when asked to

}  // namespace

struct Network::Exchange {
  Phone* phone;
  Sending sending;
  std::int64_t given_up_at;
  bool settled = false;
};

void Network::carry(Phone& phone, const Sending& sending) {
  ++tally_.requests;
  const Asked& asked = asked_[&phone];
  if (asked.path == sending.path && asked.opening == sending.opening && phone.now() < asked.until)
    ++tally_.too_early;
  const auto exchange =
      std::make_shared<Exchange>(Exchange{&phone, sending, timeline_.now + kPatience});
  settle(exchange, kPatience, 0, "");  // unless something is heard before
  if (fault() && never_arrives(exchange)) return;
  std::int64_t delay = luck_.between(10, 400);
  if (fault()) {
    ++tally_.delayed;
    delay = luck_.between(1'000, 3 * kPatience);
  }
  timeline_.after(delay, [this, exchange] { arrive(exchange); });
  while (fault() && luck_.percent(50)) {  // a copy, at once or long after
    ++tally_.twice;
    timeline_.after(luck_.percent(50) ? delay : luck_.between(0, 180 * kMinute),
                    [this, exchange] { arrive(exchange); });
  }
}

// True where the collector hears nothing of the request that it could act on.
bool Network::never_arrives(const Shared& exchange) {
  switch (luck_.below(6)) {
    case 0:
      ++tally_.offline;
      settle(exchange, 1, 0, "");
      return true;
    case 1:
      ++tally_.dropped;
      return true;
    case 2: {
      ++tally_.cut_requests;
      const auto cut = static_cast<std::size_t>(
          luck_.below(static_cast<std::int64_t>(exchange->sending.body.size())));
      timeline_.after(luck_.between(10, 400), [this, exchange, cut] {
        // Nobody is left to hear the answer.
        collector_.put(exchange->sending.path, exchange->sending.body.substr(0, cut),
                       exchange->sending.bearer);
      });
      return true;
    }
    case 3:
      ++tally_.too_many;
      settle(exchange, luck_.between(10, 400), 429, "", luck_.between(1, 7200));
      return true;
    case 4:
      ++tally_.strangers;
      settle(exchange, luck_.between(10, 400),
             kStrangers[static_cast<std::size_t>(luck_.below(kStrangers.size()))],
             luck_.percent(50) ? kStrangersPage : kStrangersProblem,
             luck_.percent(30) ? luck_.between(1, 600) : -1);
      return true;
    default: {
      // Everything in order but the bytes it speaks of.
      ++tally_.wrong_digests;
      const collector::Route route = collector::find_route(exchange->sending.path);
      settle(exchange, luck_.between(10, 400), 201,
             dump_json({{"visit", route.visit},
                        {"device", route.device},
                        {"revision", route.revision},
                        {"digest", sha256_hex(exchange->sending.body + " ")},
                        {"received_at", collector_.now}}));
      return true;
    }
  }
}

void Network::arrive(const Shared& exchange) {
  if (timeline_.now > exchange->given_up_at) ++tally_.late;
  collector_.now += luck_.below(100);
  const Sending& sending = exchange->sending;
  come_back(exchange, collector_.put(sending.path, sending.body, sending.bearer));
}

void Network::come_back(const Shared& exchange, const collector::Response& response) {
  int status = response.status;
  std::string body = response.body;
  std::int64_t delay = luck_.between(10, 400);
  if (fault()) {
    switch (luck_.below(6)) {
      case 0:
        ++tally_.lost_answers;
        return;
      case 1:
        ++tally_.cut_answers;
        body.resize(static_cast<std::size_t>(
            luck_.below(static_cast<std::int64_t>(body.size()))));  // at least one byte is missing
        if (luck_.percent(50)) status = 0;  // the phone sees that something is missing
        break;
      case 2:
        ++tally_.errors_after;
        status = 502;
        body = kStrangersPage;
        break;
      case 3: {
        ++tally_.wrong_digests;
        const std::string ours = sha256_hex(exchange->sending.body);
        const std::size_t place = body.find(ours);
        if (place != std::string::npos) body.replace(place, ours.size(), sha256_hex(body));
        break;
      }
      case 4:
        ++tally_.others_answers;
        body = earlier_answer_;
        break;
      default:
        delay = luck_.between(1'000, 2 * kPatience);
        break;
    }
  } else if (response.status == 200 || response.status == 201) {
    earlier_answer_ = response.body;
  }
  settle(exchange, delay, status, std::move(body));
}

void Network::settle(const Shared& exchange, std::int64_t after, int status, std::string body,
                     std::int64_t retry_after) {
  timeline_.after(after, [this, exchange, status, body = std::move(body), retry_after] {
    if (exchange->settled) return;
    exchange->settled = true;
    const Sending& sending = exchange->sending;
    Phone& phone = *exchange->phone;
    const bool heard =
        phone.answer(sending.opening, {status, body, sha256_hex(sending.body), retry_after});
    if (heard && retry_after > 0)
      asked_[&phone] = {sending.path, sending.opening,
                        phone.now() + std::min(retry_after, kLongestRetryAfter) * 1000};
  });
}

}  // namespace trowelbell::fault
