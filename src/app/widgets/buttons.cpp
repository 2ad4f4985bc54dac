// The things to tap: buttons, checkboxes, tabs, steppers, fields.
#include <imgui.h>

#include <algorithm>

#include "app/widgets/lines.h"
#include "app/widgets/ui.h"

namespace trowelbell {
namespace {

constexpr float kIconShare = 1.35f;  // an icon beside words, in parts of their size
constexpr float kOutline = 2.0f;

struct Looks {
  Color fill, line, words;
};

Looks looks_of(const Palette& colors, ButtonLook look, bool enabled) {
  if (!enabled) return {0, faded(colors.line, 0.6f), faded(colors.ink_soft, 0.75f)};
  switch (look) {
    case ButtonLook::go:
      return {colors.leaf, 0, colors.on_leaf};
    case ButtonLook::plain:
    case ButtonLook::choice:
      return {colors.card, colors.ink, colors.ink};
    case ButtonLook::care:
      return {colors.brick, 0, colors.on_brick};
    case ButtonLook::quiet:
      return {0, 0, colors.ink};
    case ButtonLook::chosen:
      return {colors.card, colors.leaf, colors.ink};
  }
  return {0, colors.ink, colors.ink};
}

}  // namespace

float Ui::button_height(const ButtonText& text, float width) const {
  const float indent = text.icon.empty() ? 0 : size_of(Type::strong) * kIconShare + 8;
  const float room = width - 2 * 14 - indent;
  float height = 2 * 12 + text_height(Type::strong, text.label, room);
  if (!text.detail.empty()) height += text_height(Type::small, text.detail, room);
  return std::max(height, 56.0f);
}

bool Ui::wide_button(std::string_view id, const ButtonText& text, ButtonLook look, bool enabled) {
  const bool hit = button(id, strip(button_height(text, column_.width)), text, look, enabled);
  gap();
  return hit;
}

bool Ui::beside(std::string_view id, const ButtonText& text) {
  const float width = std::max(64.0f, text_width(Type::strong, text.label) + 32);
  const Rect rect{column_.right() - width, column_.y, width, std::max(52.0f, 42 * frame_.scale)};
  beside_width_ = width + 12;
  beside_bottom_ = rect.bottom();
  column_.width -= beside_width_;
  return button(id, rect, text, ButtonLook::plain);
}

void Ui::end_beside() {
  if (beside_width_ <= 0) return;
  column_.width += beside_width_;
  column_.y = std::max(column_.y, beside_bottom_);
  beside_width_ = 0;
}

bool Ui::button(std::string_view id, Rect rect, const ButtonText& text, ButtonLook look,
                bool enabled) {
  const Touch touched = touch(id, rect, enabled);
  const Looks looks = looks_of(colors(), look, enabled);
  const ImVec2 a{rect.x, rect.y}, b{rect.right(), rect.bottom()};
  if (looks.fill != 0) draw().AddRectFilled(a, b, looks.fill, kRound);
  if (looks.line != 0) {
    const float line = look == ButtonLook::chosen ? 4.0f : kOutline;
    draw().AddRect({a.x + line / 2, a.y + line / 2}, {b.x - line / 2, b.y - line / 2}, looks.line,
                   kRound, 0, line);
  }
  if (touched.down) draw().AddRectFilled(a, b, faded(colors().ink, 0.18f), kRound);

  const float size = size_of(Type::strong);
  Rect inside = rect.inset(look == ButtonLook::quiet ? 0 : rect.width < 90 ? 4 : 14, 4);
  const bool only_icon = text.label.empty();
  if (!text.icon.empty()) {
    const float icon_size = size * kIconShare;
    if (only_icon) {
      icon(text.icon, rect.x + rect.width / 2, rect.y + rect.height / 2, icon_size, looks.words);
    } else if (rect.width <
               120) {  // too narrow for both on one line: the icon stands above a small label
      icon(text.icon, rect.x + rect.width / 2, rect.y + rect.height * 0.34f, icon_size * 0.85f,
           looks.words);
      paint_words({inside.x, rect.y + rect.height * 0.52f, inside.width, rect.height * 0.44f},
                  Type::tiny, looks.words, Align::middle, text.label);
      inside.height = 0;
    } else {
      const float words =
          std::min(text_width(Type::strong, text.label), inside.width - icon_size - 8);
      const float room = look == ButtonLook::quiet
                             ? 0
                             : std::max(0.0f, (inside.width - words - icon_size - 8) / 2);
      const float left = inside.x + room;
      icon(text.icon, left + icon_size / 2, rect.y + rect.height / 2, icon_size, looks.words);
      inside = {left + icon_size + 8, inside.y, inside.right() - left - icon_size - 8,
                inside.height};
    }
  }
  if (!only_icon && inside.height > 0) {
    const Align align = text.icon.empty() ? Align::middle : Align::left;
    if (text.detail.empty()) {
      paint_words(inside, Type::strong, looks.words, align, text.label);
    } else {
      const float label = text_height(Type::strong, text.label, inside.width);
      const float detail = text_height(Type::small, text.detail, inside.width);
      const float y = inside.y + std::max(0.0f, (inside.height - label - detail) / 2);
      paint_words({inside.x, y, inside.width, label}, Type::strong, looks.words, align, text.label);
      paint_words({inside.x, y + label, inside.width, detail}, Type::small, looks.words, align,
                  text.detail);
    }
  }
  Node node{.id = std::string(id), .role = Role::button, .name = text.label, .hint = text.detail};
  if (look == ButtonLook::chosen || look == ButtonLook::choice) {
    node.role = Role::toggle;
    node.checked = look == ButtonLook::chosen;
  }
  node.disabled = !enabled;
  emit(node, rect);
  ring(id, rect);
  return touched.tapped;
}

bool Ui::checkbox(std::string_view id, std::string_view text, bool checked) {
  const float size = size_of(Type::body);
  const float box = std::max(30.0f, size * 1.4f);
  const float indent = box + 12;
  const Rect rect =
      strip(std::max(kTarget, text_height(Type::body, text, column_.width - indent) + 14));
  const Touch touched = touch(id, rect, true);
  const float y = rect.y + (rect.height - box) / 2;
  const ImVec2 a{rect.x, y}, b{rect.x + box, y + box};
  if (checked) draw().AddRectFilled(a, b, colors().leaf, 8);
  draw().AddRect(a, b, checked ? colors().leaf : colors().ink, 8, 0, kOutline);
  if (checked) icon("check", rect.x + box / 2, y + box / 2, box * 0.8f, colors().on_leaf);
  if (touched.down) draw().AddRectFilled(a, b, faded(colors().ink, 0.18f), 8);
  paint_words({rect.x + indent, rect.y, rect.width - indent, rect.height}, Type::body,
              checked ? colors().ink_soft : colors().ink, Align::left, text, Fit::wrap);
  emit({.id = std::string(id),
        .role = Role::checkbox,
        .name = std::string(text),
        .checked = checked},
       rect);
  ring(id, rect);
  gap(4);
  return touched.tapped;
}

bool Ui::tab(std::string_view id, Rect rect, std::string_view label, std::string_view sign,
             bool selected, Color color) {
  const Touch touched = touch(id, rect, true);
  const ImVec2 a{rect.x + 3, rect.y + 4}, b{rect.right() - 3, rect.bottom() - 4};
  if (selected) draw().AddRect(a, b, colors().ink, 14, 0, 2.5f);
  if (touched.down) draw().AddRectFilled(a, b, faded(colors().ink, 0.12f), 14);
  icon(sign, rect.x + rect.width / 2, rect.y + rect.height * 0.34f, 24, color);
  const Type type = selected ? Type::strong : Type::body;
  // The bar keeps its height at every text scale; its labels grow only as far as they fit.
  const float size = std::min(13.5f * frame_.scale, 13.5f * 1.25f);
  const float needed = text_width(type, label) * size / (size_of(type));
  const float fit = needed > rect.width - 10 ? size * (rect.width - 10) / needed : size;
  paint_lines(rect.x + 1, rect.y + rect.height * 0.58f, rect.width - 2, type, fit, color,
              Align::middle, label);
  emit({.id = std::string(id), .role = Role::tab, .name = std::string(label), .selected = selected},
       rect);
  ring(id, rect.inset(4));
  return touched.tapped;
}

int Ui::stepper(std::string_view id, std::string_view name, std::string_view less,
                std::string_view more, std::int64_t value, Color color) {
  const std::string base(id);
  const float side = std::max(kTarget, 44 * frame_.scale);
  const float numbers = 52 * frame_.scale;
  const float label = column_.width - 2 * side - numbers - 8;
  const Rect rect = strip(std::max(side, text_height(Type::body, name, label)));
  paint_words({rect.x, rect.y, label, rect.height}, Type::body, color, Align::left, name);
  emit({.id = base, .name = std::string(name) + ": " + std::to_string(value)},
       {rect.x, rect.y, label, rect.height});
  const float y = rect.y + (rect.height - side) / 2;
  const Rect minus{rect.right() - 2 * side - numbers, y, side, side};
  const Rect plus{rect.right() - side, y, side, side};
  int change = 0;
  if (button(base + ".less", minus, {"", "", "minus"}, ButtonLook::plain, value > 0)) change = -1;
  name_last(less);
  paint_words({minus.right(), rect.y, numbers, rect.height}, Type::large, color, Align::middle,
              std::to_string(value));
  if (button(base + ".more", plus, {"", "", "plus"}, ButtonLook::plain)) change = 1;
  name_last(more);
  gap(8);
  return change;
}

bool Ui::target(Rect rect, const Node& node) {
  const Touch touched = touch(node.id, rect, !node.disabled);
  if (touched.down) {
    draw().AddRectFilled({rect.x, rect.y}, {rect.right(), rect.bottom()},
                         faded(colors().ink, 0.18f), kRound);
  }
  emit(node, rect);
  ring(node.id, rect);
  return touched.tapped;
}

bool Ui::field(std::string_view id, std::string_view name, std::string_view hint,
               std::string& value, int most_bytes, int lines) {
  const float size = size_of(Type::body);
  paint_words(strip(text_height(Type::strong, name, column_.width)), Type::strong, colors().ink,
              Align::left, name);
  gap(4);
  const Rect rect = strip(static_cast<float>(lines) * size * kLineHeight + 24);
  draw().AddRectFilled({rect.x, rect.y}, {rect.right(), rect.bottom()}, colors().card, 10);
  draw().AddRect({rect.x, rect.y}, {rect.right(), rect.bottom()}, colors().ink, 10, 0, kOutline);
  bool changed = false;
  if (has_typed_ && typed_id_ == id) {
    changed = typed_text_ != value;
    value = typed_text_;
    has_typed_ = false;
  }
  emit({.id = std::string(id),
        .role = Role::textbox,
        .name = std::string(name),
        .value = value,
        .hint = std::string(hint),
        .most_bytes = most_bytes,
        .lines = lines,
        .clip_top = in_body_ ? free_.y : 0,
        .clip_bottom = in_body_ ? free_.bottom() : 0},
       rect);
  ring(id, rect);
  gap();
  return changed;
}

}  // namespace trowelbell
