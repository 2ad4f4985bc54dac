// One connection: reads a request, answers it, and again while the client keeps it open.
#pragma once

#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http.hpp>
#include <optional>

#include "http_server.h"

namespace trowelbell::collector {

class Session : public std::enable_shared_from_this<Session> {
 public:
  Session(boost::asio::ip::tcp::socket&& socket, HttpServer& server);
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;
  ~Session();

  void start();
  void turn_away();  // 503: the house is full

  // From any thread. finish: ends after the request under way, at once where there is none. cut:
  // ends now.
  void finish();
  void cut();

 private:
  using Parser = boost::beast::http::request_parser<boost::beast::http::string_body>;
  using Error = boost::beast::error_code;
  // Writes from memory that lives elsewhere: a file of the site is never copied.
  using Message = boost::beast::http::response<boost::beast::http::span_body<const char>>;

  void read_header();
  bool limit_body();
  void read_body();
  void refuse(Error error);
  void handle();
  void submit(NewReport&& report);
  void answer(Response&& response);
  void linger();
  void close();

  HttpServer& server_;
  boost::beast::tcp_stream stream_;
  boost::beast::flat_buffer buffer_;
  std::optional<Parser> parser_;
  NewReport report_;
  Response response_;
  Message message_;
  std::string method_;
  std::string_view pattern_;
  std::size_t discarded_ = 0;
  bool waiting_ = false;  // for the first byte of a request
  bool finishing_ = false;
  bool unread_ = false;  // the client may still be sending what nobody will read
};

}  // namespace trowelbell::collector
