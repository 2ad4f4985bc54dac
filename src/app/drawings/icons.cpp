#include "app/drawings/icons.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace trowelbell {
namespace {

// A pen on a 24 x 24 square centred on a point: icons are drawn in that square's units.
struct Pen {
  ImDrawList& list;
  ImVec2 centre;
  float unit;
  Color color;

  ImVec2 at(float x, float y) const {
    return {centre.x + (x - 12) * unit, centre.y + (y - 12) * unit};
  }
  float weight() const { return std::max(1.5f, 2.2f * unit); }
  void line(std::initializer_list<ImVec2> points, bool closed = false) const {
    for (const ImVec2 p : points) list.PathLineTo(at(p.x, p.y));
    list.PathStroke(color, closed ? ImDrawFlags_Closed : ImDrawFlags_None, weight());
  }
  void shape(std::initializer_list<ImVec2> points) const {
    for (const ImVec2 p : points) list.PathLineTo(at(p.x, p.y));
    list.PathFillConvex(color);
  }
  void circle(float x, float y, float r) const {
    list.AddCircle(at(x, y), r * unit, color, 0, weight());
  }
  void dot(float x, float y, float r) const { list.AddCircleFilled(at(x, y), r * unit, color); }
  void box(float x, float y, float w, float h, float round) const {
    list.AddRect(at(x, y), at(x + w, y + h), color, round * unit, 0, weight());
  }
  void curve(ImVec2 a, ImVec2 b, ImVec2 c, ImVec2 d) const {
    list.AddBezierCubic(at(a.x, a.y), at(b.x, b.y), at(c.x, c.y), at(d.x, d.y), color, weight());
  }
};

void lesson(const Pen& pen) {
  for (const float side : {-1.0f, 1.0f}) {
    pen.curve({12, 8}, {12 + side * 3, 4}, {12 + side * 7, 4}, {12 + side * 10, 6});
    pen.curve({12, 20}, {12 + side * 3, 16}, {12 + side * 7, 16}, {12 + side * 10, 18});
    pen.line({{12 + side * 10, 6}, {12 + side * 10, 18}});
  }
  pen.line({{12, 8}, {12, 20}});
}
void room(const Pen& pen) {
  pen.dot(6, 8, 3.2f);
  pen.dot(18, 8, 3.2f);
  pen.dot(12, 17, 3.2f);
}
void care(const Pen& pen) {
  pen.line({{12, 3}, {22, 20}, {2, 20}}, true);
  pen.line({{12, 9}, {12, 14}});
  pen.dot(12, 17, 1.3f);
}
void handover(const Pen& pen) {
  pen.line({{3, 12}, {14, 12}});
  pen.line({{9, 7}, {14, 12}, {9, 17}});
  pen.line({{20, 4}, {20, 20}});
}
void report(const Pen& pen) {
  pen.box(5, 3, 14, 18, 2);
  pen.line({{8, 9}, {16, 9}});
  pen.line({{8, 13}, {16, 13}});
  pen.line({{8, 17}, {13, 17}});
}
void brief(const Pen& pen) {
  pen.box(4, 5, 16, 14, 2);
  pen.line({{4, 7}, {12, 13}, {20, 7}});
}
void back(const Pen& pen) {
  pen.line({{15, 4}, {7, 12}, {15, 20}});
}
void undo(const Pen& pen) {
  pen.line({{9, 3}, {4, 8}, {9, 13}});
  pen.line({{4, 8}, {14, 8}});
  pen.curve({14, 8}, {22, 8}, {22, 20}, {14, 20});
  pen.line({{14, 20}, {8, 20}});
}
void hold(const Pen& pen) {
  pen.line({{8, 4}, {8, 20}});
  pen.line({{16, 4}, {16, 20}});
}
void play(const Pen& pen) {
  pen.shape({{7, 4}, {20, 12}, {7, 20}});
}
void check(const Pen& pen) {
  pen.line({{4, 13}, {10, 19}, {21, 6}});
}
void cross(const Pen& pen) {
  pen.line({{5, 5}, {19, 19}});
  pen.line({{19, 5}, {5, 19}});
}
void plus(const Pen& pen) {
  pen.line({{12, 5}, {12, 19}});
  pen.line({{5, 12}, {19, 12}});
}
void minus(const Pen& pen) {
  pen.line({{5, 12}, {19, 12}});
}
void down(const Pen& pen) {
  pen.line({{4, 9}, {12, 17}, {20, 9}});
}
void clock(const Pen& pen) {
  pen.circle(12, 12, 9);
  pen.line({{12, 6}, {12, 12}, {16, 15}});
}
void say(const Pen& pen) {
  pen.box(3, 4, 18, 12, 5);
  pen.line({{8, 16}, {7, 21}, {13, 16}});
}
void act(const Pen& pen) {
  pen.line({{4, 18}, {12, 18}, {20, 10}});
  pen.dot(7, 12, 2.4f);
  pen.dot(13, 8, 2.4f);
}
void ask(const Pen& pen) {
  pen.curve({7, 8}, {7, 2}, {17, 2}, {17, 8});
  pen.curve({17, 8}, {17, 12}, {12, 11}, {12, 15});
  pen.dot(12, 20, 1.6f);
}
void page(const Pen& pen) {
  pen.line({{6, 3}, {14, 3}, {19, 8}, {19, 21}, {6, 21}}, true);
  pen.line({{14, 3}, {14, 8}, {19, 8}});
}
void send(const Pen& pen) {
  pen.line({{3, 11}, {21, 3}, {14, 21}, {11, 14}}, true);
}
void file(const Pen& pen) {
  pen.line({{12, 3}, {12, 15}});
  pen.line({{7, 10}, {12, 15}, {17, 10}});
  pen.line({{4, 16}, {4, 20}, {20, 20}, {20, 16}});
}
void dot(const Pen& pen) {
  pen.dot(12, 12, 3.2f);
}
void leaf(const Pen& pen) {
  pen.curve({5, 19}, {3, 8}, {10, 4}, {20, 4});
  pen.curve({20, 4}, {20, 14}, {16, 21}, {5, 19});
  pen.line({{5, 19}, {14, 10}});
}
void sprout(const Pen& pen) {
  pen.line({{12, 21}, {12, 11}});
  pen.curve({12, 11}, {12, 5}, {5, 3}, {3, 5});
  pen.curve({3, 5}, {4, 10}, {8, 12}, {12, 11});
  pen.curve({12, 11}, {12, 5}, {19, 3}, {21, 5});
  pen.curve({21, 5}, {20, 10}, {16, 12}, {12, 11});
}

void chime(const Pen& pen) {
  pen.curve({5, 17}, {8, 13}, {5, 4}, {12, 4});
  pen.curve({12, 4}, {19, 4}, {16, 13}, {19, 17});
  pen.line({{4, 17}, {20, 17}});
  pen.dot(12, 20.5f, 1.8f);
}
void silent(const Pen& pen) {
  chime(pen);
  pen.line({{3, 3}, {21, 22}});
}
void letters(const Pen& pen) {
  pen.line({{1, 20}, {8, 3}, {15, 20}});
  pen.line({{4, 14}, {12, 14}});
  pen.line({{19, 20}, {19, 10}});
  pen.line({{16, 13}, {19, 9}, {22, 13}});
}

struct Icon {
  std::string_view name;
  void (*draw)(const Pen&);
};
constexpr Icon kIcons[] = {
    {"lesson", lesson},     {"book", lesson},   {"room", room},   {"care", care},
    {"handover", handover}, {"report", report}, {"brief", brief}, {"back", back},
    {"undo", undo},         {"hold", hold},     {"play", play},   {"check", check},
    {"cross", cross},       {"plus", plus},     {"minus", minus}, {"down", down},
    {"clock", clock},       {"say", say},       {"do", act},      {"ask", ask},
    {"page", page},         {"send", send},     {"file", file},   {"dot", dot},
    {"leaf", leaf},         {"sprout", sprout}, {"chime", chime}, {"silent", silent},
    {"letters", letters}};

const Icon* find(std::string_view name) {
  const auto* icon = std::find_if(std::begin(kIcons), std::end(kIcons),
                                  [name](const Icon& each) { return each.name == name; });
  return icon == std::end(kIcons) ? nullptr : icon;
}

}  // namespace

void draw_icon(ImDrawList& list, std::string_view name, float x, float y, float size, Color color) {
  if (const Icon* icon = find(name)) icon->draw({list, {x, y}, size / 24, color});
}

bool has_icon(std::string_view name) {
  return find(name) != nullptr;
}

}  // namespace trowelbell
