#include "http_server.h"

#include <boost/asio/ip/address.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/strand.hpp>
#include <cstdio>

#include "session.h"

namespace trowelbell::collector {

namespace net = boost::asio;
using tcp = net::ip::tcp;

HttpServer::HttpServer(const std::string& address, unsigned short port, Service& service,
                       Writer& writer, HttpLimits limits, bool log)
    : service_(service),
      writer_(writer),
      limits_(limits),
      log_(log),
      busy_(net::make_work_guard(context_)),
      acceptor_(net::make_strand(context_)),
      pause_(acceptor_.get_executor()) {
  const tcp::endpoint endpoint(net::ip::make_address(address), port);
  acceptor_.open(endpoint.protocol());
  acceptor_.set_option(tcp::acceptor::reuse_address(true));
  acceptor_.bind(endpoint);
  acceptor_.listen();
  port_ = acceptor_.local_endpoint().port();
}

void HttpServer::start(int threads) {
  accept();
  for (int i = 0; i < threads; ++i) threads_.emplace_back([this] { context_.run(); });
}

void HttpServer::accept() {
  acceptor_.async_accept(
      net::make_strand(context_), [this](boost::system::error_code error, tcp::socket socket) {
        if (error == net::error::operation_aborted || !acceptor_.is_open()) return;
        if (error) {  // out of descriptors, most likely: let some connections end first
          pause_.expires_after(std::chrono::milliseconds(50));
          pause_.async_wait([this](boost::system::error_code ended) {
            if (!ended) accept();
          });
          return;
        }
        const auto session = std::make_shared<Session>(std::move(socket), *this);
        if (enter(session))
          session->start();
        else
          session->turn_away();
        accept();
      });
}

bool HttpServer::enter(const std::shared_ptr<Session>& session) {
  const std::lock_guard lock(mutex_);
  const bool room = sessions_.size() < limits_.connections && !stopping_;
  sessions_.emplace(session.get(), session);
  return room;
}

void HttpServer::leave(const Session* session) {
  {
    const std::lock_guard lock(mutex_);
    sessions_.erase(session);
  }
  left_.notify_all();
}

void HttpServer::each_session(void (Session::*what)()) {
  std::vector<std::shared_ptr<Session>> present;
  {
    const std::lock_guard lock(mutex_);
    for (const auto& [key, weak] : sessions_)
      if (auto session = weak.lock()) present.push_back(std::move(session));
  }
  for (const auto& session : present) (session.get()->*what)();
}

void HttpServer::stop() {
  if (threads_.empty()) return;
  {
    const std::lock_guard lock(mutex_);
    stopping_ = true;
  }
  net::post(acceptor_.get_executor(), [this] {
    boost::system::error_code ignored;
    acceptor_.close(ignored);
    pause_.cancel();
  });
  each_session(&Session::finish);
  {
    std::unique_lock lock(mutex_);
    left_.wait_for(lock, limits_.farewell, [this] { return sessions_.empty(); });
  }
  // Before the io_context goes: what is queued is written, and its answers have a place to go.
  writer_.stop();
  each_session(&Session::cut);
  {
    std::unique_lock lock(mutex_);
    left_.wait_for(lock, std::chrono::milliseconds(500), [this] { return sessions_.empty(); });
  }
  context_.stop();
  for (std::thread& thread : threads_) thread.join();
  threads_.clear();
}

void HttpServer::log(const std::string& method, std::string_view pattern, int status) const {
  if (!log_) return;
  std::fprintf(stderr, "%s %.*s %d\n", method.c_str(), static_cast<int>(pattern.size()),
               pattern.data(), status);
}

}  // namespace trowelbell::collector
