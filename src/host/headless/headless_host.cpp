#include "host/headless/headless_host.h"

#include <sodium.h>

#include <array>
#include <fstream>
#include <iterator>
#include <utility>

namespace trowelbell {

std::string sha256_hex(std::string_view bytes) {
  std::array<unsigned char, crypto_hash_sha256_BYTES> digest{};
  crypto_hash_sha256(digest.data(), reinterpret_cast<const unsigned char*>(bytes.data()),
                     bytes.size());
  std::array<char, crypto_hash_sha256_BYTES * 2 + 1> hex{};
  sodium_bin2hex(hex.data(), hex.size(), digest.data(), digest.size());
  return hex.data();
}

HeadlessHost::HeadlessHost(std::filesystem::path content, MemoryStore& store)
    : content_(std::move(content)), store_(store) {}

void HeadlessHost::deliver() {
  if (!hold_acknowledgements) {
    std::move(held_.begin(), held_.end(), std::back_inserter(answers_));
    held_.clear();
  }
  while (!answers_.empty()) {
    const Answer answer = std::move(answers_.front());
    answers_.pop_front();
    if (listener_ != nullptr) answer(*listener_);
  }
}

void HeadlessHost::pass(std::int64_t ms) {
  wall_ += ms;
  monotonic_ += ms;
}

std::string HeadlessHost::random_hex(std::size_t digits) {
  std::string hex;
  while (hex.size() < digits) hex += "0123456789abcdef"[random_() % 16];
  return hex;
}

void HeadlessHost::refresh() {
  for (const std::string& stream : opened_) open_stream(stream);
}

void HeadlessHost::open_names() {
  answers_.emplace_back([this](HostListener& listener) { listener.names_opened(store_.names); });
}

void HeadlessHost::ask_storage() {
  answers_.emplace_back([this](HostListener& listener) { listener.storage_told(storage); });
}

void HeadlessHost::write_here() {
  answers_.emplace_back([](HostListener& listener) { listener.writes_here(true); });
  refresh();
}

void HeadlessHost::open_stream(std::string_view stream) {
  opened_.emplace(stream);
  answers_.emplace_back([this, name = std::string(stream)](HostListener& listener) {
    listener.stream_opened(name, store_.records(name), store_.health(name));
  });
}

void HeadlessHost::append(std::string_view stream, std::string_view record, std::int64_t token) {
  const bool ok = store_.append(stream, record);
  (hold_acknowledgements ? held_ : answers_).emplace_back([token, ok](HostListener& listener) {
    listener.appended(token, ok);
  });
}

void HeadlessHost::fetch(std::string_view path) {
  constexpr std::string_view kFolder = "content/";
  const std::string_view inside = path.starts_with(kFolder) ? path.substr(kFolder.size()) : "";
  std::ifstream file(content_ / inside, std::ios::binary);
  const bool ok = file.is_open();
  std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  answers_.emplace_back([name = std::string(path), ok, text = std::move(text)](
                            HostListener& listener) { listener.fetched(name, ok, text); });
}

void HeadlessHost::send(std::string_view path, std::string_view bearer, std::string_view body) {
  sent_bodies.emplace_back(body);
  SendResult result;
  if (network) result = network(path, bearer, body);
  if (result.sent_digest.empty()) result.sent_digest = sha256_hex(body);
  answers_.emplace_back(
      [result = std::move(result)](HostListener& listener) { listener.sent(result); });
}

void HeadlessHost::show_nodes(std::span<const Node> shown, std::string_view language) {
  nodes.assign(shown.begin(), shown.end());
  nodes_language = language;
}

void HeadlessHost::announce(std::string_view text, bool urgent) {
  announcements.push_back({std::string(text), urgent});
}

void HeadlessHost::set_page(std::string_view title, std::string_view language, bool dark) {
  page = {std::string(title), std::string(language), dark};
}

void HeadlessHost::save_file(std::string_view name, std::string_view media_type,
                             std::string_view text) {
  saved.push_back({std::string(name), std::string(media_type), std::string(text)});
}

void HeadlessHost::pick_file() {
  if (picked_file.empty()) return;
  answers_.emplace_back([this](HostListener& listener) { listener.file_opened(picked_file); });
}

void HeadlessHost::print_text(std::string_view title, std::string_view text) {
  printed.push_back({std::string(title), std::string(text)});
}

}  // namespace trowelbell
