#include "host/web/web_host.h"

#include <emscripten.h>
#include <imgui.h>

#include <chrono>
#include <utility>

#include "host/web/node_text.h"

// Names in quotes: an optimiser of the JavaScript must not rename them. A text comes as its first
// byte and its length in bytes.
// clang-format off
EM_JS(void, js_open_stream, (const char* stream, int length), {
  Module['host']['open_stream'](UTF8ToString(stream, length));
});
EM_JS(void, js_append, (const char* stream, int stream_length, const char* record, int length, double token), {
  Module['host']['append'](UTF8ToString(stream, stream_length), UTF8ToString(record, length), token);
});
EM_JS(void, js_open_names, (), { Module['host']['open_names'](); });
EM_JS(void, js_keep_names, (const char* text, int length), {
  Module['host']['keep_names'](UTF8ToString(text, length));
});
EM_JS(void, js_ask_storage, (), { Module['host']['ask_storage'](); });
EM_JS(void, js_write_here, (), { Module['host']['write_here'](); });
EM_JS(void, js_fetch, (const char* path, int length), {
  Module['host']['fetch'](UTF8ToString(path, length));
});
EM_JS(void, js_send, (const char* path, int path_length, const char* bearer, int bearer_length, const char* body, int length), {
  Module['host']['send'](UTF8ToString(path, path_length), UTF8ToString(bearer, bearer_length), UTF8ToString(body, length));
});
EM_JS(void, js_show_nodes, (const char* json, int length, const char* language, int language_length), {
  Module['host']['show_nodes'](UTF8ToString(json, length), UTF8ToString(language, language_length));
});
EM_JS(void, js_announce, (const char* text, int length, int urgent), {
  Module['host']['announce'](UTF8ToString(text, length), !!urgent);
});
EM_JS(void, js_set_page, (const char* title, int length, const char* language, int language_length, int dark), {
  Module['host']['set_page'](UTF8ToString(title, length), UTF8ToString(language, language_length), !!dark);
});
EM_JS(int, js_prefers_dark, (), { return Module['host']['prefers_dark']() ? 1 : 0; });
EM_JS(int, js_prefers_still, (), { return Module['host']['prefers_still']() ? 1 : 0; });
EM_JS(void, js_preferred_language, (char* into, int size), {
  stringToUTF8(Module['host']['preferred_language'](), into, size);
});
EM_JS(void, js_random_hex, (char* into, int size), {
  stringToUTF8(Module['host']['random_hex'](size - 1), into, size);
});
EM_JS(double, js_monotonic_ms, (), { return Module['host']['monotonic_ms'](); });
EM_JS(void, js_save_file, (const char* name, int name_length, const char* type, int type_length, const char* text, int length), {
  Module['host']['save_file'](UTF8ToString(name, name_length), UTF8ToString(type, type_length), UTF8ToString(text, length));
});
EM_JS(void, js_pick_file, (), { Module['host']['pick_file'](); });
EM_JS(void, js_print_text, (const char* title, int title_length, const char* text, int length), {
  Module['host']['print_text'](UTF8ToString(title, title_length), UTF8ToString(text, length));
});
EM_JS(void, js_keep_awake, (int awake), { Module['host']['keep_awake'](!!awake); });
EM_JS(void, js_buzz, (int kind), { Module['host']['buzz'](kind); });
EM_JS(void, js_push_history, (), { Module['host']['push_history'](); });
EM_JS(void, js_request_frame, (), { Module['host']['request_frame'](); });
EM_JS(void, js_set_timer, (double ms), { Module['host']['set_timer'](ms); });
EM_JS(int, js_font_bytes, (int face), { return Module['host']['font_bytes'](face); });
EM_JS(void, js_copy_font, (int face, void* into), { HEAPU8.set(Module['host']['font'](face), into); });
// clang-format on

namespace trowelbell {
namespace {

int bytes(std::string_view text) {
  return static_cast<int>(text.size());
}

}  // namespace

std::int64_t WebHost::wall_ms() {
  const auto since_1970 = std::chrono::system_clock::now().time_since_epoch();
  return std::chrono::duration_cast<std::chrono::milliseconds>(since_1970).count();
}
std::int64_t WebHost::monotonic_ms() {
  return static_cast<std::int64_t>(js_monotonic_ms());
}

std::string WebHost::random_hex(std::size_t digits) {
  std::string hex(digits + 1, '\0');
  js_random_hex(hex.data(), static_cast<int>(hex.size()));
  hex.resize(digits);
  return hex;
}

void WebHost::open_stream(std::string_view stream) {
  js_open_stream(stream.data(), bytes(stream));
}

void WebHost::append(std::string_view stream, std::string_view record, std::int64_t token) {
  js_append(stream.data(), bytes(stream), record.data(), bytes(record), static_cast<double>(token));
}

void WebHost::open_names() {
  js_open_names();
}
void WebHost::keep_names(std::string_view text) {
  js_keep_names(text.data(), bytes(text));
}
void WebHost::ask_storage() {
  js_ask_storage();
}
void WebHost::write_here() {
  js_write_here();
}

void WebHost::fetch(std::string_view path) {
  js_fetch(path.data(), bytes(path));
}

void WebHost::send(std::string_view path, std::string_view bearer, std::string_view body) {
  js_send(path.data(), bytes(path), bearer.data(), bytes(bearer), body.data(), bytes(body));
}

void WebHost::show_nodes(std::span<const Node> nodes, std::string_view language) {
  std::string json = node_text(nodes);
  if (json == shown_) return;
  shown_ = std::move(json);
  js_show_nodes(shown_.data(), bytes(shown_), language.data(), bytes(language));
}

void WebHost::announce(std::string_view text, bool urgent) {
  js_announce(text.data(), bytes(text), urgent);
}

void WebHost::set_page(std::string_view title, std::string_view language, bool dark) {
  dark_ = dark;
  js_set_page(title.data(), bytes(title), language.data(), bytes(language), dark);
}

bool WebHost::prefers_dark() {
  return js_prefers_dark() != 0;
}
bool WebHost::prefers_still() {
  return js_prefers_still() != 0;
}

std::string WebHost::preferred_language() {
  char tag[36];  // the longest that BCP 47 asks for is 35
  js_preferred_language(tag, sizeof tag);
  return tag;
}

void WebHost::save_file(std::string_view name, std::string_view media_type, std::string_view text) {
  js_save_file(name.data(), bytes(name), media_type.data(), bytes(media_type), text.data(),
               bytes(text));
}

void WebHost::pick_file() {
  js_pick_file();
}

void WebHost::print_text(std::string_view title, std::string_view text) {
  js_print_text(title.data(), bytes(title), text.data(), bytes(text));
}

void WebHost::keep_awake(bool awake) {
  js_keep_awake(awake);
}
void WebHost::buzz(Buzz kind) {
  js_buzz(static_cast<int>(kind));
}
void WebHost::push_history() {
  js_push_history();
}

void request_frame() {
  js_request_frame();
}
void set_timer(std::int64_t ms) {
  js_set_timer(static_cast<double>(ms));
}

void* font_bytes(int face, int& size) {
  size = js_font_bytes(face);
  void* into = ImGui::MemAlloc(static_cast<std::size_t>(size));
  js_copy_font(face, into);
  return into;
}

}  // namespace trowelbell
