// The coordinator's page as it is shipped: what a strict content policy forbids, words in both
// languages, contrast.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <set>

#include "core/json.h"

namespace trowelbell::collector {
namespace {

namespace fs = std::filesystem;

std::string read(const fs::path& file) {
  std::ifstream stream(file);
  REQUIRE_MESSAGE(stream.is_open(), file.string());
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

const fs::path kPages = fs::path(TROWELBELL_TEST_DIR) / "../src/collector/pages";

std::map<std::string, std::string> pages() {
  std::map<std::string, std::string> texts;
  for (const auto& entry : fs::directory_iterator(kPages))
    texts[entry.path().filename().string()] = read(entry.path());
  REQUIRE(texts.size() >= 3);
  return texts;
}

std::vector<std::smatch> matches(const std::string& text, const std::regex& pattern) {
  return {std::sregex_iterator(text.begin(), text.end(), pattern), std::sregex_iterator()};
}

std::map<std::string, std::string> language(const std::string& tag) {
  Problems problems;
  const auto document =
      parse_json(read(fs::path(TROWELBELL_CONTENT_DIR) / "lang" / (tag + ".json")), {}, problems);
  REQUIRE(document);
  std::map<std::string, std::string> texts;
  for (const auto& [key, text] : (*document)["texts"].items())
    if (key.starts_with("coordinator.")) texts[key] = text.get<std::string>();
  return texts;
}

using Colours = std::map<std::string, std::string>;

// The custom properties of the first :root block at or after `from`.
Colours colours(const std::string& css, std::size_t from) {
  const std::size_t start = css.find(":root", from);
  const std::string block = css.substr(start, css.find('}', start) - start);
  Colours found;
  const std::regex property("--([a-z-]+): (#[0-9A-F]{6});");
  for (const auto& match : matches(block, property)) found[match[1]] = match[2];
  return found;
}

// WCAG 2.2, "relative luminance" and "contrast ratio".
double luminance(const std::string& colour) {
  constexpr std::array<double, 3> kWeights = {0.2126, 0.7152, 0.0722};
  double sum = 0;
  for (std::size_t i = 0; i < 3; ++i) {
    const double c = std::stoi(colour.substr(1 + 2 * i, 2), nullptr, 16) / 255.0;
    sum += kWeights[i] * (c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4));
  }
  return sum;
}

double contrast(const std::string& a, const std::string& b) {
  const auto [low, high] = std::minmax({luminance(a), luminance(b)});
  return (high + 0.05) / (low + 0.05);
}

}  // namespace

TEST_CASE("the page has no inline script or style and asks nobody else for anything") {
  for (const auto& page : pages()) {
    const std::string& name = page.first;
    const std::string& text = page.second;
    CAPTURE(name);
    CHECK_FALSE(std::regex_search(text, std::regex("https?://")));
    CHECK_FALSE(std::regex_search(
        text, std::regex("innerHTML|insertAdjacentHTML|document\\.write|eval\\(")));
    if (!name.ends_with(".html")) continue;
    CHECK_FALSE(std::regex_search(text, std::regex("<style|\\sstyle=|\\son[a-z]+=|javascript:")));
    CHECK_FALSE(std::regex_search(text, std::regex("<script(?![^>]*\\ssrc=)")));
  }
}

TEST_CASE("every word of the page is there in English and Spanish, and every word is used") {
  const auto english = language("en");
  const auto spanish = language("es");
  std::string all;
  for (const auto& [name, text] : pages()) all += text;

  std::set<std::string> used;
  for (const auto& match : matches(all, std::regex("[\"'`](coordinator\\.[a-z_.]+)[\"'`]")))
    used.insert(match[1]);
  // Names of files and of a stored value.
  for (const char* other : {"coordinator.css", "coordinator.js", "coordinator.key"})
    used.erase(other);
  for (const std::string& key : used) CHECK_MESSAGE(english.contains(key), key);

  // `coordinator.error.${kind}`: any key that begins so is used.
  std::set<std::string> families;
  for (const auto& match : matches(all, std::regex("`(coordinator\\.[a-z_.]+\\.)\\$\\{")))
    families.insert(match[1]);
  CHECK(families.size() >= 5);
  for (const auto& entry : english) {
    const std::string& key = entry.first;
    const std::string& text = entry.second;
    CAPTURE(key);
    CHECK(spanish.contains(key));
    bool wanted = used.contains(key);
    for (const std::string& family : families) wanted = wanted || key.starts_with(family);
    CHECK(wanted);
    // The same placeholders in both.
    const std::regex placeholder("\\{[a-z_]+\\}");
    std::multiset<std::string> here;
    std::multiset<std::string> there;
    for (const auto& match : matches(text, placeholder)) here.insert(match[0]);
    const std::string other = spanish.contains(key) ? spanish.at(key) : "";
    for (const auto& match : matches(other, placeholder)) there.insert(match[0]);
    CHECK(here == there);
  }
  CHECK(spanish.size() == english.size());
}

TEST_CASE("text reaches 4.5:1 and shapes 3:1, by day and by night") {
  // WCAG 2.2, 1.4.3 and 1.4.11.
  const std::string css = read(kPages / "coordinator.css");
  const Colours day = colours(css, 0);
  const Colours night = colours(css, css.find("prefers-color-scheme: dark"));
  REQUIRE(day.size() == 9);
  REQUIRE(night.size() == 9);
  CHECK(day != night);
  for (const Colours& theme : {day, night}) {
    for (const char* text : {"ink", "ink-soft", "leaf", "brick"})
      for (const char* ground : {"ground", "card"}) {
        CAPTURE(std::string(text) + " on " + ground);
        CHECK(contrast(theme.at(text), theme.at(ground)) >= 4.5);
      }
    CHECK(contrast(theme.at("on-leaf"), theme.at("leaf")) >= 4.5);
    for (const char* shape : {"line", "leaf", "brick", "water"}) {
      CAPTURE(std::string(shape));
      CHECK(contrast(theme.at(shape), theme.at("ground")) >= 3.0);
      CHECK(contrast(theme.at(shape), theme.at("card")) >= 3.0);
    }
  }
  CHECK(contrast("#000000", "#FFFFFF") == doctest::Approx(21.0));  // the scale's two ends, WCAG 2.2
  CHECK(contrast("#777777", "#777777") == doctest::Approx(1.0));
}

}  // namespace trowelbell::collector
