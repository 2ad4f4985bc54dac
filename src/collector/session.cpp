#include "session.h"

#include <array>
#include <boost/asio/buffer.hpp>
#include <boost/asio/dispatch.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/write.hpp>
#include <cstdio>
#include <ctime>

#include "answers.h"

namespace trowelbell::collector {

namespace net = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;

namespace {

// After an error a client may still be sending; read this much so that it gets to see the answer.
constexpr std::size_t kMostDiscarded = 16 * 1024 * 1024;
constexpr auto kLinger = std::chrono::seconds(2);

// IMF-fixdate of RFC 9110, 5.6.7; always English.
std::string http_date() {
  constexpr std::array<const char*, 7> kDays = {"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"};
  constexpr std::array<const char*, 12> kMonths = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                   "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const std::time_t now = std::time(nullptr);
  std::tm utc{};
  gmtime_r(&now, &utc);
  std::array<char, 64> text{};
  std::snprintf(text.data(), text.size(), "%s, %02d %s %d %02d:%02d:%02d GMT",
                kDays[static_cast<std::size_t>(utc.tm_wday)], utc.tm_mday,
                kMonths[static_cast<std::size_t>(utc.tm_mon)], utc.tm_year + 1900, utc.tm_hour,
                utc.tm_min, utc.tm_sec);
  return text.data();
}

std::string joined(const http::fields& fields, http::field name) {
  std::string value;
  const auto [first, last] = fields.equal_range(name);
  for (auto field = first; field != last; ++field) {
    if (!value.empty()) value += ", ";
    value += std::string_view(field->value().data(), field->value().size());
  }
  return value;
}

Request to_request(http::request<http::string_body>&& message) {
  return {
      std::string(message.method_string()),           std::string(message.target()),
      joined(message, http::field::authorization),    joined(message, http::field::content_type),
      joined(message, http::field::content_encoding), joined(message, http::field::accept_encoding),
      joined(message, http::field::if_none_match),    std::move(message.body())};
}

}  // namespace

Session::Session(net::ip::tcp::socket&& socket, HttpServer& server)
    : server_(server),
      stream_(std::move(socket)),
      buffer_(server.limits_.header_bytes + server.limits_.body_bytes) {}

Session::~Session() {
  server_.leave(this);
}

void Session::start() {
  net::dispatch(stream_.get_executor(), [self = shared_from_this()] { self->read_header(); });
}

void Session::turn_away() {
  net::dispatch(stream_.get_executor(), [self = shared_from_this()] {
    self->finishing_ = self->unread_ = true;
    self->pattern_ = "full";
    self->answer(busy_answer());
  });
}

void Session::finish() {
  net::post(stream_.get_executor(), [self = shared_from_this()] {
    self->finishing_ = true;
    if (self->waiting_ && !self->parser_->got_some()) self->close();
  });
}

void Session::cut() {
  net::post(stream_.get_executor(), [self = shared_from_this()] { self->close(); });
}

void Session::read_header() {
  parser_.emplace();
  parser_->header_limit(server_.limits_.header_bytes);
  parser_->body_limit(server_.limits_.long_body_bytes);
  method_.clear();
  pattern_ = "-";
  waiting_ = true;
  // One deadline for the whole request: a byte now and then does not move it.
  stream_.expires_after(server_.limits_.request);
  http::async_read_header(stream_, buffer_, *parser_,
                          [self = shared_from_this()](Error error, std::size_t) {
                            self->waiting_ = false;
                            if (error)
                              self->refuse(error);
                            else
                              self->read_body();
                          });
}

// Whether the body may come, now that the header tells who asks for what. Sets its limit.
bool Session::limit_body() {
  const auto& header = parser_->get();
  const Route route = find_route(std::string(header.target()));
  if (may_be_long(joined(header, http::field::authorization), route, server_.service_)) {
    stream_.expires_after(server_.limits_.answer);  // a picture may take its time
    return true;
  }
  const auto length = parser_->content_length();
  if (length && *length > server_.limits_.body_bytes) return false;
  if (!parser_->is_done()) parser_->body_limit(server_.limits_.body_bytes);
  return true;
}

void Session::read_body() {
  if (!limit_body()) return refuse(http::error::body_limit);
  const auto& header = parser_->get();
  if (!parser_->is_done() && header.version() >= 11 &&
      beast::iequals(header[http::field::expect], "100-continue")) {
    constexpr std::string_view kContinue = "HTTP/1.1 100 Continue\r\n\r\n";
    Error error;
    // 25 bytes into an empty send buffer: this cannot block.
    net::write(stream_.socket(), net::buffer(kContinue), error);
  }
  http::async_read(stream_, buffer_, *parser_,
                   [self = shared_from_this()](Error error, std::size_t) {
                     if (error)
                       self->refuse(error);
                     else
                       self->handle();
                   });
}

// Answers what is not a request in order, as far as somebody is there to hear it.
void Session::refuse(Error error) {
  finishing_ = unread_ = true;
  if (error == http::error::body_limit || error == http::error::buffer_overflow)
    answer(too_large_answer());
  else if (error == http::error::header_limit)
    answer(header_too_large_answer());
  else if (error.category() == make_error_code(http::error::end_of_stream).category() &&
           error != http::error::end_of_stream && error != http::error::partial_message)
    answer(malformed_answer());
  else
    close();  // gone, or too slow
}

void Session::handle() {
  stream_.expires_never();
  auto message = parser_->release();
  method_ = std::string(message.method_string());
  const bool one_host = message.version() < 11 || message.count(http::field::host) == 1;
  if (!message.keep_alive()) finishing_ = true;
  if (!one_host) {
    finishing_ = true;
    answer(malformed_answer());
    return;
  }
  try {
    const Request request = to_request(std::move(message));
    const Route route = find_route(request.target);
    pattern_ = route.pattern;
    Decision decision = decide(request, route, server_.service_);
    if (auto* response = std::get_if<Response>(&decision))
      answer(std::move(*response));
    else
      submit(std::move(std::get<NewReport>(decision)));
  } catch (const std::exception& error) {
    std::fprintf(stderr, "trowelbell-collector: %s\n", error.what());
    answer(failure_answer());
  }
}

void Session::submit(NewReport&& report) {
  report_ = std::move(report);
  const bool queued =
      server_.writer_.submit(report_, [self = shared_from_this()](const Outcome& outcome) {
        net::post(self->stream_.get_executor(),
                  [self, outcome] { self->answer(report_answer(self->report_, outcome)); });
      });
  if (!queued) answer(busy_answer());
}

void Session::answer(Response&& response) {
  response_ = std::move(response);
  server_.log(method_, pattern_, response_.status);
  message_ = Message();
  message_.result(static_cast<unsigned>(response_.status));
  message_.version(11);
  message_.set(http::field::date, http_date());
  for (const Field& field : response_.fields) message_.insert(field.name, field.value);
  for (const Field& field : security_fields()) message_.set(field.name, field.value);
  const bool bodiless = response_.status == 204 || response_.status == 304;
  const std::string_view content = response_.content();
  if (!bodiless) message_.content_length(content.size());
  if (!bodiless && !response_.head)
    message_.body() = beast::span<const char>(content.data(), content.size());
  message_.keep_alive(!finishing_);
  stream_.expires_after(server_.limits_.answer);
  http::async_write(stream_, message_, [self = shared_from_this()](Error error, std::size_t) {
    if (!error && self->unread_)
      self->linger();
    else if (error || self->finishing_)
      self->close();
    else
      self->read_header();
  });
}

// Closing while the client still sends would throw our answer away with the connection: say that we
// are done, and read on for a moment.
void Session::linger() {
  Error error;
  stream_.socket().shutdown(net::ip::tcp::socket::shutdown_send, error);
  if (error) return close();
  if (discarded_ == 0) stream_.expires_after(kLinger);
  buffer_.clear();
  stream_.async_read_some(buffer_.prepare(16 * 1024),
                          [self = shared_from_this()](Error ended, std::size_t bytes) {
                            self->discarded_ += bytes;
                            if (ended || self->discarded_ > kMostDiscarded)
                              self->close();
                            else
                              self->linger();
                          });
}

void Session::close() {
  stream_.close();
}

}  // namespace trowelbell::collector
