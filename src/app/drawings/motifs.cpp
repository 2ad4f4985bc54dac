#include "app/drawings/motifs.h"

#include <algorithm>

namespace trowelbell {

void draw_bean(const Pen& pen) {
  pen.shape(Path(-19, 2)
                .curve(-19, -9, -10, -13, 0, -13)
                .curve(12, -13, 19, -8, 19, 2)
                .curve(19, 12, 11, 15, 7, 10)
                .curve(4, 7, -3, 7, -6, 10)
                .curve(-11, 15, -19, 12, -19, 2),
            pen.colors.soil);
  pen.stroke(Path(-11, -1).curve(-10, -5, -6, -7, -2, -7), pen.paper, 2.5f);
}

void draw_pea(const Pen& pen) {
  pen.shape(oval(0, 0, 12, 12), pen.colors.leaf);
  // Wrinkles.
  pen.stroke(Path(-7, 0).curve(-6, -5, -3, -7, 1, -6), pen.paper, 2.2f);
  pen.stroke(Path(-3, 3).curve(-1, -1, 2, -2, 5, -1), pen.edge, 1.8f);
  pen.stroke(Path(0, 8).curve(3, 7, 6, 5, 7, 2), pen.edge, 1.8f);
}

void draw_cotton(const Pen& pen, bool damp) {
  pen.blob({{Path(-7, -5), 15},
            {Path(1, -8), 15},
            {Path(8, -2), 15},
            {Path(6, 7), 14},
            {Path(-3, 8), 15},
            {Path(-9, 3), 14},
            {Path(0, 0), 14}},
           damp ? mixed(pen.paper, pen.colors.water, 0.3f) : pen.paper);
  pen.stroke(Path(-7, -1).curve(-6, -6, -1, -8, 3, -5), pen.colors.line, 2);
  pen.stroke(Path(-2, 6).curve(3, 8, 7, 5, 7, 0), pen.colors.line, 2);
}

void draw_drop(const Pen& pen) {
  pen.fill(Path(0, -10)
               .curve(4, -3, 7, 0, 7, 4)
               .curve(7, 12, -7, 12, -7, 4)
               .curve(-7, 0, -4, -3, 0, -10),
           pen.colors.water);
}

void draw_spark(const Pen& pen, Color color) {
  pen.fill({{0, -6},
            {1.6f, -1.6f},
            {6, 0},
            {1.6f, 1.6f},
            {0, 6},
            {-1.6f, 1.6f},
            {-6, 0},
            {-1.6f, -1.6f}},
           color);
}

void draw_bag(const Pen& pen, float width, float height) {
  const float x = -width / 2, y = -height / 2, zip = y + std::min(14.0f, height * 0.14f);
  pen.fill(box(x, y, width, height, 7), mixed(pen.colors.card, pen.colors.water, 0.16f));
  pen.stroke({{x + 3, zip - 4}, {-x - 3, zip - 4}}, pen.colors.water, 5);
  pen.stroke({{x + 1, zip + 2}, {-x - 1, zip + 2}}, pen.colors.ink, 2.5f);
  const Path edge = box(x, y, width, height, 7);
  pen.stroke(Path(edge).line(x, y + 7), pen.colors.ink);
}

void draw_cup(const Pen& pen, Color inside) {
  pen.shape({{-16, -34}, {16, -34}, {12, 0}, {-12, 0}}, pen.paper);
  pen.fill({{-13.5f, -24}, {13.5f, -24}, {10.5f, -1.5f}, {-10.5f, -1.5f}}, inside);
}

void draw_pot(const Pen& pen) {
  pen.shape(Path(-30, -46).curve(-18, -57, 18, -57, 30, -46), pen.colors.soil);
  pen.shape({{-25, -36}, {25, -36}, {19, 0}, {-19, 0}}, pen.colors.brick);
  pen.shape(box(-30, -46, 60, 12, 3), pen.colors.brick);
  for (const float x : {8.0f, 14.0f}) pen.stroke({{x + 3, -27}, {x, -9}}, pen.edge, 2);
}

void draw_boot(const Pen& pen) {
  pen.shape(Path(-23, -44)
                .line(5, -44)
                .line(6, -22)
                .curve(14, -20, 29, -18, 29, -6)
                .line(29, 0)
                .line(-23, 0),
            pen.colors.leaf);
  pen.shape(box(-26, -6, 57, 8, 3), pen.colors.soil_bare);
  pen.shape(Path(-23, -43).curve(-18, -53, 0, -53, 5, -43), pen.colors.soil);
  pen.stroke({{-23, -36}, {5, -36}}, pen.edge);
}

void draw_sun(const Pen& pen) {
  for (int i = 0; i < 12; ++i) {
    const Pen ray = pen.turned(static_cast<float>(i) * 30);
    if (i % 2 == 0) {
      ray.fill({{-4, -23}, {0, -34}, {4, -23}}, pen.gold);
    } else {
      ray.stroke({{0, -24}, {0, -30}}, pen.colors.marigold);
    }
  }
  pen.shape(oval(0, 0, 17, 17), pen.gold);
}

void draw_cloud(const Pen& pen) {
  pen.blob(
      {{Path({{-26, 8}, {28, 8}}), 22}, {Path(-16, -1), 26}, {Path(4, -6), 32}, {Path(23, 2), 24}},
      pen.paper);
  pen.stroke(Path(-18, 10).curve(-10, 13, -4, 13, 2, 10), pen.colors.line, 2);
}

void draw_leaf(const Pen& pen) {
  pen.shape(Path(0, 0).curve(6, -15, 24, -16, 34, -5).curve(27, 9, 9, 12, 0, 0), pen.colors.leaf);
  pen.stroke(Path(3, 0).curve(10, -3, 18, -4, 25, -4), pen.edge, 2);
}

void draw_bean_hook(const Pen& pen) {
  pen.blob({{Path(0, 0).curve(-3, -20, -6, -46, 9, -47).curve(21, -47, 22, -38, 22, -32), 8}},
           pen.colors.leaf);
  // The seed, halves still shut, pulled up by the bend.
  pen.shape(Path(22, -36)
                .curve(32, -34, 34, -22, 29, -11)
                .curve(26, -6, 19, -6, 15, -11)
                .curve(10, -21, 12, -34, 22, -36),
            pen.colors.soil_bare);
  pen.stroke(Path(22, -32).curve(23, -24, 23, -16, 22, -9), pen.edge, 2);
}

void draw_bean_plant(const Pen& pen) {
  pen.blob({{Path(0, 0).curve(2, -20, -2, -36, 0, -50), 7}}, pen.colors.leaf);
  for (const float side : {-1.0f, 1.0f}) {
    // A seed half, then a true leaf above it.
    const Pen half = pen.at(side * 3, -22).scaled(side, 1).turned(-12);
    half.shape(Path(0, 0).curve(2, -10, 18, -11, 20, -2).curve(20, 6, 5, 8, 0, 0),
               pen.colors.soil_bare);
    draw_leaf(pen.at(side * 2, -48).scaled(side * 1.15f, 1.25f).turned(-8));
  }
}

void draw_tendril(const Pen& pen) {
  pen.stroke(Path(0, 0)
                 .curve(4, -10, 10, -18, 18, -18)
                 .curve(26, -18, 26, -6, 18, -7)
                 .curve(13, -8, 14, -14, 19, -13),
             pen.colors.leaf);
}

void draw_pea_plant(const Pen& pen) {
  pen.blob({{Path(0, 0).curve(-3, -16, 4, -30, 0, -46), 6}}, pen.colors.leaf);
  for (const float side : {-1.0f, 1.0f}) {
    draw_leaf(pen.at(0, -20).scaled(side * 0.6f, 0.75f).turned(-18));
    draw_leaf(pen.at(0, -42).scaled(side * 0.6f, 0.75f).turned(-42));
  }
}

void draw_root(const Pen& pen, float length) {
  const float a = length * 0.45f, b = length * 0.62f;
  pen.blob({{Path(0, 0).curve(5, length * 0.3f, -6, length * 0.6f, 1, length), 6},
            {Path(0, a).curve(4, a, 9, a, 12, b), 4.5f},
            {Path(0, a).curve(-4, a, -9, a, -12, b), 4.5f}},
           pen.paper);
}

void draw_hand(const Pen& pen, Color sleeve) {
  pen.blob({{Path({{-4, -26}, {5, -26}}), 34},
            {Path({{0, -14}, {0, -3}}), 24},
            {Path({{-14, -32}, {-21, -62}}), 11},
            {Path({{-5, -36}, {-7, -73}}), 11},
            {Path({{6, -36}, {8, -71}}), 11},
            {Path({{16, -30}, {22, -58}}), 11},
            {Path(-12, -16).curve(-20, -18, -28, -26, -34, -36), 12}},
           pen.paper);
  pen.stroke(Path(-6, -32).curve(3, -28, 5, -18, 0, -8), pen.edge, 2);
  pen.shape(box(-17, -4, 34, 16, 4), sleeve);
}

void draw_palm(const Pen& pen, Color sleeve) {
  pen.blob({{Path(-48, -4).curve(-36, 14, -6, 16, 22, 12), 15},
            {Path({{14, 13}, {46, 20}}), 22},
            {Path(26, 6).curve(24, -4, 16, -10, 8, -10), 11}},
           pen.paper);
  pen.at(46, 20).turned(12).shape(box(-4, -15, 20, 30, 4), sleeve);
}

void draw_pointer(const Pen& pen, Color sleeve) {
  pen.blob({{Path({{6, 0}, {34, 4}}), 12},
            {Path({{40, 8}, {44, 16}}), 24},
            {Path({{46, 10}, {66, 16}}), 22},
            {Path(34, 22).curve(28, 20, 26, 15, 29, 11), 9}},
           pen.paper);
  pen.at(62, 15).turned(14).shape(box(-4, -15, 18, 30, 4), sleeve);
}

void draw_face(const Pen& pen, float radius) {
  pen.shape(oval(0, 0, radius, radius), pen.paper);
  const float eye = radius * 0.36f;
  for (const float side : {-1.0f, 1.0f}) {
    pen.disc(side * eye, -radius * 0.12f, radius * 0.11f + 0.6f, pen.edge);
  }
  pen.stroke(Path(-eye, radius * 0.3f)
                 .curve(-eye * 0.5f, radius * 0.6f, eye * 0.5f, radius * 0.6f, eye, radius * 0.3f),
             pen.edge, 2);
}

void draw_person(const Pen& pen, Color clothes) {
  pen.shape(Path(-19, 0).curve(-18, -34, -13, -46, 0, -46).curve(13, -46, 18, -34, 19, 0), clothes);
  draw_face(pen.at(0, -57), 16);
}

void draw_bar(const Pen& pen, Point from, Point to) {
  pen.stroke({from, to}, pen.colors.card, 17);
  pen.stroke({from, to}, pen.colors.ink, 12);
  pen.stroke({from, to}, pen.colors.brick, 7);
}

void draw_warning(const Pen& pen) {
  pen.blob({{Path({{0, -13}, {17, 13}, {-17, 13}, {0, -13}}), 8}}, pen.colors.brick);
  pen.fill({{0, -13}, {17, 13}, {-17, 13}}, pen.colors.brick);
  pen.stroke({{0, -6}, {0, 4}}, pen.colors.on_brick, 4);
  pen.disc(0, 10, 2.4f, pen.colors.on_brick);
}

}  // namespace trowelbell
