// The things to tap: buttons, checkboxes, tabs, steppers, fields.
#include <imgui.h>

#include <algorithm>

#include "app/widgets/ui.h"

namespace trowelbell {
namespace {

constexpr float kIconShare = 1.35f;  // an icon beside words, in parts of their size
constexpr float kIconGap = 8;
constexpr float kOutline = 2.0f;
constexpr float kTabSize = 13.5f;

struct Looks {
  Color fill, line, words;
};

Looks looks_of(const Palette& colors, ButtonLook look, bool enabled) {
  if (!enabled) return {0, faded(colors.line, 0.6f), faded(colors.ink_soft, 0.75f)};
  switch (look) {
    case ButtonLook::go:
      return {colors.leaf, 0, colors.on_leaf};
    case ButtonLook::plain:
    case ButtonLook::listed:
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

Ui::Face Ui::face_of(const ButtonText& text, float width, ButtonLook look) const {
  Face face;
  face.pad = look == ButtonLook::quiet ? 0.0f : width < 90 ? 4.0f : width < 130 ? 8.0f : 14.0f;
  const float inside = width - 2 * face.pad;
  float room = inside;
  if (!text.icon.empty()) {
    face.icon = size_of(Type::strong) * kIconShare;
    if (!text.label.empty()) room -= face.icon + kIconGap;
  }
  face.label = set(Type::strong, text.label, room, Fit::shrink);
  // Too narrow for both side by side.
  face.above = face.icon > 0 && !text.label.empty() && look != ButtonLook::quiet &&
               (width < 120 || (width < 200 && face.label.lines.size() > 1));
  if (face.above) face.label = set(Type::tiny, text.label, inside, Fit::shrink);
  face.detail = set(Type::small, text.detail, face.above ? inside : room, Fit::wrap);
  return face;
}

float Ui::button_height(const ButtonText& text, float width) const {
  const Face face = face_of(text, width, ButtonLook::plain);
  const float words = face.label.height() + face.detail.height();
  return std::max(face.above ? face.icon + words + 12 : words + 24, 56.0f);
}

float Ui::row_height(std::span<const ButtonText> texts, float width) const {
  const Rect row{0, 0, width, 0};
  const int columns = static_cast<int>(texts.size());
  float height = 0;
  for (const ButtonText& text : texts)
    height = std::max(height, button_height(text, row.column(0, columns).width));
  return height;
}

bool Ui::wide_button(std::string_view id, const ButtonText& text, ButtonLook look, bool enabled) {
  const bool hit = button(id, strip(button_height(text, column_.width)), text, look, enabled);
  gap();
  return hit;
}

bool Ui::roomy(std::span<const ButtonText> texts, float width) const {
  return width >= kTarget && std::all_of(texts.begin(), texts.end(), [&](const ButtonText& text) {
           return face_of(text, width, ButtonLook::plain).label.whole;
         });
}

void Ui::begin_beside(const ButtonText& text) {
  const float width = std::max(64.0f, text_width(Type::strong, text.label) + 32);
  const float least = 7.5f * size_of(Type::body);  // for what stands beside it
  if (column_.width - width - 12 < least) return;
  beside_ = handed({column_.right() - width, column_.y, width, std::max(52.0f, 42 * frame_.scale)},
                   column_);
  column_.width -= width + 12;
  if (frame_.left_handed) column_.x += width + 12;
}

bool Ui::end_beside(std::string_view id, const ButtonText& text) {
  if (beside_.width <= 0) {
    gap(6);
    return wide_button(id, text, ButtonLook::plain);
  }
  const Rect rect = beside_;
  beside_ = {};
  column_.width += rect.width + 12;
  if (frame_.left_handed) column_.x = rect.x;
  column_.y = std::max(column_.y, rect.bottom());
  return button(id, rect, text, ButtonLook::plain);
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

  paint_face(face_of(text, rect.width, look), text, rect, look, looks.words);
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

void Ui::paint_face(const Face& face, const ButtonText& text, Rect rect, ButtonLook look,
                    Color words) {
  const Rect inside = rect.inset(face.pad, 0);
  const float middle = rect.x + rect.width / 2;
  float y = rect.y + (rect.height - face.label.height() - face.detail.height()) / 2;
  if (y < rect.y) spilled_.push_back(text.label);
  if (text.label.empty()) {
    icon(text.icon, middle, rect.y + rect.height / 2, face.icon, words);
    return;
  }
  Align align = Align::middle;
  float x = inside.x;
  if (face.above) {
    const float size = face.icon * 0.85f;
    y += size / 2;
    icon(text.icon, middle, y - size / 2, size, words);
  } else if (face.icon > 0) {
    const float group =
        face.icon + kIconGap +
        std::max(widest_line(Type::strong, face.label), widest_line(Type::small, face.detail));
    const bool left = look == ButtonLook::quiet || look == ButtonLook::listed;
    if (!left) x += std::max(0.0f, (inside.width - group) / 2);
    icon(text.icon, x + face.icon / 2, rect.y + rect.height / 2, face.icon, words);
    x += face.icon + kIconGap;
    align = Align::left;
  }
  const float width = inside.right() - x;
  paint_lines(x, y, width, face.above ? Type::tiny : Type::strong, face.label, words, align);
  paint_lines(x, y + face.label.height(), width, Type::small, face.detail, words, align);
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
  gap(8);
  return touched.tapped;
}

// A bar keeps its measures at every text scale; its labels grow only as far as they fit.
float Ui::tab_width(std::string_view label) const {
  return text_width(Type::strong, label) * kTabSize * bar_scale() / size_of(Type::strong) + 12;
}

bool Ui::tab(std::string_view id, Rect rect, std::string_view label, std::string_view sign,
             bool selected, Color color) {
  const Touch touched = touch(id, rect, true);
  const ImVec2 a{rect.x, rect.y}, b{rect.right(), rect.bottom()};
  if (selected) draw().AddRect(a, b, colors().ink, 14, 0, 2.5f);
  if (touched.down) draw().AddRectFilled(a, b, faded(colors().ink, 0.12f), 14);
  icon(sign, rect.x + rect.width / 2, rect.y + rect.height * 0.34f, 24, color);
  const Type type = selected ? Type::strong : Type::body;
  const Rect words{rect.x + 5, rect.y + rect.height * 0.54f, rect.width - 10, rect.height * 0.36f};
  const SetText name = set(type, label, words.width, Fit::squeeze, kTabSize * bar_scale());
  paint_lines(words.x, words.y + (words.height - name.height()) / 2, words.width, type, name, color,
              Align::middle);
  emit({.id = std::string(id), .role = Role::tab, .name = std::string(label), .selected = selected},
       rect);
  ring(id, rect.inset(3));
  return touched.tapped;
}

int Ui::stepper(std::string_view id, std::string_view name, std::string_view less,
                std::string_view more, std::int64_t value, Color color) {
  const std::string base(id);
  const float side = std::max(kTarget, 44 * frame_.scale);
  const float numbers = 52 * frame_.scale;
  // In large letters on a small screen the name stands above.
  float label = column_.width - 2 * side - numbers - 8;
  const bool above = label < 6 * size_of(Type::body);
  if (above) label = column_.width;
  const float words = text_height(Type::body, name, label, Fit::shrink);
  const Rect place = strip(above ? words : std::max(side, words));
  const Rect rect = above ? strip(side) : place;
  const Rect words_place = handed({place.x, place.y, label, place.height}, place);
  paint_words(words_place, Type::body, color, Align::left, name);
  emit({.id = base, .name = std::string(name) + ": " + std::to_string(value)}, words_place);
  // "-" stays left of "+" for either hand.
  const Rect group = handed({rect.right() - 2 * side - numbers, rect.y + (rect.height - side) / 2,
                             2 * side + numbers, side},
                            rect);
  const Rect minus{group.x, group.y, side, side};
  const Rect plus{group.right() - side, group.y, side, side};
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
        .lines = lines},
       rect);
  ring(id, rect);
  gap();
  return changed;
}

}  // namespace trowelbell
