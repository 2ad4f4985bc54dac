// The widgets. Each draws itself, emits its node and handles its tap in one call, so that what is
// seen, what a screen reader hears and what a test finds cannot differ. Screens use these and
// nothing of Dear ImGui.
#pragma once

#include <algorithm>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "app/app.h"
#include "app/widgets/lines.h"
#include "app/widgets/rect.h"
#include "app/widgets/theme.h"

struct ImDrawList;

namespace trowelbell {

enum class Align { left, middle, right };

enum class ButtonLook {
  go,      // the one thing to do next
  plain,   // outlined
  care,    // brick: safety
  listed,  // outlined, one of a list: its words begin at the left
  quiet,   // text only
  choice,  // one of several, outlined
  chosen,  // the current one of them
};

struct ButtonText {
  std::string label;
  std::string detail;  // a smaller second line, may be empty
  std::string icon;    // name of an icon, may be empty
};

// Where fast or repeated changes of words should not be read aloud.
enum class Speech { text, status, alert, timer };

class Ui {
 public:
  // --- One frame
  // ---------------------------------------------------------------------------------------------------
  struct Frame {
    Viewport viewport;
    Fonts fonts;
    bool dark = false;
    float scale = 1;     // text size, 1..2
    bool still = false;  // reduced motion
    bool left_handed = false;
    std::int64_t now = 0;  // ms, for animations only
  };
  void begin(const Frame& frame);
  void end();

  const Palette& colors() const { return palette(frame_.dark); }
  float scale() const { return frame_.scale; }
  // Of words in the bars around the body: they would push it off a small screen.
  float bar_scale() const;
  // A wide, low screen (a phone lying on its side) has its bars beside the body.
  bool sideways() const;
  const Viewport& viewport() const { return frame_.viewport; }
  ImDrawList& draw();
  // Something moves: draw again at once.
  void animate() { animating_ = true; }
  bool animating() const { return animating_; }
  bool still() const { return frame_.still; }
  std::int64_t now() const { return frame_.now; }

  // --- From the mirror
  // ---------------------------------------------------------------------------------------------
  void activate(std::string_view id) { activated_ = id; }
  void focus(std::string_view id);
  void type(std::string_view id, std::string_view text);
  const std::vector<Node>& nodes() const { return nodes_; }
  // Something was tapped on the glass in this frame, not through the mirror.
  bool by_finger() const { return by_finger_; }
  // Words of this frame that did not fit their place, or that are too small to read. Under test:
  // none, at any size.
  const std::vector<std::string>& spilled() const { return spilled_; }

  // --- Layout: strips from the top of the page, strips from its bottom, and a body that scrolls
  // between them. On a wide, low screen the strips from the bottom stand in a column at the side.
  Rect top(float height);
  Rect bottom(float height);
  // From the top of the column at the side, where there is one; otherwise from the top of the page.
  Rect top_aside(float height);
  // A column over the whole height, across from the one at the side.
  Rect rail(float width);
  // Where `place` of a row goes for the hand that taps: mirrored for the left one.
  Rect handed(Rect place, Rect row) const;
  // Between the margins of a strip from the bottom, and of one from the top.
  float bar_width() const;
  float top_width() const;
  void begin_body(std::string_view id);
  void end_body();
  // The next strip of the body, `height` tall.
  Rect strip(float height);
  void gap(float height = kGap);
  float body_width() const { return column_.width; }
  // Whether so much more is still seen of the body where it is not scrolled.
  bool fits(float height) const;
  // Back to the top of the body (a new step, a new page).
  void scroll_to_top(std::string_view body);
  // A card around what is drawn until end_card.
  void begin_card();
  void end_card();

  // --- Words
  // -------------------------------------------------------------------------------------------------------
  float text_height(Type type, std::string_view text, float width, Fit fit = Fit::wrap) const;
  float text_width(Type type, std::string_view text) const;
  void heading(std::string_view id, int level, std::string_view text);
  // In letters other than those of its level.
  void heading(std::string_view id, int level, Type type, std::string_view text);
  void paragraph(std::string_view id, Type type, Color color, std::string_view text,
                 Speech speech = Speech::text);
  // A line with a sign before it (an icon), wrapped beside it.
  void marked(std::string_view id, std::string_view icon, Color color, Type type,
              std::string_view text);
  // Inside a given place.
  void words(std::string_view id, Rect rect, Type type, Color color, Align align,
             std::string_view text, Speech speech = Speech::text, Fit fit = Fit::shrink);
  // Paint only: the words belong to a node that another call emits.
  void paint_words(Rect rect, Type type, Color color, Align align, std::string_view text,
                   Fit fit = Fit::shrink);

  // --- Things to tap
  // -----------------------------------------------------------------------------------------------
  bool button(std::string_view id, Rect rect, const ButtonText& text, ButtonLook look,
              bool enabled = true);
  // As tall as its words need.
  bool wide_button(std::string_view id, const ButtonText& text, ButtonLook look,
                   bool enabled = true);
  float button_height(const ButtonText& text, float width) const;
  // Of a row of buttons in `width`, as tall as the tallest needs.
  float row_height(std::span<const ButtonText> texts, float width) const;
  // Whether the words of buttons so wide stay whole.
  bool roomy(std::span<const ButtonText> texts, float width) const;
  // Room for a button at the right end of the column; what follows stands beside it until
  // end_beside draws it. Where both do not fit side by side, it goes below.
  void begin_beside(const ButtonText& text);
  bool end_beside(std::string_view id, const ButtonText& text);
  // True when it was tapped; the caller turns `checked` round.
  bool checkbox(std::string_view id, std::string_view text, bool checked);
  bool tab(std::string_view id, Rect rect, std::string_view label, std::string_view icon,
           bool selected, Color color);
  float tab_width(std::string_view label) const;  // that its label needs
  // "-" and "+" around a number; returns -1, 0 or 1. `name` is what is counted.
  int stepper(std::string_view id, std::string_view name, std::string_view less,
              std::string_view more, std::int64_t value, Color color);
  // A place in the room: a toggle with its own drawing made by the caller; true when tapped.
  bool target(Rect rect, const Node& node);
  // A field of the page lies over the frame drawn here. True when `value` changed.
  bool field(std::string_view id, std::string_view name, std::string_view hint, std::string& value,
             int most_bytes, int lines);

  // --- Drawn things
  // ------------------------------------------------------------------------------------------------
  void picture(std::string_view id, std::string_view drawing, std::string_view description,
               float height);
  void icon(std::string_view name, float x, float y, float size, Color color);
  void rule();
  void emit(const Node& node, Rect rect);
  // Gives the node emitted last its spoken name, where the widget has none of its own (an icon
  // alone).
  void name_last(std::string_view name) { layer().back().name = name; }
  // The same for its hint, where the widget has no room to show it.
  void hint_last(std::string_view hint) { layer().back().hint = hint; }
  // Draws the ring of keyboard focus where `id` has it, and brings it into view.
  void ring(std::string_view id, Rect rect);

 private:
  struct Touch {
    bool tapped = false;
    bool down = false;
  };
  // How a button's words stand in it.
  struct Face {
    float pad = 0;
    float icon = 0;      // its size; 0: none
    bool above = false;  // the icon stands above a small label, not beside it
    SetText label, detail;
  };
  Face face_of(const ButtonText& text, float width, ButtonLook look) const;
  void paint_face(const Face& face, const ButtonText& text, Rect rect, ButtonLook look,
                  Color words);
  float size_of(Type type) const;
  float widest_line(Type type, const SetText& text) const;
  SetText set(Type type, std::string_view text, float width, Fit fit, float size = 0) const;
  Rect across(Rect strip) const;
  Rect& side();
  Rect take_column(float width, bool left);
  float side_width(float of) const;
  Touch touch(std::string_view id, Rect rect, bool enabled);
  void emit_words(std::string_view id, Rect rect, std::string_view text, Speech speech);
  void scroll_by_drag();
  void paint_lines(float x, float y, float width, Type type, const SetText& text, Color color,
                   Align align);

  Frame frame_;
  Rect free_;    // what top() and bottom() have left
  Rect side_;    // what is left of the column at the side; width 0: there is none
  Rect column_;  // of the body
  float card_top_ = 0;
  Rect beside_;  // room kept for a button; width 0: none
  bool in_body_ = false;
  bool animating_ = false;
  bool by_finger_ = false;
  bool bring_focus_ = false;
  std::string activated_, focused_;
  std::string typed_id_, typed_text_;
  bool has_typed_ = false;
  std::string reset_scroll_;
  std::string body_;
  std::vector<std::string> spilled_;
  float drag_y_ = 0, velocity_ = 0;
  bool dragging_ = false;
  // Bars at the bottom are drawn before the body they leave room for, and read after it: each
  // bottom() opens a layer of its own, and end() puts the layers behind the rest, the lowest bar
  // last.
  std::vector<Node>& layer() { return in_bar_ ? bars_.back() : nodes_; }
  std::vector<Node> nodes_;
  std::vector<std::vector<Node>> bars_;
  bool in_bar_ = false;
};

}  // namespace trowelbell
