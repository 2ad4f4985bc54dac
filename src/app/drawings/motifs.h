// What several drawings share: seeds, cotton, bags, pots, seedlings, hands, people. Each is drawn
// about the pen's origin; sizes are in the sheet's units at scale 1.
#pragma once

#include "app/drawings/pen.h"

namespace trowelbell {

void draw_bean(const Pen& pen);                            // 38 x 26, centred
void draw_pea(const Pen& pen);                             // 24 across, centred
void draw_cotton(const Pen& pen, bool damp);               // 30 across, centred
void draw_drop(const Pen& pen);                            // 12 x 18, centred
void draw_spark(const Pen& pen, Color color);              // a little star, 12 across, centred
void draw_bag(const Pen& pen, float width, float height);  // clear, closed, centred
void draw_cup(const Pen& pen, Color inside);               // 32 x 34, standing on the origin
void draw_pot(const Pen& pen);                    // of soil; 60 x 52, standing on the origin
void draw_boot(const Pen& pen);                   // full of soil; 52 x 50, standing on the origin
void draw_sun(const Pen& pen);                    // 64 across, centred
void draw_cloud(const Pen& pen);                  // 84 x 40, centred
void draw_leaf(const Pen& pen);                   // from the origin 34 to the right
void draw_bean_hook(const Pen& pen);              // just up, folded: 52 high from the origin
void draw_bean_plant(const Pen& pen);             // open, two wide leaves: 62 high
void draw_pea_plant(const Pen& pen);              // 52 high
void draw_tendril(const Pen& pen);                // of a pea, from the origin 20 up and right
void draw_root(const Pen& pen, float length);     // down from the origin
void draw_hand(const Pen& pen, Color sleeve);     // open, upright, 84 high from the wrist
void draw_palm(const Pen& pen, Color sleeve);     // held out from the right to carry; 110 x 50
void draw_pointer(const Pen& pen, Color sleeve);  // its finger's tip at the origin, from the right
void draw_face(const Pen& pen, float radius);     // nobody's: two eyes and a smile
void draw_person(const Pen& pen, Color clothes);  // arms left to the drawing; 74 high
void draw_bar(const Pen& pen, Point from, Point to);  // "not this", whatever it crosses
void draw_warning(const Pen& pen);                    // a triangle 34 high, centred

}  // namespace trowelbell
