// A small HTTP client over a plain socket, so that a test can send what no library would.
#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace trowelbell::collector::testing {

struct Answer {
  int status = 0;
  std::map<std::string, std::string> fields;  // names in lower case
  std::string body;
};

class Connection {
 public:
  // To a port on this machine. REQUIREs that it can be reached.
  explicit Connection(unsigned short port);
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  ~Connection();

  // False when the other side has closed.
  bool send(std::string_view bytes);
  // One whole answer, or nothing where the connection ends or `patience` runs out first.
  std::optional<Answer> receive(bool head = false,
                                std::chrono::milliseconds patience = std::chrono::seconds(5));
  std::optional<Answer> ask(std::string_view bytes, bool head = false);
  // Whether the other side closes within this time; what it sends before is thrown away.
  bool ends_within(std::chrono::milliseconds patience);

 private:
  bool fill(std::chrono::steady_clock::time_point until);
  int socket_ = -1;
  std::string buffer_;
  bool ended_ = false;
};

std::string get_text(const std::string& target, const std::string& more_fields = "");
std::string put_text(const std::string& target, const std::string& key, const std::string& body,
                     const std::string& more_fields = "");

}  // namespace trowelbell::collector::testing
