// HTTP/1.1 over Boost.Beast: connections, limits and deadlines. What a request means is the
// handlers'.
#pragma once

#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/steady_timer.hpp>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>
#include <unordered_map>

#include "handlers.h"
#include "writer.h"

namespace trowelbell::collector {

struct HttpLimits {
  std::uint32_t header_bytes = 8 * 1024;
  std::uint64_t body_bytes = 64 * 1024;
  std::uint64_t long_body_bytes = 4 * 1024 * 1024;  // where may_be_long() says so
  std::size_t connections = 512;                    // above that: 503 and good-bye
  std::chrono::milliseconds request{10'000};        // from the wait for a request to its last byte
  std::chrono::milliseconds answer{60'000};         // to the last byte a slow phone takes
  std::chrono::milliseconds farewell{3'000};        // for requests under way when stopping
};

class Session;

class HttpServer {
 public:
  // Binds at once, so that a busy port is told here (boost::system::system_error); answers after
  // start(). Everything referred to must outlive the server.
  HttpServer(const std::string& address, unsigned short port, Service& service, Writer& writer,
             HttpLimits limits = {}, bool log = false);
  ~HttpServer() { stop(); }
  HttpServer(const HttpServer&) = delete;
  HttpServer& operator=(const HttpServer&) = delete;

  unsigned short port() const { return port_; }
  void start(int threads);

  // Takes no new connection, lets requests under way end (for at most limits.farewell), drains the
  // writer, and returns when every thread has ended.
  void stop();

 private:
  friend class Session;
  using Acceptor = boost::asio::ip::tcp::acceptor;

  void accept();
  bool enter(const std::shared_ptr<Session>& session);
  void leave(const Session* session);
  // Calls `what` for every session, without the lock held.
  void each_session(void (Session::*what)());
  void log(const std::string& method, std::string_view pattern, int status) const;

  Service& service_;
  Writer& writer_;
  const HttpLimits limits_;
  const bool log_;
  unsigned short port_ = 0;
  std::mutex mutex_;
  std::condition_variable left_;
  std::unordered_map<const Session*, std::weak_ptr<Session>> sessions_;
  bool stopping_ = false;
  // Last, and so the first to go: handlers that never ran still hold sessions, which report back
  // above.
  boost::asio::io_context context_;
  // The threads end when stop() says so, never because nothing seems to be left to do.
  boost::asio::executor_work_guard<boost::asio::io_context::executor_type> busy_;
  Acceptor acceptor_;
  boost::asio::steady_timer pause_;
  std::vector<std::thread> threads_;
};

}  // namespace trowelbell::collector
