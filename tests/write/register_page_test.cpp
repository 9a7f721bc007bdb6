#include "write/register_page.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

#include "../temporary_folder.h"
#include "paper.h"

using namespace blankwright;

namespace {

std::string source(const std::string& name) {
  return bytes_of(std::string{BLANKWRIGHT_SOURCE_DIR} + "/templates/register-page/" + name);
}

RegisterPage register_of_two() {
  RegisterPage page{"Workshop & <Sons>", "2027-05-03 14:00", "17", {}, {}};
  page.orders = {
      {"A-1", "O'Brien & </script><script>document.title='taken'</script>", "awl \"handle\"", "2027-06-18", 6},
      {"B-2", "Łucja Ωmega", "knob", "", 0}};
  PageBlank first{"K7T-4X54", "A-1", "in-bath", "bath B1", {{"Order", "A-1"}}, {{"dry: dry", false}}, {}};
  first.history = {{"2027-05-03 09:00", "weighed", "mass 131.0 g", "Ada", true},
                   {"2027-05-03 09:05", "weighed", "remark <img src=x onerror=document.title='taken'>", "", false}};
  PageBlank second{"NG7-32GX", "B-2", "wet", "shop", {}, {{"resin: HOLD: soak again", true}}, {}};
  page.blanks = {first, second};
  return page;
}

std::string page_text(const RegisterPage& page) {
  const std::string html = source("page.html"), css = source("page.css"), js = source("page.js");
  return register_page(page, {html, css, js});
}

std::string output_of(const std::string& command) { return run_tool(command).out; }

/// What a browser that is on the page says to `script`, the body of an async function in which
/// `at` finds an element by its id and `later` waits for what an event brings.
nlohmann::json in_browser(std::string html, const std::string& hash, const std::string& script) {
  const TemporaryFolder folder;
  html.insert(html.rfind("</body>"),
              "<script>addEventListener('load', async () => {\nconst at = (id) => document.getElementById(id);\n"
              "const later = () => new Promise((done) => setTimeout(done, 30));\n"
              "const answer = await (async () => {" +
                  script +
                  "})();\nconst said = document.createElement('pre');\nsaid.id = 'answer';\n"
                  "said.textContent = encodeURIComponent(JSON.stringify(answer));\ndocument.body.append(said);\n});"
                  "</script>\n");
  put_bytes(folder / "page.html", html);
  const std::string shown = output_of(
      "timeout 120 chromium --headless --no-sandbox --disable-gpu --disable-dev-shm-usage --user-data-dir='" +
      folder.path() + "/profile' --virtual-time-budget=5000 --dump-dom 'file://" + (folder / "page.html") + hash +
      "' 2>/dev/null");
  const std::string mark = "<pre id=\"answer\">";
  const std::size_t from = shown.find(mark);
  REQUIRE_MESSAGE(from != std::string::npos, shown.substr(0, 500));
  const std::size_t begin = from + mark.size();
  std::string text;
  for (std::size_t k = begin; shown.at(k) != '<'; ++k) {
    if (shown.at(k) == '%') {
      text += static_cast<char>(std::stoi(shown.substr(k + 1, 2), nullptr, 16));
      k += 2;
    } else {
      text += shown.at(k);
    }
  }
  return nlohmann::json::parse(text);
}

/// What stands on paper when a browser prints the page.
std::string printed_text(const std::string& html) {
  const TemporaryFolder folder;
  put_bytes(folder / "page.html", html);
  const std::string pdf = folder / "page.pdf";
  output_of("timeout 120 chromium --headless --no-sandbox --disable-gpu --disable-dev-shm-usage --user-data-dir='" +
            folder.path() + "/profile' --print-to-pdf='" + pdf + "' 'file://" + (folder / "page.html") +
            "' 2>/dev/null");
  return output_of("pdftotext -layout '" + pdf + "' -");
}

}  // namespace

TEST_CASE("the page holds all it needs, fetches nothing and takes nothing from outside for more than text") {
  const std::string html = page_text(register_of_two());
  CHECK(html.starts_with("<!doctype html>\n<html lang=\"en\">"));
  CHECK(html.find("default-src 'none'") != std::string::npos);
  for (const std::string outside : {"http:", "https:", "src=\"", "url(", "@import", "<link", "fetch("}) {
    CAPTURE(outside);
    CHECK(html.find(outside) == std::string::npos);
  }
  // WHATWG HTML: in a script element only "</script" and "<!--" matter, in text and attributes & < > " '.
  CHECK(html.find("</script><script>document") == std::string::npos);
  CHECK(html.find("<img") == std::string::npos);
  CHECK(html.find("O&#39;Brien &amp; &lt;/script&gt;") != std::string::npos);
  CHECK(html.find("<title>Workshop &amp; &lt;Sons&gt;</title>") != std::string::npos);
}

TEST_CASE("contrast of all colours on the page is at least 7 to 1") {
  // WCAG 2.1, success criterion 1.4.6, with its relative luminance; the page has black, white, one blue, and a grey
  // that is for lines alone (3 to 1, criterion 1.4.11).
  const auto luminance = [](int r, int g, int b) {
    const auto part = [](int value) {
      const double c = value / 255.0;
      return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * part(r) + 0.7152 * part(g) + 0.0722 * part(b);
  };
  const auto on_white = [&](int r, int g, int b) { return 1.05 / (luminance(r, g, b) + 0.05); };
  CHECK(on_white(0x00, 0x30, 0x8f) >= 7);
  CHECK(on_white(0x76, 0x76, 0x76) >= 3);
  const std::string css = source("page.css");
  for (std::size_t at = css.find('#'); at != std::string::npos; at = css.find('#', at + 1)) {
    const std::string colour = css.substr(at, css.find_first_of("; )", at) - at);
    if (colour.starts_with("#blank") || colour.starts_with("#found") || colour.starts_with("#back") ||
        colour.starts_with("#more")) {
      continue;  // ids
    }
    CAPTURE(colour);
    CHECK((colour == "#fff" || colour == "#000" || colour == "#00308f" || colour == "#767676"));
  }
}

TEST_CASE("a browser opens the blank that the address names, however it is written") {
  const auto seen = in_browser(page_text(register_of_two()), "#k7t4x54", R"(
    const out = [];
    const look = () => out.push([at('blank').hidden, at('blank-id').textContent,
      document.querySelectorAll('#blank-history li').length,
      document.querySelectorAll('#blank-history .replaced').length,
      document.querySelectorAll('#blank-gates .holds').length, at('found').textContent]);
    look();
    for (const hash of ['#NG7-32GX', '#KKK-KKKK', '#K7T%204X54', '#', '#%']) {
      location.hash = hash;
      await later();
      look();
    }
    return out;)");
  using Row = nlohmann::json;
  CHECK(seen.at(0) == Row::array({false, "K7T-4X54", 2, 1, 0, ""}));
  CHECK(seen.at(1) == Row::array({false, "NG7-32GX", 0, 0, 1, ""}));
  CHECK(seen.at(2).at(0) == true);
  CHECK(seen.at(2).at(5) == "The register has no blank KKK-KKKK.");
  CHECK(seen.at(3) == Row::array({false, "K7T-4X54", 2, 1, 0, ""}));
  CHECK(seen.at(4).at(0) == true);
  CHECK(seen.at(5).at(0) == true);  // an address that cannot be decoded
}

TEST_CASE("in a browser the search finds blanks, orders and clients, and nothing leaves the page") {
  const auto seen = in_browser(page_text(register_of_two()), "", R"(
    const found = {};
    for (const typed of ['', 'k7t-4', '32gx', 'łucja', 'A-1', 'zzz']) {
      at('search').value = typed;
      at('search').dispatchEvent(new Event('input'));
      found[typed] = [...document.querySelectorAll('tbody tr')]
        .filter((row) => !row.hidden && !row.closest('.order').hidden).map((row) => row.dataset.id).join(' ');
    }
    document.dispatchEvent(new KeyboardEvent('keydown', {key: '/'}));
    const active = document.activeElement === at('search');
    at('search').value = 'ng7 32gx';
    at('search-form').requestSubmit();
    await later();
    return {found, active, hash: location.hash, labels: at('search').labels.length,
      fetched: performance.getEntriesByType('resource').length + document.images.length,
      lang: document.documentElement.lang, title: document.title};)");
  CHECK(seen.at("found") == nlohmann::json{{"", "K7T4X54 NG732GX"},
                                           {"k7t-4", "K7T4X54"},
                                           {"32gx", "NG732GX"},
                                           {"łucja", "NG732GX"},
                                           {"A-1", "K7T4X54"},
                                           {"zzz", ""}});
  CHECK(seen.at("active") == true);       // the slash leads to the search
  CHECK(seen.at("hash") == "#NG7-32GX");  // Enter opens a whole ID
  CHECK(seen.at("labels") == 1);
  CHECK(seen.at("fetched") == 0);
  CHECK(seen.at("lang") == "en");
  CHECK(seen.at("title") == "NG7-32GX, Workshop & <Sons>");  // and no text of a client ran as a script
}

TEST_CASE("text from outside reaches the reader as it was written") {
  // ECMA-262, LineTerminator: U+2028 and U+2029 end a line of a script, but not of JSON (RFC 8259, section 7).
  const std::string text = "</script><!--<script>\"'\\&amp;&\u2028\u2029@data@\t</td>";
  RegisterPage page = register_of_two();
  page.orders.at(0) = {"A-1", text, text, text, 6};
  PageBlank& blank = page.blanks.at(0);
  blank.stage = blank.place = text;
  blank.facts = {{text, text}};
  blank.gates = {{text, true}};
  blank.history = {{text, text, text, text, true}};
  const auto seen = in_browser(page_text(page), "#K7T-4X54", R"(
    const of = (query) => document.querySelector(query).textContent;
    const listed = () => [of('#orders p'), ...[...document.querySelectorAll('#orders tr[data-id=K7T4X54] td')]
      .map((cell) => cell.textContent)];
    const in_html = listed();
    at('search').value = 'k7t';
    at('search').dispatchEvent(new Event('input'));
    return {in_html, by_script: listed(), cells: [of('dt'), of('dd'), of('#blank-gates li'), of('#blank-history li')],
      scripts: document.scripts.length};)");
  const nlohmann::json listed = {"6 × " + text + " for " + text + ", due " + text, "K7T-4X54", text, text, "hold"};
  CHECK(seen.at("in_html") == listed);
  CHECK(seen.at("by_script") == listed);
  const std::string row = text + " " + text + ": " + text + " (" + text + ")";
  CHECK(seen.at("cells") == nlohmann::json{text, text, text, row});
  CHECK(seen.at("scripts") == 4);  // the page's three and the one of this test
}

TEST_CASE("no blank is lost: one whose order the page lacks is listed too") {
  RegisterPage page = register_of_two();
  page.blanks.at(1).order = "C-3";
  page.orders.at(1).client = page.orders.at(1).item = "";
  const std::string html = page_text(page);
  CHECK(html.find("Of no order on this page") < html.find("<td><a href=\"#NG7-32GX\">"));
  CHECK(html.find("<td><a href=\"#NG7-32GX\">") != std::string::npos);
  CHECK(html.find("<p> for") == std::string::npos);
  const auto seen = in_browser(html, "", R"(
    at('search').value = 'ng7';
    at('search').dispatchEvent(new Event('input'));
    return document.querySelectorAll('#orders tr[data-id=NG732GX]').length;)");
  CHECK(seen == 1);
}

TEST_CASE("in a browser a search leaves the open blank, and Enter opens the only one that fits") {
  const auto seen = in_browser(page_text(register_of_two()), "#K7T-4X54", R"(
    const type = (text) => {
      at('search').value = text;
      at('search').dispatchEvent(new Event('input'));
    };
    const out = [];
    type('32g');
    out.push([at('blank').hidden, location.hash]);
    at('search-form').requestSubmit();
    await later();
    out.push([at('blank').hidden, location.hash]);
    at('back').click();
    await later();
    out.push([at('blank').hidden, document.activeElement.textContent]);
    document.activeElement.click();  // the address names it again
    await later();
    document.querySelector('#orders a').click();
    await later();
    out.push([at('blank').hidden, location.hash]);
    type('knob łucja');
    out.push(at('found').textContent);
    type('nothing such');
    at('search-form').requestSubmit();
    out.push(at('found').textContent);
    return out;)");
  CHECK(seen.at(0) == nlohmann::json::array({true, ""}));
  CHECK(seen.at(1) == nlohmann::json::array({false, "#NG7-32GX"}));
  CHECK(seen.at(2) == nlohmann::json::array({true, "NG7-32GX"}));
  CHECK(seen.at(3) == nlohmann::json::array({false, "#NG7-32GX"}));
  CHECK(seen.at(4) == "1 blank found.");
  CHECK(seen.at(5) == "No blank, order or client fits.");
}

TEST_CASE("a large register is listed some hundred rows at a time, and found, opened and printed whole") {
  RegisterPage page{"Large", "2027-05-03 14:00", "9", {}, {}};
  for (std::size_t i = 0; i <= most_in_html; ++i) {
    if (i % 100 == 0) page.orders.push_back({fmt::format("L-{}", i / 100), "Brackwater Forge", "knob", "", 80});
    PageBlank blank{fmt::format("X{:02}-{:04}", i / 10000, i), page.orders.back().id, "dry", "shop", {}, {}, {}};
    blank.history = {{"2027-05-03 09:00", "weighed", fmt::format("remark {}", i), "", true}};
    page.blanks.push_back(blank);
  }
  const std::string html = page_text(page);
  CHECK(html.find("<tr") == std::string::npos);
  CHECK(html.find("The 2001 blanks of this register are too many") != std::string::npos);
  const auto seen = in_browser(html, "#x002000", R"(
    const rows = () => [...document.querySelectorAll('#orders tbody tr')].map((row) => row.dataset.id);
    const out = {history: at('blank-history').textContent, first: rows()};
    out.more = !at('more').hidden;
    at('more').click();
    out.then = rows().length;
    at('search').value = '2000';
    at('search').dispatchEvent(new Event('input'));
    out.last = rows();
    out.over = at('more').hidden;
    at('search').value = 'brackwater l-20';
    at('search').dispatchEvent(new Event('input'));
    out.order = rows();
    return out;)");
  CHECK(seen.at("history") == "2027-05-03 09:00 weighed: remark 2000");
  CHECK(seen.at("first").size() == 200);
  CHECK(seen.at("first").at(199) == "X000199");
  CHECK(seen.at("more") == true);
  CHECK(seen.at("then") == 400);
  CHECK(seen.at("last") == nlohmann::json::array({"X002000"}));
  CHECK(seen.at("over") == true);
  CHECK(seen.at("order") == nlohmann::json::array({"X002000"}));
  const std::string printed = printed_text(html);
  for (const std::string id : {"X00-0000", "X00-0200", "X00-1234", "X00-2000"}) {
    CAPTURE(id);
    CHECK(printed.find(id) != std::string::npos);
  }
}

TEST_CASE("the page prints all its orders") {
  const std::string text = printed_text(page_text(register_of_two()));
  for (const std::string word : {"K7T-4X54", "NG7-32GX", "O'Brien", "Łucja", "hold"}) {
    CAPTURE(word);
    CHECK(text.find(word) != std::string::npos);
  }
  CHECK(text.find("Find a blank") == std::string::npos);
}
