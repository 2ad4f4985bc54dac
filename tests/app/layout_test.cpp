// Every screen in both languages, at the sizes of phones and tablets, upright and on their side, at
// each text size: nothing reaches outside the page, no word is broken or cut, nothing to tap is
// small or close to another. And the colors: contrast by the formula of WCAG 2.2.
#include <doctest/doctest.h>

#include <cmath>
#include <set>
#include <sstream>

#include "app/widgets/theme.h"
#include "tests/app/walk.h"

namespace trowelbell {
namespace {

constexpr float kBetween = 8;     // px between targets
constexpr float kLeastBody = 96;  // px of a page between its bars, however low the screen

bool tappable(const Node& node) {
  return node.role == Role::button || node.role == Role::checkbox || node.role == Role::tab ||
         node.role == Role::toggle || node.role == Role::textbox;
}

// Of the part that scrolls; the others stand in the bars around it.
bool in_body(const Node& node) {
  return node.clip_bottom > node.clip_top;
}

// How far two nodes are from each other, across or down, whichever is more; negative: they overlap.
float apart(const Node& a, const Node& b) {
  const float across = std::max(a.x, b.x) - std::min(a.x + a.width, b.x + b.width);
  const float down = std::max(a.y, b.y) - std::min(a.y + a.height, b.y + b.height);
  return std::max(across, down);
}

std::string place_of(const Node& node) {
  std::ostringstream out;
  out << node.id << " \"" << node.name << "\" at " << node.x << "," << node.y << " size "
      << node.width << "x" << node.height;
  return out.str();
}

void check_targets(const std::vector<Node>& targets) {
  for (std::size_t i = 0; i < targets.size(); ++i) {
    CAPTURE(place_of(targets[i]));
    CHECK(targets[i].width >= kTarget - 0.5f);
    CHECK(targets[i].height >= kTarget - 0.5f);
    for (std::size_t k = i + 1; k < targets.size(); ++k) {
      // The body scrolls beneath the bars: only neighbours in one layer can be close.
      if (in_body(targets[i]) != in_body(targets[k])) continue;
      CAPTURE(place_of(targets[k]));
      CHECK(apart(targets[i], targets[k]) >= kBetween - 0.5f);
    }
  }
}

void check_page(const DemoPhone& phone) {
  const Viewport& view = phone.screen.viewport;
  std::vector<Node> targets;
  std::set<std::string> ids;
  float body_top = 0, body_bottom = view.height;
  for (const Node& node : phone.app.nodes()) {
    if (!in_body(node)) continue;
    body_top = node.clip_top;
    body_bottom = node.clip_bottom;
  }
  CHECK(body_bottom - body_top >= kLeastBody);
  for (const Node& node : phone.app.nodes()) {
    CAPTURE(place_of(node));
    CHECK(ids.insert(node.id).second);  // a tap must know whom it meant
    if (node.role == Role::group || node.role == Role::group_end) continue;
    CHECK(!node.name.empty());
    CHECK(node.x >= -0.5f);
    CHECK(node.x + node.width <= view.width + 0.5f);
    if (!in_body(node)) {
      CHECK(node.y >= -0.5f);
      CHECK(node.y + node.height <= view.height + 0.5f);
    }
    if (tappable(node)) targets.push_back(node);
  }
  check_targets(targets);
  std::string spilled;
  for (const std::string& words : phone.app.spilled()) spilled += words + "; ";
  CHECK(spilled == "");
}

struct Size {
  float width, height;
};

enum class Hand { right, left };

// `text`: which of the four sizes of letters.
void walk(Size size, const std::string& language, int text, int taps, Hand hand = Hand::right) {
  CAPTURE(size.width);
  CAPTURE(size.height);
  CAPTURE(language);
  CAPTURE(text);
  MemoryStore store;
  DemoPhone phone(store, size.width, size.height, language);
  if (hand == Hand::left) store.append("app", R"({"hand": "left"})");
  walk_visit(phone, demo_brief(), text, taps, check_page);
}

TEST_CASE("every screen keeps its words and targets in their places, at every size") {
  for (const Size size : {Size{320, 568}, Size{390, 844}, Size{844, 390}, Size{568, 320},
                          Size{768, 1024}, Size{1024, 1366}}) {
    for (const std::string language : {"en", "es-MX"}) {
      for (const int text : {0, 3}) walk(size, language, text, 6);
    }
  }
}

TEST_CASE("so does it at the sizes of letters between, where there is least room") {
  for (const Size size : {Size{320, 568}, Size{844, 390}}) {
    for (const std::string language : {"en", "es-MX"}) {
      for (const int text : {1, 2}) walk(size, language, text, 6);
    }
  }
}

TEST_CASE("so does every step and every page of the story, where there is least room") {
  for (const Size size : {Size{320, 568}, Size{844, 390}}) {
    for (const std::string language : {"en", "es-MX"}) {
      for (const int text : {0, 3}) walk(size, language, text, 60);
    }
  }
}

TEST_CASE("so does it for the left hand") {
  for (const Size size : {Size{320, 568}, Size{390, 844}, Size{844, 390}}) {
    for (const int text : {0, 3}) walk(size, "es-MX", text, 6, Hand::left);
  }
}

TEST_CASE("so does every care card") {
  for (const int text : {0, 3}) {
    MemoryStore store;
    DemoPhone phone(store, 320, 568, "es-MX");
    phone.open();
    phone.tap("phone.text." + std::to_string(text));
    REQUIRE(phone.tap("tab.care"));
    std::vector<std::string> cards;
    for (const Node& node : phone.app.nodes()) {
      if (node.id.starts_with("care.card.")) cards.push_back(node.id);
    }
    CHECK(cards.size() >= 10);
    for (const std::string& card : cards) look_into(phone, card, check_page);
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
