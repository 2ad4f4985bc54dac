#include "host/web/node_text.h"

#include <cmath>
#include <string_view>
#include <utility>

namespace trowelbell {
namespace {

std::string_view role_name(Role role) {
  switch (role) {
    case Role::heading:
      return "heading";
    case Role::text:
      return "text";
    case Role::button:
      return "button";
    case Role::toggle:
      return "toggle";
    case Role::checkbox:
      return "checkbox";
    case Role::tab:
      return "tab";
    case Role::textbox:
      return "textbox";
    case Role::image:
      return "image";
    case Role::progress:
      return "progress";
    case Role::timer:
      return "timer";
    case Role::alert:
      return "alert";
    case Role::status:
      return "status";
    case Role::group:
      return "group";
    case Role::group_end:
      return "group_end";
  }
  return "text";
}

// Written by hand: this runs in every frame of a scroll.
class Writer {
 public:
  void quoted(std::string_view text) {
    constexpr char kHex[] = "0123456789abcdef";
    out += '"';
    for (const char c : text) {
      if (c == '"' || c == '\\') {
        out += '\\';
        out += c;
      } else if (static_cast<unsigned char>(c) < 0x20) {
        out += "\\u00";
        out += kHex[c >> 4];
        out += kHex[c & 15];
      } else {
        out += c;
      }
    }
    out += '"';
  }
  void key(std::string_view name) {
    out += ',';
    quoted(name);
    out += ':';
  }
  void text(std::string_view name, std::string_view value) {
    if (value.empty()) return;
    key(name);
    quoted(value);
  }
  void whole(std::string_view name, int value) {
    if (value == 0) return;
    key(name);
    out += std::to_string(value);
  }
  void pixels(std::string_view name, std::span<const float> values) {
    key(name);
    char before = '[';
    for (const float value : values) {
      out += before;
      out += std::to_string(std::lround(value));
      before = ',';
    }
    out += ']';
  }

  std::string out;
};

void write(Writer& writer, const Node& node) {
  writer.out += "{\"id\":";
  writer.quoted(node.id);
  writer.text("role", role_name(node.role));
  writer.text("name", node.name);
  writer.text("value", node.value);
  writer.text("hint", node.hint);
  writer.whole("level", node.level);
  writer.whole("percent", static_cast<int>(std::lround(node.fraction * 100)));
  writer.whole("checked", node.checked);
  writer.whole("selected", node.selected);
  writer.whole("disabled", node.disabled);
  writer.whole("most", node.most_bytes);
  const float rect[] = {node.x, node.y, node.width, node.height};
  writer.pixels("rect", rect);
  if (node.role == Role::textbox) {
    writer.whole("lines", node.lines);
    const float clip[] = {node.clip_top, node.clip_bottom};
    if (node.clip_bottom > node.clip_top) writer.pixels("clip", clip);
  }
  writer.out += '}';
}

}  // namespace

std::string node_text(std::span<const Node> nodes) {
  Writer writer;
  writer.out.reserve(nodes.size() * 120);
  writer.out += '[';
  for (const Node& node : nodes) {
    if (writer.out.size() > 1) writer.out += ',';
    write(writer, node);
  }
  writer.out += ']';
  return std::move(writer.out);
}

}  // namespace trowelbell
