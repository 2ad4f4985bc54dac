// Phones that send reports to a running collector as fast as they are answered.
#pragma once

#include <atomic>
#include <string>
#include <thread>
#include <vector>

namespace trowelbell::collector::testing {

class Connection;

struct Sent {
  std::string target;
  std::string body;
  std::string answer;  // "" for one that was not confirmed
};

// Until the collector goes, or end().
class Phones {
 public:
  // `visit` must be known there under kKey; `round` makes the devices of one round its own.
  Phones(unsigned short port, const std::string& visit, int count, int round);
  Phones(const Phones&) = delete;
  Phones& operator=(const Phones&) = delete;
  ~Phones();

  int confirmed() const { return count_; }
  // Stops, and gives all that was sent: confirmed, and the last of each phone that was not.
  std::vector<Sent> end();

 private:
  void send(Connection& connection, const std::string& visit, int phone, int round);

  std::atomic<bool> stop_ = false;
  std::atomic<int> count_ = 0;
  std::vector<std::vector<Sent>> sent_;
  std::vector<std::thread> threads_;
};

// How many of the confirmed ones the collector does not know any more. Each is sent again and must
// get the answer it had: 200, and the moment of the first time.
int count_lost(unsigned short port, const std::vector<Sent>& sent);

}  // namespace trowelbell::collector::testing
