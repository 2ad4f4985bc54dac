// What one widget on the screen means, beside how it looks. Every widget emits its node in the call
// that draws it. One tree serves three: the page's mirror for screen readers and keyboards, browser
// tests, headless tests.
#pragma once

#include <string>

namespace trowelbell {

enum class Role {
  heading,  // level 1..3
  text,
  button,
  toggle,    // a button that stays pressed: `checked`
  checkbox,  // `checked`
  tab,       // `selected`
  textbox,   // `value`; a real field of the page lies over it
  image,     // `name` describes the drawing
  progress,  // `value` is spoken; `fraction` 0..1
  timer,     // `value` changes by itself and is not announced
  alert,     // announced at once when it appears
  status,    // announced politely when it changes
  group,     // a named group: nodes up to the matching `group_end`
  group_end,
};

struct Node {
  std::string id;  // stable, readable: "lesson.next", "room.place.5"
  Role role = Role::text;
  std::string name;  // what it is called, in the language on screen
  std::string value;
  std::string hint;  // textbox: input hint; others: more about it, may be empty
  int level = 0;
  float fraction = 0;
  bool checked = false;
  bool selected = false;
  bool disabled = false;
  int most_bytes = 0;  // textbox
  int lines = 1;       // textbox: its rectangle holds so many lines, and 12 px above and below them
  float clip_top = 0, clip_bottom = 0;  // in the part that scrolls: where that part begins and
                                        // ends; 0, 0: elsewhere
  float x = 0, y = 0, width = 0, height = 0;  // CSS pixels, page coordinates
  bool operator==(const Node&) const = default;
};

}  // namespace trowelbell
