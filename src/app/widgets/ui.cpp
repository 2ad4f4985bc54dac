#include "app/widgets/ui.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

#include "app/drawings/icons.h"
#include "app/drawings/picture.h"

namespace trowelbell {
namespace {

constexpr float kWidestColumn = 620;  // longer lines are hard to read at arm's length
constexpr float kDragThreshold = 8;   // a wobble below this is still a tap
constexpr float kInertiaSeconds = 0.325f;
constexpr float kLowScreen = 480;  // below this height a wide screen has its bars at the side
constexpr float kWideScreen = 540;
constexpr float kReadable = 10;  // px: no letters smaller than this

ImVec2 corner(Rect rect) {
  return {rect.x, rect.y};
}
ImVec2 far_corner(Rect rect) {
  return {rect.right(), rect.bottom()};
}

ImFont& font_of(const Fonts& fonts, Type type) {
  return type_bold(type) ? *fonts.bold : *fonts.regular;
}

}  // namespace

Rect Rect::column(int index, int count, float gap) const {
  const float each = (width - gap * static_cast<float>(count - 1)) / static_cast<float>(count);
  return {x + static_cast<float>(index) * (each + gap), y, each, height};
}

Rect Rect::row(int index, int count, float gap) const {
  const float each = (height - gap * static_cast<float>(count - 1)) / static_cast<float>(count);
  return {x, y + static_cast<float>(index) * (each + gap), width, each};
}

// --- One frame
// -------------------------------------------------------------------------------------------------------

void Ui::begin(const Frame& frame) {
  frame_ = frame;
  nodes_.clear();
  bars_.clear();
  spilled_.clear();
  side_ = {};
  in_bar_ = false;
  animating_ = false;
  by_finger_ = false;
  in_body_ = false;
  const Viewport& view = frame.viewport;
  free_ = {view.inset_left, view.inset_top, view.width - view.inset_left - view.inset_right,
           view.height - view.inset_top - std::max(view.inset_bottom, view.bottom_covered)};

  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(0, 0));
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0, 0));
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0.0f);
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize({view.width, view.height});
  ImGui::Begin("page", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                   ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoNav |
                   ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoScrollWithMouse);
  draw().AddRectFilled({0, 0}, {view.width, view.height}, colors().ground);
}

void Ui::end() {
  ImGui::End();
  ImGui::PopStyleVar(3);
  std::reverse(bars_.begin(), bars_.end());
  for (auto& bar : bars_) {
    // A mirrored row is read from the left all the same.
    if (frame_.left_handed && !bar.empty() && bar.front().role != Role::group)
      std::stable_sort(bar.begin(), bar.end(),
                       [](const Node& a, const Node& b) { return a.x < b.x; });
    nodes_.insert(nodes_.end(), bar.begin(), bar.end());
  }
  // What was not met in this frame is gone: a late click must not press a button of the next
  // screen.
  activated_.clear();
  has_typed_ = false;
  bring_focus_ = false;
  reset_scroll_.clear();
}

ImDrawList& Ui::draw() {
  return *ImGui::GetWindowDrawList();
}

// --- From the mirror
// -------------------------------------------------------------------------------------------------

void Ui::focus(std::string_view id) {
  focused_ = id;
  bring_focus_ = !id.empty();
}

void Ui::type(std::string_view id, std::string_view text) {
  typed_id_ = id;
  typed_text_ = text;
  // Lines are welcome in a note; no other control character is.
  for (char& c : typed_text_) {
    if (static_cast<unsigned char>(c) < 0x20 && c != '\n') c = ' ';
  }
  has_typed_ = true;
}

// --- Layout
// ----------------------------------------------------------------------------------------------------------

bool Ui::sideways() const {
  return frame_.viewport.height < kLowScreen && frame_.viewport.width >= kWideScreen;
}

float Ui::bar_scale() const {
  const float height = frame_.viewport.height;
  return std::min(frame_.scale, height < 360 ? 1.0f : height < 600 ? 1.1f : 1.25f);
}

// In bars, too, things stay together on a wide screen.
Rect Ui::across(Rect strip) const {
  if (sideways()) return strip;
  const float width = std::min(strip.width, kWidestColumn * frame_.scale + 2 * kMargin);
  return {strip.x + (strip.width - width) / 2, strip.y, width, strip.height};
}

float Ui::side_width(float of) const {
  return std::clamp(of * 0.34f, 220.0f, 280.0f);
}

// Taken from the right of what is free, once something needs it.
Rect& Ui::side() {
  if (side_.width <= 0) {
    const float width = side_width(free_.width);
    side_ = take_column(width, frame_.left_handed);
  }
  return side_;
}

float Ui::bar_width() const {
  if (!sideways()) return top_width();
  return (side_.width > 0 ? side_.width : side_width(free_.width)) - 2 * kMargin;
}

float Ui::top_width() const {
  return across(free_).width - 2 * kMargin;
}

Rect Ui::top(float height) {
  in_bar_ = false;
  const Rect strip{free_.x, free_.y, free_.width, height};
  free_.y += height;
  free_.height -= height;
  return across(strip);
}

Rect Ui::top_aside(float height) {
  if (!sideways()) return top(height);
  in_bar_ = false;
  Rect& column = side();
  const Rect strip{column.x, column.y, column.width, height};
  column.y += height;
  column.height -= height;
  return strip;
}

Rect Ui::bottom(float height) {
  bars_.emplace_back();
  in_bar_ = true;
  Rect& from = sideways() ? side() : free_;
  from.height -= height;
  return across({from.x, from.bottom(), from.width, height});
}

Rect Ui::rail(float width) {
  bars_.emplace_back();
  in_bar_ = true;
  return take_column(width, !frame_.left_handed);
}

// From the left or from the right of what is free.
Rect Ui::take_column(float width, bool left) {
  const Rect column{left ? free_.x : free_.right() - width, free_.y, width, free_.height};
  if (left) free_.x += width;
  free_.width -= width;
  return column;
}

Rect Ui::handed(Rect place, Rect row) const {
  if (frame_.left_handed) place.x = row.x + row.right() - place.right();
  return place;
}

bool Ui::fits(float height) const {
  const float used = column_.y + ImGui::GetScrollY() - free_.y;
  return used + height <= free_.height;
}

void Ui::begin_body(std::string_view id) {
  in_bar_ = false;
  body_ = id;
  ImGui::SetCursorScreenPos(corner(free_));
  ImGui::BeginChild(
      body_.c_str(), {free_.width, std::max(free_.height, 1.0f)}, ImGuiChildFlags_None,
      ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoNav | ImGuiWindowFlags_NoScrollbar);
  if (reset_scroll_ == id) ImGui::SetScrollY(0);
  scroll_by_drag();
  in_body_ = true;
  const float width = std::min(free_.width - 2 * kMargin, kWidestColumn * frame_.scale);
  column_ = {free_.x + (free_.width - width) / 2, ImGui::GetCursorScreenPos().y + 8, width, 0};
}

void Ui::end_body() {
  ImGui::SetCursorScreenPos({free_.x, column_.y});
  ImGui::Dummy({1, kMargin});
  // A hint that there is more below: without it, words cut off at the edge look like the end.
  if (ImGui::GetScrollY() < ImGui::GetScrollMaxY() - 4) {
    const Color ground = colors().ground;
    const Color clear = faded(ground, 0);
    const float y = free_.bottom();
    draw().AddRectFilledMultiColor({free_.x, y - 34}, {free_.right(), y}, clear, clear, ground,
                                   ground);
    icon("down", free_.x + free_.width / 2, y - 10, 18, colors().ink_soft);
  }
  ImGui::EndChild();
  in_body_ = false;
}

// Dear ImGui scrolls by wheel only: a finger drags the body, and a drag presses nothing.
void Ui::scroll_by_drag() {
  const ImGuiIO& io = ImGui::GetIO();
  const bool inside = ImGui::IsWindowHovered(ImGuiHoveredFlags_AllowWhenBlockedByActiveItem);
  if (inside && ImGui::IsMouseClicked(ImGuiMouseButton_Left)) {
    drag_y_ = io.MousePos.y;
    dragging_ = false;
    velocity_ = 0;
  }
  const bool down = ImGui::IsMouseDown(ImGuiMouseButton_Left);
  if (down && !dragging_ && inside &&
      std::abs(io.MousePos.y - io.MouseClickedPos[0].y) > kDragThreshold &&
      ImGui::GetScrollMaxY() > 0) {
    dragging_ = true;
    drag_y_ = io.MouseClickedPos[0].y;
    ImGui::ClearActiveID();
  }
  const float seconds = std::clamp(io.DeltaTime, 0.001f, 0.1f);
  if (down && dragging_) {
    ImGui::ClearActiveID();
    const float moved = drag_y_ - io.MousePos.y;
    ImGui::SetScrollY(std::clamp(ImGui::GetScrollY() + moved, 0.0f, ImGui::GetScrollMaxY()));
    velocity_ = velocity_ * 0.4f + moved / seconds * 0.6f;
    drag_y_ = io.MousePos.y;
  } else if (!down) {
    dragging_ = false;
    if (frame_.still) velocity_ = 0;
    if (std::abs(velocity_) > 20) {
      const float to = ImGui::GetScrollY() + velocity_ * seconds;
      ImGui::SetScrollY(std::clamp(to, 0.0f, ImGui::GetScrollMaxY()));
      velocity_ *= std::exp(-seconds / kInertiaSeconds);
      if (to < 0 || to > ImGui::GetScrollMaxY()) velocity_ = 0;
      animate();
    } else {
      velocity_ = 0;
    }
  }
}

Rect Ui::strip(float height) {
  const Rect rect{column_.x, column_.y, column_.width, height};
  column_.y += height;
  return rect;
}

void Ui::gap(float height) {
  column_.y += height;
}

void Ui::scroll_to_top(std::string_view body) {
  reset_scroll_ = body;
  velocity_ = 0;
}

void Ui::begin_card() {
  card_top_ = column_.y;
  draw().ChannelsSplit(2);
  draw().ChannelsSetCurrent(1);
  column_.x += kMargin;
  column_.width -= 2 * kMargin;
  column_.y += kMargin * 0.8f;
}

void Ui::end_card() {
  column_.y += kMargin * 0.8f;
  column_.x -= kMargin;
  column_.width += 2 * kMargin;
  const Rect card{column_.x, card_top_, column_.width, column_.y - card_top_};
  draw().ChannelsSetCurrent(0);
  draw().AddRectFilled(corner(card), far_corner(card), colors().card, kRound);
  draw().AddRect(corner(card), far_corner(card), faded(colors().line, 0.6f), kRound, 0, 1.0f);
  draw().ChannelsMerge();
  gap();
}

// --- Words
// -----------------------------------------------------------------------------------------------------------

float Ui::size_of(Type type) const {
  return type_size(type) * (in_body_ ? frame_.scale : bar_scale());
}

// A word stays whole down to 80 % of the size that its type has at a text scale of 1.
SetText Ui::set(Type type, std::string_view text, float width, Fit fit, float size) const {
  return set_text(font_of(frame_.fonts, type), size > 0 ? size : size_of(type),
                  type_size(type) * 0.8f, text, width, fit);
}

float Ui::widest_line(Type type, const SetText& text) const {
  float widest = 0;
  for (const std::string_view line : text.lines)
    widest = std::max(widest, line_width(font_of(frame_.fonts, type), text.size, line));
  return widest;
}

float Ui::text_height(Type type, std::string_view text, float width, Fit fit) const {
  return set(type, text, width, fit).height();
}

float Ui::text_width(Type type, std::string_view text) const {
  return line_width(font_of(frame_.fonts, type), size_of(type), text);
}

void Ui::paint_lines(float x, float y, float width, Type type, const SetText& text, Color color,
                     Align align) {
  ImFont& font = font_of(frame_.fonts, type);
  const float leading = text.size * (kLineHeight - 1) / 2;  // half above, half below, as on paper
  for (const std::string_view line : text.lines) {
    float shift = 0;
    if (align != Align::left)
      shift = (width - line_width(font, text.size, line)) * (align == Align::middle ? 0.5f : 1.0f);
    draw().AddText(&font, text.size, {std::round(x + shift), std::round(y + leading)}, color,
                   line.data(), line.data() + line.size());
    y += text.size * kLineHeight;
  }
  if (!text.lines.empty() && (!text.whole || text.size < kReadable))
    spilled_.emplace_back(text.lines.front());
}

void Ui::heading(std::string_view id, int level, std::string_view text) {
  heading(id, level, level == 1 ? Type::title : Type::large, text);
}

void Ui::heading(std::string_view id, int level, Type type, std::string_view text) {
  const SetText lines = set(type, text, column_.width, Fit::wrap);
  const Rect rect = strip(lines.height());
  paint_lines(rect.x, rect.y, rect.width, type, lines, colors().ink, Align::left);
  emit({.id = std::string(id), .role = Role::heading, .name = std::string(text), .level = level},
       rect);
  gap(4);
}

void Ui::paragraph(std::string_view id, Type type, Color color, std::string_view text,
                   Speech speech) {
  const SetText lines = set(type, text, column_.width, Fit::wrap);
  const Rect rect = strip(lines.height());
  paint_lines(rect.x, rect.y, rect.width, type, lines, color, Align::left);
  emit_words(id, rect, text, speech);
}

void Ui::marked(std::string_view id, std::string_view sign, Color color, Type type,
                std::string_view text) {
  const float size = size_of(type);
  const float indent = size * 1.5f;
  const SetText lines = set(type, text, column_.width - indent, Fit::wrap);
  const Rect rect = strip(lines.height());
  icon(sign, rect.x + size * 0.5f, rect.y + size * kLineHeight * 0.5f, size, color);
  // Bold words take the sign's color; running text stays ink, and so do words beside marigold,
  // which has the contrast for shapes only.
  const bool colored = type_bold(type) && color != colors().marigold;
  paint_lines(rect.x + indent, rect.y, rect.width - indent, type, lines,
              colored ? color : colors().ink, Align::left);
  emit({.id = std::string(id), .name = std::string(text)}, rect);
  gap(4);
}

void Ui::words(std::string_view id, Rect rect, Type type, Color color, Align align,
               std::string_view text, Speech speech, Fit fit) {
  paint_words(rect, type, color, align, text, fit);
  emit_words(id, rect, text, speech);
}

void Ui::emit_words(std::string_view id, Rect rect, std::string_view text, Speech speech) {
  constexpr Role kRoles[] = {Role::text, Role::status, Role::alert, Role::timer};
  emit({.id = std::string(id),
        .role = kRoles[static_cast<std::size_t>(speech)],
        .name = std::string(text)},
       rect);
}

void Ui::paint_words(Rect rect, Type type, Color color, Align align, std::string_view text,
                     Fit fit) {
  const SetText lines = set(type, text, rect.width, fit);
  const float over = lines.height() - rect.height;
  paint_lines(rect.x, rect.y + std::max(0.0f, -over / 2), rect.width, type, lines, color, align);
  if (over > 1) spilled_.emplace_back(text);
}

// --- Nodes
// -----------------------------------------------------------------------------------------------------------

void Ui::emit(const Node& node, Rect rect) {
  Node& placed = layer().emplace_back(node);
  placed.x = rect.x;
  placed.y = rect.y;
  placed.width = rect.width;
  placed.height = rect.height;
  if (!in_body_) return;
  placed.clip_top = free_.y;
  placed.clip_bottom = free_.bottom();
}

void Ui::ring(std::string_view id, Rect rect) {
  if (id != focused_) return;
  const Rect around = rect.inset(-3);
  draw().AddRect(corner(around), far_corner(around), colors().ground, kRound, 0, 5.0f);
  draw().AddRect(corner(around), far_corner(around), colors().ink, kRound, 0, 3.0f);
  if (!bring_focus_ || !in_body_) return;
  const float above = rect.y - kMargin - free_.y;
  const float below = rect.bottom() + 2 * kMargin - free_.bottom();
  if (above < 0)
    ImGui::SetScrollY(std::max(0.0f, ImGui::GetScrollY() + above));
  else if (below > 0)
    ImGui::SetScrollY(ImGui::GetScrollY() + std::min(below, above));
  velocity_ = 0;
  animate();
}

Ui::Touch Ui::touch(std::string_view id, Rect rect, bool enabled) {
  Touch touch;
  if (!enabled || rect.width <= 0 || rect.height <= 0) return touch;
  ImGui::SetCursorScreenPos(corner(rect));
  touch.tapped = ImGui::InvisibleButton(std::string(id).c_str(), {rect.width, rect.height});
  touch.down = ImGui::IsItemActive();
  if (touch.tapped) by_finger_ = true;
  if (activated_ == id) {
    touch.tapped = true;
    activated_.clear();
  }
  return touch;
}

void Ui::icon(std::string_view name, float x, float y, float size, Color color) {
  draw_icon(draw(), name, x, y, size, color);
}

void Ui::picture(std::string_view id, std::string_view drawing, std::string_view description,
                 float height) {
  const Rect rect = strip(height);
  draw_picture(draw(), drawing, rect, colors());
  emit({.id = std::string(id), .role = Role::image, .name = std::string(description)}, rect);
}

void Ui::rule() {
  const Rect rect = strip(1);
  draw().AddLine(corner(rect), {rect.right(), rect.y}, faded(colors().line, 0.5f), 1.0f);
}

}  // namespace trowelbell
