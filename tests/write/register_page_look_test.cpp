#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <regex>
#include <string>
#include <vector>

#include "page_in_browser.h"

using namespace blankwright;

namespace {

/// WCAG 2.1, relative luminance, of "#rrggbb".
double luminance(const std::string& colour) {
  const auto part = [&](std::size_t from) {
    const double c = std::stoi(colour.substr(from, 2), nullptr, 16) / 255.0;
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5);
}

/// WCAG 2.1, contrast ratio.
double contrast(const std::string& one, const std::string& other) {
  const double a = luminance(one), b = luminance(other);
  return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

/// The colours by their names, of each :root in the order of the file.
std::vector<std::map<std::string, std::string>> schemes_of(const std::string& css) {
  std::vector<std::map<std::string, std::string>> schemes;
  for (std::size_t at = css.find(":root {"); at != std::string::npos; at = css.find(":root {", at + 1)) {
    const std::string block = css.substr(at, css.find('}', at) - at);
    const std::regex colour{"--([a-z]+): (#[0-9a-f]{6});"};
    auto& scheme = schemes.emplace_back();
    for (std::sregex_iterator found{block.begin(), block.end(), colour}, end; found != end; ++found)
      scheme[(*found)[1]] = (*found)[2];
  }
  return schemes;
}

}  // namespace

TEST_CASE("contrast of the page's colours is at least 7 to 1, light and dark") {
  // WCAG 2.1, success criterion 1.4.6 (7 to 1) for text, 1.4.11 (3 to 1) for lines.
  CHECK(contrast("#ffffff", "#000000") == doctest::Approx(21));  // the definition of contrast ratio: from 1 to 21
  const std::string css = page_part("page.css");
  const auto schemes = schemes_of(css);
  REQUIRE(schemes.size() == 2);
  for (const auto& scheme : schemes) {
    REQUIRE(scheme.size() == 6);
    for (const std::string ground : {"ground", "raised"}) {
      for (const std::string ink : {"ink", "link", "hold"}) {
        CAPTURE(scheme.at(ground));
        CAPTURE(scheme.at(ink));
        CHECK(contrast(scheme.at(ground), scheme.at(ink)) >= 7);
      }
      CHECK(contrast(scheme.at(ground), scheme.at("line")) >= 3);
    }
  }
  CHECK(schemes[0].at("ground") != schemes[1].at("ground"));
  // No colour stands anywhere else.
  const std::regex elsewhere{"(?:color|background|border[a-z-]*|outline):[^;]*#[0-9a-f]"};
  CHECK_FALSE(std::regex_search(css, elsewhere));
}

TEST_CASE("in a browser all that the eye sees has a contrast of 4.5 to 1, light and dark, on a phone and a desk") {
  // WCAG 2.1, success criterion 1.4.3; what is computed is the colour of each text against the nearest ground below
  // it.
  const std::string script = R"(
    const colours = (text) => text.match(/[\d.]+/g).map(Number);
    const ground = (element) => {
      for (let one = element; one; one = one.parentElement) {
        const [r, g, b, a] = colours(getComputedStyle(one).backgroundColor);
        if (a !== 0) return [r, g, b];
      }
      return [255, 255, 255];
    };
    const seen = [];
    for (const element of document.querySelectorAll('body *')) {
      const own = [...element.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim() !== '');
      if (!own || !element.checkVisibility() || element.matches('script')) continue;
      seen.push([element.textContent.trim(), colours(getComputedStyle(element).color).slice(0, 3), ground(element)]);
    }
    return {width: innerWidth, body: ground(document.body), seen};)";
  const auto hex = [](const nlohmann::json& rgb) {
    return fmt::format("#{:02x}{:02x}{:02x}", rgb.at(0).get<int>(), rgb.at(1).get<int>(), rgb.at(2).get<int>());
  };
  for (const Screen screen : {Screen{390, false}, Screen{390, true}, Screen{1280, false}, Screen{1280, true}}) {
    for (const std::string hash : {"", "#NG7-32GX"}) {
      CAPTURE(screen.width);
      CAPTURE(screen.dark);
      CAPTURE(hash);
      const auto page = in_browser(page_text(register_of_two()), hash, script, screen);
      CHECK(page.at("width") == screen.width);
      CHECK((luminance(hex(page.at("body"))) < 0.5) == screen.dark);
      REQUIRE(page.at("seen").size() > 8);
      for (const auto& one : page.at("seen")) {
        CAPTURE(one.at(0).get<std::string>());
        CHECK(contrast(hex(one.at(1)), hex(one.at(2))) >= 4.5);
      }
    }
  }
}

TEST_CASE("in a browser an opened blank takes the list's place on a phone, and stands beside it on a desk") {
  const std::string script = R"(
    const out = {};
    const look = () => [at('list').checkVisibility(), at('blank').checkVisibility(),
      document.documentElement.scrollWidth <= innerWidth];
    out.list = look();
    const row = document.querySelector('#orders a[href="#NG7-32GX"]');
    row.querySelector('strong').click();  // anywhere in the row
    await later();
    out.opened = look();
    out.beside = at('blank').getBoundingClientRect().left >= at('list').getBoundingClientRect().right;
    out.facts = at('blank-facts').textContent;
    out.current = document.querySelectorAll('[aria-current]').length;
    at('back').click();
    await later();
    out.back = look();
    out.active = document.activeElement.dataset.id;
    out.height = document.activeElement.getBoundingClientRect().height;
    return out;)";
  for (const int width : {390, 1280}) {
    CAPTURE(width);
    const auto seen = in_browser(page_text(register_of_two()), "", script, {width, false});
    using Row = nlohmann::json;
    CHECK(seen.at("list") == Row::array({true, false, true}));
    CHECK(seen.at("opened") == Row::array({width > 500, true, true}));
    if (width > 500) CHECK(seen.at("beside") == true);
    CHECK(seen.at("facts") == "OrderB-2ClientŁucja ΩmegaItemknobDue2027-05-01Late by2 d 5 h");
    CHECK(seen.at("current") == 2);  // on HOLD, and in its order
    CHECK(seen.at("back") == Row::array({true, false, true}));
    CHECK(seen.at("active") == "NG732GX");
    CHECK(seen.at("height").get<double>() >= 24);  // WCAG 2.2, success criterion 2.5.8: 24 CSS pixels
  }
}
