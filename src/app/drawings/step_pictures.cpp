#include "app/drawings/motifs.h"
#include "app/drawings/pictures.h"

namespace trowelbell {
namespace {

void sign_in(const Pen& pen) {
  const Palette& c = pen.colors;
  pen.stroke(Path(46, 6).curve(56, 18, 66, 26, 72, 34), c.leaf, 6);
  pen.stroke(Path(104, 6).curve(94, 18, 84, 26, 78, 34), c.leaf, 6);
  pen.shape(box(38, 40, 74, 84, 7), pen.paper);
  pen.shape(box(66, 30, 18, 16, 4), c.soil_bare);
  pen.shape(Path(53, 98).curve(54, 82, 64, 78, 75, 78).curve(86, 78, 96, 82, 97, 98), c.leaf);
  draw_face(pen.at(75, 69), 14);
  pen.stroke({{54, 110}, {96, 110}}, pen.edge);
  const Pen stick = pen.at(134, 112).turned(28);
  stick.shape({{0, 0}, {-8, -18}, {-8, -84}, {8, -84}, {8, -18}}, pen.gold);
  stick.shape({{0, 0}, {-8, -18}, {8, -18}}, pen.paper);
  stick.shape(box(-8, -94, 16, 12, 3), c.brick);
  stick.stroke({{0, -28}, {0, -76}}, pen.edge, 2);
  pen.stroke(Path(124, 117).curve(136, 126, 148, 112, 160, 119).curve(168, 124, 176, 120, 186, 115),
             c.ink, 2.5f);
}

void wave(const Pen& pen) {
  draw_hand(pen.at(96, 110).turned(12).scaled(1.18f), pen.colors.leaf);
  const Color gold = pen.gold;
  pen.stroke(Path(150, 24).curve(162, 32, 168, 44, 168, 58), gold, 4);
  pen.stroke(Path(166, 12).curve(180, 24, 187, 40, 186, 60), gold, 4);
  pen.stroke(Path(56, 18).curve(44, 26, 37, 38, 36, 52), gold, 4);
  pen.stroke(Path(42, 6).curve(28, 17, 20, 32, 18, 50), gold, 4);
}

void circle(const Pen& pen) {
  const Palette& c = pen.colors;
  pen.shape(oval(100, 80, 88, 44), pen.gold);
  pen.stroke(oval(100, 80, 70, 32), pen.edge, 2);
  struct Place {
    float x, y;
    Color clothes;
  };
  const Place places[] = {{100, 56, c.leaf},  {62, 60, c.water},  {138, 60, c.brick},
                          {32, 82, c.brick},  {168, 82, c.water}, {54, 108, c.leaf},
                          {146, 108, c.leaf}, {100, 118, c.water}};
  for (const Place& place : places)
    draw_person(pen.at(place.x, place.y).scaled(0.6f), place.clothes);
}

void book(const Pen& pen) {
  const Palette& c = pen.colors;
  pen.shape(Path(8, 34).line(192, 34).line(192, 122).line(8, 122), c.brick);
  for (const float side : {-1.0f, 1.0f}) {
    const Pen page = pen.at(100, 0).scaled(side, 1);
    page.shape(
        Path(0, 30).curve(14, 14, 52, 12, 82, 24).line(82, 110).curve(52, 98, 14, 100, 0, 116),
        pen.paper);
  }
  pen.stroke(Path(24, 92).curve(44, 88, 68, 88, 86, 94), c.soil, 5);
  draw_bean_plant(pen.at(56, 90).scaled(0.92f));
  for (const float y : {38.0f, 53.0f, 68.0f, 83.0f}) {
    pen.stroke(Path(116, y + 2).curve(132, y - 6, 150, y - 6, y < 80 ? 168 : 148, y - 2), pen.edge,
               3);
  }
}

void seeds(const Pen& pen) {
  draw_bean(pen.at(60, 42).turned(-14).scaled(2.1f));
  draw_bean(pen.at(58, 98).turned(10).scaled(1.7f));
  draw_pea(pen.at(142, 42).scaled(2.1f));
  draw_pea(pen.at(150, 98).turned(70).scaled(1.7f));
}

void bag(const Pen& pen) {
  const Palette& c = pen.colors;
  draw_bag(pen.at(62, 66), 104, 114);
  pen.shape(box(96, 9, 15, 18, 4), c.brick);
  pen.stroke({{26, 66}, {44, 48}}, pen.paper, 4);
  pen.stroke({{26, 86}, {58, 54}}, pen.paper, 4);
  draw_cotton(pen.at(138, 44), false);
  draw_cotton(pen.at(171, 28), false);
  draw_cup(pen.at(141, 122).scaled(1.25f), c.soil);
  pen.shape(box(119, 74, 44, 9, 3), c.soil_bare);
  pen.blob({{Path(180, 62).curve(190, 80, 172, 98, 181, 118), 8}}, c.leaf);
}

void damp_cotton(const Pen& pen) {
  const Palette& c = pen.colors;
  draw_drop(pen.at(62, 24).scaled(1.3f));
  draw_drop(pen.at(100, 34).scaled(1.9f));
  draw_drop(pen.at(140, 22).scaled(1.3f));
  for (const float x : {37.0f, 79.0f, 121.0f, 163.0f})
    draw_cotton(pen.at(x, 86).scaled(1.45f), true);
  pen.shape(Path(8, 104).line(192, 104).line(180, 122).line(20, 122), c.water);
}

void tuck_seeds(const Pen& pen) {
  const Palette& c = pen.colors;
  draw_bag(pen.at(86, 76), 152, 100);
  for (const float x : {32.0f, 68.0f, 104.0f, 140.0f})
    draw_cotton(pen.at(x, 103).scaled(1.2f), true);
  draw_bean(pen.at(32, 82).scaled(0.85f));
  draw_pea(pen.at(68, 82));
  draw_bean(pen.at(104, 82).scaled(0.85f));
  draw_pea(pen.at(138, 74));
  // Finger and thumb.
  pen.blob({{Path(172, 22).curve(152, 22, 134, 34, 132, 58), 13},
            {Path(178, 30).curve(172, 44, 166, 54, 152, 62), 13},
            {Path({{170, 28}, {174, 24}}), 22}},
           pen.paper);
  pen.at(176, 22).turned(-40).shape(box(-2, -14, 14, 28, 4), c.leaf);
}

void close_bag(const Pen& pen) {
  draw_bag(pen.at(74, 68), 124, 112);
  for (const float x : {33.0f, 61.0f, 89.0f, 116.0f}) draw_cotton(pen.at(x, 106), true);
  pen.shape(box(51, 44, 46, 40, 4), pen.gold);
  pen.stroke({{77, 77}, {77, 51}, {62, 69}, {86, 69}}, pen.edge);
  draw_pointer(pen.at(114, 24), pen.colors.leaf);
}

void hang_window(const Pen& pen) {
  const Palette& c = pen.colors;
  pen.shape(box(14, 5, 172, 112, 3), c.soil);
  pen.shape(box(25, 15, 150, 92), mixed(c.card, c.water, 0.35f));
  draw_sun(pen.at(148, 43).scaled(0.72f));
  pen.stroke({{25, 74}, {175, 74}}, pen.edge, 4);
  pen.stroke({{122, 15}, {122, 107}}, pen.edge, 4);
  pen.shape(box(6, 113, 188, 11, 3), c.soil);
  // A third of a stem, bent over the frame and through the bag.
  draw_bag(pen.at(74, 71), 84, 64);
  for (const float x : {44.0f, 64.0f, 84.0f, 104.0f})
    draw_cotton(pen.at(x, 92).scaled(0.68f), true);
  draw_bean(pen.at(44, 80).scaled(0.5f));
  draw_pea(pen.at(64, 79).scaled(0.6f));
  draw_bean(pen.at(84, 80).scaled(0.5f));
  draw_pea(pen.at(104, 79).scaled(0.6f));
  pen.blob(
      {{Path(64, 16).curve(64, 6, 76, 6, 76, 16).line(76, 42).curve(76, 56, 88, 56, 88, 44), 5}},
      c.leaf);
}

void wash_hands(const Pen& pen) {
  const Palette& c = pen.colors;
  pen.blob({{Path(34, 20).line(78, 20).curve(100, 20, 102, 26, 102, 40), 18}}, c.soil_bare);
  pen.shape(box(20, 6, 18, 34, 5), c.soil_bare);
  pen.stroke({{62, 12}, {62, 5}, {50, 5}, {74, 5}}, c.ink, 4);
  pen.stroke({{102, 50}, {102, 88}}, c.water, 12);
  for (const float side : {-1.0f, 1.0f}) {
    const Pen hand = pen.at(102, -4).scaled(side, 1);
    hand.blob({{Path({{64, 112}, {34, 94}}), 22},
               {Path({{34, 88}, {4, 74}}), 10},
               {Path({{32, 94}, {0, 86}}), 11},
               {Path({{34, 102}, {4, 98}}), 11}},
              pen.paper);
    hand.at(66, 113).turned(32).shape(box(-6, -15, 18, 30, 4), side < 0 ? c.leaf : c.brick);
  }
  for (const Point p : {Point{70, 58}, Point{134, 56}, Point{146, 72}, Point{54, 70}})
    pen.shape(oval(p.x, p.y, 6, 6), pen.paper);
  draw_drop(pen.at(90, 118).scaled(0.8f));
  draw_drop(pen.at(114, 118).scaled(0.8f));
}

void tidy(const Pen& pen) {
  const Palette& c = pen.colors;
  draw_cup(pen.at(40, 100).scaled(1.1f), c.soil);
  draw_cotton(pen.at(76, 84).scaled(1.05f), false);
  draw_bean(pen.at(100, 92).turned(20).scaled(0.7f));
  pen.shape({{8, 88}, {16, 102}, {104, 102}, {112, 88}, {116, 92}, {108, 116}, {12, 116}, {4, 92}},
            c.water);
  draw_pea(pen.at(126, 114).scaled(0.7f));
  const Pen broom = pen.at(162, 112).turned(16);
  broom.blob({{Path({{0, -58}, {0, -102}}), 8}}, c.soil);
  broom.shape(Path(-12, -50)
                  .line(12, -50)
                  .curve(16, -30, 22, -16, 27, 0)
                  .line(-27, 6)
                  .curve(-22, -16, -16, -30, -12, -50),
              pen.gold);
  broom.shape(box(-14, -60, 28, 13, 4), c.brick);
  for (const float x : {-15.0f, -5.0f, 5.0f, 15.0f})
    broom.stroke({{x * 0.45f, -38}, {x, -3}}, pen.edge, 2);
}

void handover(const Pen& pen) {
  const Palette& c = pen.colors;
  for (const float x : {58.0f, 100.0f, 142.0f}) {
    draw_bag(pen.at(x, 48), 40, 70);
    draw_cotton(pen.at(x, 66).scaled(0.85f), true);
    draw_bean(pen.at(x, 52).scaled(0.6f));
  }
  pen.shape(Path(30, 82).line(170, 82).line(160, 96).line(40, 96), pen.gold);
  for (const float side : {-1.0f, 1.0f}) {
    const Pen arm = pen.at(100, 0).scaled(side, 1);
    arm.blob({{Path({{78, 108}, {52, 101}}), 17},
              {Path({{56, 101}, {30, 103}}), 12},
              {Path(66, 98).curve(68, 86, 62, 77, 52, 77), 11}},
             pen.paper);
    arm.at(80, 109).turned(14).shape(box(-6, -14, 19, 28, 4), side < 0 ? c.leaf : c.brick);
  }
}

void goodbye(const Pen& pen) {
  const Palette& c = pen.colors;
  draw_pot(pen.at(96, 125).scaled(1.1f));
  pen.blob({{Path(96, 70).curve(94, 56, 98, 48, 96, 36), 8}}, c.leaf);
  draw_leaf(pen.at(94, 50).scaled(-1.4f, 1.4f).turned(16));
  draw_leaf(pen.at(97, 50).scaled(1.5f).turned(-38));
  draw_leaf(pen.at(96, 36).scaled(-0.7f, 0.7f).turned(-50));
  pen.stroke(Path(156, 18).curve(165, 28, 169, 38, 168, 50), pen.gold, 4);
  pen.stroke(Path(170, 10).curve(182, 21, 187, 36, 185, 54), pen.gold, 4);
}

constexpr Drawing kSteps[] = {
    {"sign_in", sign_in},
    {"wave", wave},
    {"circle", circle},
    {"book", book},
    {"seeds", seeds},
    {"bag", bag},
    {"damp_cotton", damp_cotton},
    {"tuck_seeds", tuck_seeds},
    {"close_bag", close_bag},
    {"hang_window", hang_window},
    {"wash_hands", wash_hands},
    {"tidy", tidy},
    {"handover", handover},
    {"goodbye", goodbye},
};

}  // namespace

std::span<const Drawing> step_pictures() {
  return kSteps;
}

}  // namespace trowelbell
