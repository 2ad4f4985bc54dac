#include "load.h"

#include <cstdio>

#include "client.h"
#include "support.h"

namespace trowelbell::collector::testing {

Phones::Phones(unsigned short port, const std::string& visit, int count, int round)
    : sent_(static_cast<std::size_t>(count)) {
  // All are connected before the first sends: whoever counts may stop the collector at any time.
  std::vector<std::shared_ptr<Connection>> connections;
  for (int i = 0; i < count; ++i) connections.push_back(std::make_shared<Connection>(port));
  for (int i = 0; i < count; ++i)
    threads_.emplace_back([this, connection = connections[static_cast<std::size_t>(i)], visit, i,
                           round] { send(*connection, visit, i, round); });
}

Phones::~Phones() {
  end();
}

std::vector<Sent> Phones::end() {
  stop_ = true;
  for (std::thread& thread : threads_) thread.join();
  threads_.clear();
  std::vector<Sent> all;
  for (const auto& of_phone : sent_) all.insert(all.end(), of_phone.begin(), of_phone.end());
  return all;
}

void Phones::send(Connection& connection, const std::string& visit, int phone, int round) {
  std::vector<Sent>& mine = sent_[static_cast<std::size_t>(phone)];
  char device[17];
  std::snprintf(device, sizeof device, "%08x%08x", static_cast<unsigned>(round),
                static_cast<unsigned>(phone));
  for (int revision = 1; !stop_; ++revision) {
    Sent& sent = mine.emplace_back(Sent{testing::report_path(visit, device, revision),
                                        dump_json(report(visit, device, revision)), ""});
    const auto answer = connection.ask(put_text(sent.target, kKey, sent.body));
    if (!answer || answer->status != 201) return;
    sent.answer = answer->body;
    ++count_;
  }
}

int count_lost(unsigned short port, const std::vector<Sent>& sent) {
  Connection connection(port);
  int lost = 0;
  for (const Sent& one : sent) {
    if (one.answer.empty()) continue;
    const auto answer = connection.ask(put_text(one.target, kKey, one.body));
    if (!answer || answer->status != 200 || answer->body != one.answer) ++lost;
  }
  return lost;
}

}  // namespace trowelbell::collector::testing
