#include <cmath>

#include "app/drawings/motifs.h"
#include "app/drawings/pictures.h"

namespace trowelbell {
namespace {

// Where a thing must not go.
void arrow(const Pen& pen, Point from, Point to) {
  const float dx = from.x - to.x, dy = from.y - to.y, size = 9 / std::hypot(dx, dy);
  const float bx = dx * size, by = dy * size;
  pen.stroke({from, to}, pen.colors.ink, 4);
  pen.stroke({{to.x + bx - by, to.y + by + bx}, to, {to.x + bx + by, to.y + by - bx}},
             pen.colors.ink, 4);
}

void small_parts(const Pen& pen) {
  const Palette& c = pen.colors;
  // A ring, for size: these are small.
  pen.stroke(oval(62, 66, 48, 48), c.ink, 13);
  pen.stroke(oval(62, 66, 48, 48), pen.gold, 7);
  draw_bean(pen.at(62, 48).turned(-16));
  draw_pea(pen.at(46, 78));
  draw_cotton(pen.at(76, 82).scaled(0.85f), false);
  draw_bean(pen.at(142, 110).turned(12).scaled(0.8f));
  draw_pea(pen.at(174, 110));
  draw_warning(pen.at(158, 50).scaled(1.5f));
}

void nose_ear(const Pen& pen) {
  pen.shape(oval(20, 64, 11, 15), pen.paper);
  pen.shape(oval(112, 64, 13, 17), pen.paper);
  pen.stroke(Path(112, 56).curve(120, 58, 118, 72, 110, 72), pen.edge);
  pen.shape(oval(66, 64, 44, 56), pen.paper);
  pen.disc(50, 48, 4.5f, pen.edge);
  pen.disc(82, 48, 4.5f, pen.edge);
  pen.stroke(Path(66, 48).curve(54, 66, 52, 80, 68, 78), pen.edge, 4);
  pen.stroke(Path(52, 98).curve(60, 102, 72, 102, 80, 98), pen.edge, 4);
  draw_bean(pen.at(178, 40).turned(-20).scaled(0.9f));
  arrow(pen, {160, 46}, {130, 58});
  draw_pea(pen.at(172, 100).scaled(1.2f));
  arrow(pen, {154, 98}, {116, 92});
  draw_bar(pen, {126, 118}, {156, 14});
}

void raw_bean(const Pen& pen) {
  // On a fork, so that it is about eating.
  const Pen fork = pen.at(108, 66).turned(6);
  fork.blob({{Path({{36, 0}, {82, 0}}), 12},
             {Path({{-88, -22}, {12, -22}}), 7},
             {Path({{-88, 0}, {36, 0}}), 7},
             {Path({{-88, 22}, {12, 22}}), 7},
             {Path(12, -22).curve(40, -22, 40, 22, 12, 22), 7}},
            pen.paper);
  draw_bean(pen.at(66, 60).turned(-8).scaled(1.75f, 2.2f));
  draw_bar(pen, {30, 116}, {104, 14});
}

void treated_seed(const Pen& pen) {
  const Palette& c = pen.colors;
  const Pen packet = pen.at(48, 66).turned(-8);
  packet.shape(box(-34, -52, 68, 104, 3), pen.paper);
  packet.shape(box(-34, -52, 68, 17, 3), c.water);
  draw_warning(packet.at(0, 6).scaled(1.2f));
  // Dusted, in a colour no bean has.
  for (const Point p : {Point{114, 44}, Point{142, 70}, Point{174, 92}}) {
    const Pen seed = pen.at(p.x, p.y).turned(p.x - 150);
    seed.shape(oval(0, 0, 21, 15), c.water);
    for (const float x : {-10.0f, 0.0f, 10.0f})
      seed.disc(x, x == 0 ? -5.0f : 4.0f, 2.5f, pen.paper);
  }
  draw_bar(pen, {104, 118}, {184, 20});
}

void allergy(const Pen& pen) {
  const Palette& c = pen.colors;
  draw_hand(pen.at(62, 108).turned(-6).scaled(1.14f), c.water);
  // A pod with its seeds.
  const Pen pod = pen.at(142, 74).turned(-52);
  pod.shape(Path(-50, 2)
                .curve(-30, -24, 30, -24, 50, -2)
                .curve(56, -6, 60, -12, 58, -16)
                .curve(66, -8, 62, 2, 54, 4)
                .curve(30, 24, -30, 24, -50, 2),
            c.leaf);
  for (const float x : {-26.0f, 0.0f, 26.0f}) pod.shape(oval(x, 0, 10, 9), pen.gold);
}

void gloves(const Pen& pen) {
  for (const float side : {-1.0f, 1.0f}) {
    const Pen glove = pen.at(100 + side * 40, 108).scaled(side * 1.1f, 1.1f).turned(-4);
    glove.blob({{Path({{-4, -30}, {5, -30}}), 34},
                {Path({{-1, -16}, {1, -7}}), 28},
                {Path({{-14, -34}, {-19, -60}}), 12},
                {Path({{-5, -40}, {-6, -70}}), 12},
                {Path({{6, -40}, {8, -69}}), 12},
                {Path({{16, -34}, {21, -58}}), 12},
                {Path(-12, -20).curve(-20, -22, -26, -28, -31, -36), 12}},
               pen.colors.water);
    glove.shape(box(-19, -2, 40, 11, 5), pen.colors.water);
  }
  draw_bar(pen, {46, 114}, {154, 16});
}

void plastic_bag(const Pen& pen) {
  draw_bag(pen.at(46, 66), 76, 104);
  pen.stroke({{20, 72}, {40, 52}}, pen.paper, 4);
  pen.stroke({{20, 94}, {58, 56}}, pen.paper, 4);
  draw_face(pen.at(164, 66), 32);
  arrow(pen, {88, 66}, {126, 66});
  draw_bar(pen, {92, 114}, {120, 16});
}

void soil_hands(const Pen& pen) {
  const Palette& c = pen.colors;
  for (const float side : {-1.0f, 1.0f}) {
    const Pen hand = pen.at(100 + side * 46, 110).scaled(-side * 1.1f, 1.1f).turned(-6);
    draw_hand(hand, side < 0 ? c.leaf : c.brick);
    for (const Point tip : {Point{-21, -62}, Point{-7, -73}, Point{8, -71}, Point{22, -58},
                            Point{-34, -36}, Point{12, -24}, Point{-10, -44}})
      hand.disc(tip.x, tip.y, 4, c.soil);
    hand.fill(oval(-6, -20, 8, 6), c.soil);
  }
  draw_drop(pen.at(100, 30).scaled(1.6f));
}

void spill(const Pen& pen) {
  const Palette& c = pen.colors;
  pen.fill(Path(60, 118)
               .curve(30, 116, 40, 100, 74, 102)
               .curve(100, 94, 130, 100, 150, 102)
               .curve(186, 98, 200, 112, 176, 118)
               .curve(150, 126, 90, 124, 60, 118),
           c.water);
  const Pen cup = pen.at(28, 88).turned(76).scaled(1.75f);
  cup.shape({{-16, -44}, {16, -44}, {12, 0}, {-12, 0}}, pen.paper);
  cup.shape(oval(0, -44, 16, 6), pen.colors.card);
  pen.fill(Path(106, 92).curve(124, 88, 128, 96, 132, 106).line(96, 108), c.water);
  draw_drop(pen.at(136, 76).turned(-40));
  draw_drop(pen.at(152, 88).turned(-60).scaled(0.8f));
  draw_warning(pen.at(162, 36).scaled(1.4f));
}

void camera(const Pen& pen) {
  const Palette& c = pen.colors;
  pen.shape({{70, 30}, {80, 14}, {120, 14}, {130, 30}}, c.soil);
  pen.shape(box(34, 28, 132, 84, 10), c.soil);
  pen.shape(box(34, 44, 132, 12), pen.gold);
  pen.shape(oval(100, 70, 33, 33), pen.paper);
  pen.shape(oval(100, 70, 21, 21), c.water);
  pen.stroke(Path(88, 68).curve(88, 60, 94, 56, 100, 56), pen.paper);
  pen.shape(box(46, 20, 18, 9, 3), c.brick);
  draw_bar(pen, {46, 114}, {154, 16});
}

void two_adults(const Pen& pen) {
  const Palette& c = pen.colors;
  for (const float side : {-1.0f, 1.0f}) {
    const Pen adult = pen.at(100, 0).scaled(side, 1);
    // The arm is behind the child's shoulder.
    adult.blob({{Path({{48, 66}, {14, 84}}), 13}}, side < 0 ? c.leaf : c.water);
    draw_person(adult.at(54, 124).scaled(1.55f), side < 0 ? c.leaf : c.water);
  }
  draw_person(pen.at(100, 124).scaled(1.02f), pen.gold);
}

void phone_help(const Pen& pen) {
  const Palette& c = pen.colors;
  const Pen phone = pen.at(78, 66).turned(-38);
  phone.blob({{Path(-44, 14).curve(-30, -20, 30, -20, 44, 14), 24},
              {Path({{-48, 14}, {-38, 20}}), 30},
              {Path({{48, 14}, {38, 20}}), 30}},
             c.brick);
  for (const float r : {0.0f, 1.0f, 2.0f})
    pen.stroke(Path(146 + r * 11, 20 - r * 4)
                   .curve(155 + r * 12, 30, 155 + r * 12, 44, 146 + r * 11, 54 + r * 4),
               c.ink, 4);
  // A strip of plaster.
  const Pen strip = pen.at(152, 100).turned(-20);
  strip.shape(box(-34, -12, 68, 24, 12), c.soil_bare);
  strip.shape(box(-11, -12, 22, 24), pen.paper);
}

constexpr Drawing kCare[] = {
    {"small_parts", small_parts},
    {"nose_ear", nose_ear},
    {"raw_bean", raw_bean},
    {"treated_seed", treated_seed},
    {"allergy", allergy},
    {"gloves", gloves},
    {"plastic_bag", plastic_bag},
    {"soil_hands", soil_hands},
    {"spill", spill},
    {"camera", camera},
    {"two_adults", two_adults},
    {"phone_help", phone_help},
};

}  // namespace

std::span<const Drawing> care_pictures() {
  return kCare;
}

}  // namespace trowelbell
