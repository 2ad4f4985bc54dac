#include "client.h"

#include <arpa/inet.h>
#include <doctest/doctest.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace trowelbell::collector::testing {

using Clock = std::chrono::steady_clock;

Connection::Connection(unsigned short port)
    : socket_(socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(port);
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  REQUIRE(connect(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0);
}

Connection::~Connection() {
  close(socket_);
}

bool Connection::send(std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  return true;
}

bool Connection::fill(Clock::time_point until) {
  const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now());
  pollfd ready{socket_, POLLIN, 0};
  if (poll(&ready, 1, std::max(0, static_cast<int>(left.count()))) <= 0) return false;
  std::array<char, 16 * 1024> bytes{};
  const ssize_t size = recv(socket_, bytes.data(), bytes.size(), 0);
  ended_ = size <= 0;
  if (ended_) return false;
  buffer_.append(bytes.data(), static_cast<std::size_t>(size));
  return true;
}

std::optional<Answer> Connection::receive(bool head, std::chrono::milliseconds patience) {
  const auto until = Clock::now() + patience;
  while (buffer_.find("\r\n\r\n") == std::string::npos)
    if (!fill(until)) return std::nullopt;
  Answer answer;
  answer.status = std::stoi(buffer_.substr(9, 3));
  const std::size_t end = buffer_.find("\r\n\r\n");
  for (std::size_t line = buffer_.find("\r\n") + 2; line < end;) {
    const std::size_t next = buffer_.find("\r\n", line);
    const std::size_t colon = buffer_.find(':', line);
    std::string name = buffer_.substr(line, colon - line);
    std::ranges::transform(name, name.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    answer.fields[name] = buffer_.substr(colon + 2, next - colon - 2);
    line = next + 2;
  }
  buffer_.erase(0, end + 4);
  const auto length = answer.fields.find("content-length");
  if (head || length == answer.fields.end()) return answer;
  const std::size_t size = std::stoul(length->second);
  while (buffer_.size() < size)
    if (!fill(until)) return std::nullopt;
  answer.body = buffer_.substr(0, size);
  buffer_.erase(0, size);
  return answer;
}

std::optional<Answer> Connection::ask(std::string_view bytes, bool head) {
  if (!send(bytes)) return std::nullopt;
  return receive(head);
}

bool Connection::ends_within(std::chrono::milliseconds patience) {
  const auto until = Clock::now() + patience;
  while (fill(until)) buffer_.clear();
  return ended_;
}

std::string get_text(const std::string& target, const std::string& more_fields) {
  return "GET " + target + " HTTP/1.1\r\nHost: here\r\n" + more_fields + "\r\n";
}

std::string put_text(const std::string& target, const std::string& key, const std::string& body,
                     const std::string& more_fields) {
  return "PUT " + target + " HTTP/1.1\r\nHost: here\r\nAuthorization: Bearer " + key +
         "\r\nContent-Type: application/json\r\nContent-Length: " + std::to_string(body.size()) +
         "\r\n" + more_fields + "\r\n" + body;
}

}  // namespace trowelbell::collector::testing
