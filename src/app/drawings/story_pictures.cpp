#include "app/drawings/motifs.h"
#include "app/drawings/pictures.h"

namespace trowelbell {
namespace {

// The back step, where the story happens: a line of ground with a few cuts below it.
void step(const Pen& pen, float y) {
  pen.stroke({{10, y}, {190, y}}, pen.colors.soil, 5);
  for (const float x : {24.0f, 66.0f, 112.0f, 158.0f})
    pen.stroke({{x, y + 6}, {x + 18, y + 6}}, pen.colors.line, 2);
}

// A cut through the ground, from `y` down.
void ground(const Pen& pen, float y) {
  const Palette& c = pen.colors;
  pen.shape(Path(6, y)
                .curve(40, y - 6, 70, y + 4, 100, y)
                .curve(130, y - 4, 160, y + 4, 194, y)
                .line(194, 126)
                .line(6, 126),
            c.soil_bare);
  pen.stroke(Path(6, y).curve(40, y - 6, 70, y + 4, 100, y).curve(130, y - 4, 160, y + 4, 194, y),
             c.soil, 6);
}

void bean_in_hand(const Pen& pen) {
  draw_palm(pen.at(86, 77).scaled(1.32f), pen.colors.leaf);
  draw_bean(pen.at(42, 63).turned(-10));
  draw_bean(pen.at(82, 67).turned(8).scaled(1.05f));
  draw_pea(pen.at(62, 45).scaled(1.05f));
  pen.stroke({{62, 26}, {62, 12}}, pen.gold, 3.5f);
  pen.stroke({{84, 34}, {93, 23}}, pen.gold, 3.5f);
  pen.stroke({{40, 34}, {31, 23}}, pen.gold, 3.5f);
}

void pot_soil(const Pen& pen) {
  step(pen, 118);
  draw_pot(pen.at(100, 116).scaled(1.9f));
  // Two holes, one finger deep.
  pen.fill(oval(86, 20, 8, 4), pen.edge);
  pen.fill(oval(114, 20, 8, 4), pen.edge);
}

void wall(const Pen& pen) {
  const Palette& c = pen.colors;
  pen.shape(box(8, 84, 184, 40), c.brick);
  for (int row = 0; row < 3; ++row) {
    const float y = 84 + 13.3f * static_cast<float>(row);
    if (row > 0) pen.stroke({{8, y}, {192, y}}, pen.edge, 2);
    for (float x = row % 2 == 0 ? 40.0f : 22.0f; x < 190; x += 37)
      pen.stroke({{x, y}, {x, y + 13.3f}}, pen.edge, 2);
  }
}

void sun(const Pen& pen) {
  draw_sun(pen.at(100, 62).scaled(1.7f));
  wall(pen);
}

void rain(const Pen& pen) {
  draw_cloud(pen.at(100, 36).scaled(1.45f));
  for (const Point p :
       {Point{40, 80}, Point{70, 84}, Point{100, 80}, Point{130, 84}, Point{160, 80},
        Point{54, 104}, Point{86, 106}, Point{116, 106}, Point{146, 104}})
    draw_drop(pen.at(p.x, p.y).turned(12));
  step(pen, 120);
}

void crescent(const Pen& pen) {
  pen.shape(Path(12, -34)
                .curve(-20, -36, -40, -8, -28, 18)
                .curve(-18, 40, 14, 44, 32, 22)
                .curve(4, 26, -10, -2, 12, -34),
            pen.gold);
}

void moon(const Pen& pen) {
  pen.shape(box(6, 6, 188, 118, 10), pen.night);
  crescent(pen.at(100, 50).scaled(0.98f));
  for (const Point p :
       {Point{36, 34}, Point{58, 80}, Point{158, 30}, Point{150, 76}, Point{30, 62}})
    draw_spark(pen.at(p.x, p.y), pen.gold);
  pen.shape(Path(6, 106)
                .curve(50, 90, 90, 92, 124, 104)
                .curve(150, 96, 174, 96, 194, 102)
                .line(194, 116)
                .arc(184, 114, 10, 10, 0, 90)
                .arc(16, 114, 10, 10, 90, 180),
            pen.colors.leaf);
}

void night_window(const Pen& pen) {
  const Palette& c = pen.colors;
  pen.shape(box(30, 5, 140, 108, 3), c.soil);
  pen.shape(box(41, 15, 118, 88), pen.night);
  crescent(pen.at(72, 44).scaled(0.6f));
  draw_spark(pen.at(122, 36), pen.gold);
  draw_spark(pen.at(143, 58), pen.gold);
  draw_spark(pen.at(56, 84), pen.gold);
  pen.stroke({{41, 68}, {159, 68}}, c.soil, 5);
  pen.stroke({{100, 15}, {100, 103}}, c.soil, 5);
  pen.shape(box(18, 111, 164, 12, 3), c.soil);
  draw_pot(pen.at(130, 112).scaled(0.72f));
}

void root(const Pen& pen) {
  ground(pen, 30);
  draw_root(pen.at(56, 62), 34);
  draw_pea(pen.at(56, 56).scaled(1.35f));
  draw_root(pen.at(134, 66), 50);
  draw_bean(pen.at(138, 60).turned(-24).scaled(1.35f));
  for (const Point p : {Point{24, 56}, Point{96, 50}, Point{92, 96}, Point{174, 98}, Point{30, 104},
                        Point{178, 50}})
    pen.disc(p.x, p.y, 3, pen.colors.soil);
}

void sprout(const Pen& pen) {
  ground(pen, 78);
  draw_root(pen.at(56, 104), 15);
  draw_pea_plant(pen.at(56, 94).scaled(1.4f));
  draw_pea(pen.at(56, 98).scaled(1.15f));
  draw_root(pen.at(132, 78), 42);
  draw_bean_hook(pen.at(132, 80).scaled(1.45f));
}

void leaves(const Pen& pen) {
  draw_bean_plant(pen.at(78, 80).scaled(1.15f));
  draw_pea_plant(pen.at(124, 80).scaled(0.95f));
  draw_tendril(pen.at(125, 38).scaled(1.5f));
  draw_pot(pen.at(100, 125).scaled(1.25f, 0.95f));
  draw_spark(pen.at(24, 24), pen.gold);
  draw_spark(pen.at(176, 40), pen.gold);
}

void garden(const Pen& pen) {
  step(pen, 118);
  draw_bean_plant(pen.at(62, 68).scaled(0.95f));
  draw_pea_plant(pen.at(92, 68).scaled(0.85f));
  draw_tendril(pen.at(92, 32));
  draw_pot(pen.at(74, 116).scaled(1.1f, 0.95f));
  draw_boot(pen.at(146, 115).scaled(1.05f));
  draw_bean_hook(pen.at(132, 62).scaled(0.9f));
}

void snail(const Pen& pen) {
  const Palette& c = pen.colors;
  step(pen, 118);
  pen.blob({{Path({{40, 105}, {130, 105}}), 20},
            {Path(128, 104).curve(156, 104, 158, 84, 158, 66), 22},
            {Path({{154, 60}, {146, 30}}), 5},
            {Path({{162, 60}, {174, 34}}), 5},
            {Path(146, 28), 11},
            {Path(175, 31), 11},
            {Path({{36, 108}, {22, 112}}), 10}},
           pen.gold);
  pen.shape(oval(88, 64, 48, 46), c.brick);
  pen.stroke(Path(134, 76)
                 .curve(120, 104, 62, 104, 56, 64)
                 .curve(54, 34, 108, 24, 114, 60)
                 .curve(116, 86, 78, 86, 78, 64)
                 .curve(78, 50, 98, 50, 96, 64),
             pen.edge, 4);
  pen.disc(146, 28, 2.5f, pen.edge);
  pen.disc(175, 31, 2.5f, pen.edge);
}

void watering_can(const Pen& pen) {
  const Palette& c = pen.colors;
  const Pen can = pen.at(126, 64).turned(-14);
  can.blob({{Path(34, -16).curve(66, -26, 66, 30, 34, 24), 7},
            {Path(-20, -26).curve(-16, -52, 24, -52, 28, -26), 7}},
           c.water);
  can.shape({{-30, 26}, {-66, -8}, {-60, -16}, {-28, 6}}, c.water);
  can.shape({{-76, -8}, {-60, -28}, {-55, -20}, {-66, -6}}, c.soil_bare);
  can.shape(Path(-30, -28).line(34, -28).line(38, 32).line(-34, 32), c.water);
  can.stroke({{-31, -14}, {34, -14}}, pen.edge, 2);
  for (const Point p : {Point{46, 66}, Point{34, 76}, Point{54, 82}, Point{42, 88}})
    draw_drop(pen.at(p.x, p.y).scaled(0.7f));
  draw_pot(pen.at(44, 125).scaled(0.8f, 0.55f));
}

void waiting_child(const Pen& pen) {
  const Palette& c = pen.colors;
  step(pen, 120);
  pen.shape(box(8, 88, 84, 34, 2), c.soil_bare);
  // Sitting, knees together, chin in hand.
  pen.blob({{Path(56, 84).curve(80, 74, 102, 74, 102, 88).line(102, 108), 19}}, c.water);
  pen.blob({{Path({{102, 114}, {113, 114}}), 12}}, c.soil);
  pen.shape(Path(34, 90).curve(30, 60, 38, 46, 56, 46).curve(70, 48, 74, 66, 70, 90), c.brick);
  draw_face(pen.at(62, 32), 24);
  pen.blob({{Path({{52, 60}, {90, 76}, {85, 60}}), 12}}, c.brick);
  pen.blob({{Path(83, 52), 13}}, pen.paper);
  draw_pot(pen.at(156, 117));
}

void bell(const Pen& pen) {
  const Palette& c = pen.colors;
  pen.blob({{Path({{100, 10}, {100, 24}}), 12}}, c.soil);
  const Pen hung = pen.at(100, 20).turned(12);
  hung.shape(oval(-2, 88, 12, 12), c.soil);
  hung.shape(Path(-46, 84).curve(-30, 70, -34, 10, 0, 6).curve(34, 10, 30, 70, 46, 84), pen.gold);
  hung.shape(box(-50, 78, 100, 11, 5), pen.gold);
  hung.stroke(Path(-20, 62).curve(-18, 48, -18, 36, -12, 26), pen.paper, 5);
  for (const float side : {-1.0f, 1.0f}) {
    const Pen sound = pen.at(100, 0).scaled(side, 1);
    sound.stroke(Path(62, 26).curve(72, 38, 74, 54, 70, 68), c.marigold, 4);
    sound.stroke(Path(78, 16).curve(92, 34, 96, 58, 88, 80), c.marigold, 4);
  }
}

constexpr Drawing kStory[] = {
    {"bean_in_hand", bean_in_hand},
    {"pot_soil", pot_soil},
    {"sun", sun},
    {"rain", rain},
    {"moon", moon},
    {"night_window", night_window},
    {"root", root},
    {"sprout", sprout},
    {"leaves", leaves},
    {"garden", garden},
    {"snail", snail},
    {"watering_can", watering_can},
    {"waiting_child", waiting_child},
    {"bell", bell},
};

}  // namespace

std::span<const Drawing> story_pictures() {
  return kStory;
}

}  // namespace trowelbell
