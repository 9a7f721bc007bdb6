#include "write/register_page.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <string>

#include "page_in_browser.h"
#include "paper.h"

using namespace blankwright;

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

TEST_CASE("each row tells stage and gate, and what is on HOLD and what is late comes first") {
  RegisterPage page = register_of_two();
  PageBlank third{"PQ2-9XYZ", "A-1", "squared, witness", "shop", {}, {}, {}};
  third.gates = {{"witness", "HOLD: not through", PageAnswer::hold}};
  page.blanks.push_back(third);
  const std::string html = page_text(page);
  const std::string row_1 =
      "<li><a class=\"row\" data-id=\"K7T4X54\" href=\"#K7T-4X54\"><b>K7T-4X54</b> <span>in the bath</span> "
      "<span>bath B1</span> <span>bath: go on</span></a></li>";
  const std::string row_2 =
      "<li><a class=\"row\" data-id=\"NG732GX\" href=\"#NG7-32GX\"><b>NG7-32GX</b> <span>wet</span> "
      "<span>shop</span> "
      "<span><strong>resin: HOLD</strong></span>";
  CHECK(html.find(row_1) != std::string::npos);
  CHECK(html.find(row_2 + "</a></li>") != std::string::npos);
  // Above the orders: what is on HOLD with whose it is, then what is late, then the counts.
  const std::size_t first =
      html.find(row_2 + " <span class=\"whose\">B-2: knob for Łucja Ωmega, due 2027-05-01, late by 2 d 5 h");
  CHECK(html.find("<h2>On HOLD: 2</h2>") < first);
  CHECK(first < html.find("<h2>Late: 1</h2>"));
  CHECK(html.find("<h2>Late: 1</h2>") < html.find("<li><b>1</b> in the bath</li>"));
  CHECK(html.find("<li><b>1</b> in the bath</li>") < html.find("<section class=\"order\""));
  // Among its order's, too.
  CHECK(html.rfind("data-id=\"PQ29XYZ\"") < html.find("data-id=\"K7T4X54\""));
  page.blanks.resize(1);
  page.orders.at(1).late.clear();
  page.blanks.at(0).gates.clear();
  const std::string calm = page_text(page);
  CHECK(calm.find("On HOLD") == std::string::npos);
  CHECK(calm.find("Late:") == std::string::npos);
  CHECK(calm.find("<span>nothing to check</span>") != std::string::npos);
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
    for (const typed of ['', 'k7t-4', '32gx', 'łucja', 'A-1', 'hold', 'knob wet', 'awl wet', 'late', 'zzz']) {
      at('search').value = typed;
      at('search').dispatchEvent(new Event('input'));
      found[typed] = [...document.querySelectorAll('#list a')]
        .filter((row) => row.checkVisibility()).map((row) => row.dataset.id).join(' ');
    }
    document.dispatchEvent(new KeyboardEvent('keydown', {key: '/'}));
    const active = document.activeElement === at('search');
    at('search').value = 'ng7 32gx';
    at('search-form').requestSubmit();
    await later();
    return {found, active, hash: location.hash, labels: at('search').labels.length,
      fetched: performance.getEntriesByType('resource').length + document.images.length,
      lang: document.documentElement.lang, title: document.title};)");
  CHECK(seen.at("found") == nlohmann::json{{"", "NG732GX K7T4X54 NG732GX"},  // on HOLD first
                                           {"k7t-4", "K7T4X54"},
                                           {"32gx", "NG732GX"},
                                           {"łucja", "NG732GX"},
                                           {"A-1", "K7T4X54"},
                                           {"hold", "NG732GX"},
                                           {"knob wet", "NG732GX"},
                                           {"awl wet", ""},
                                           {"late", "NG732GX"},
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
  page.orders.at(0) = {"A-1", text, text, text, text, 6};
  PageBlank& blank = page.blanks.at(0);
  blank.stage = blank.place = text;
  blank.facts = {{text, text}};
  blank.gates = {{text, text, PageAnswer::hold}};
  blank.history = {{text, text, text, text, true}};
  const auto seen = in_browser(page_text(page), "#K7T-4X54", R"(
    const of = (query) => document.querySelector(query).textContent;
    const listed = () => [of('#orders p'), ...[...document.querySelectorAll('#orders [data-id=K7T4X54] > *')]
      .map((cell) => cell.textContent)];
    const in_html = listed();
    at('search').value = 'k7t';
    at('search').dispatchEvent(new Event('input'));
    return {in_html, by_script: listed(), cells: [of('dt:last-of-type'), of('dd:last-of-type'), of('#blank-gates li'), of('#blank-history li')],
      scripts: document.scripts.length};)");
  const nlohmann::json listed = {"6 × " + text + " for " + text + ", due " + text + ", late by " + text, "K7T-4X54",
                                 text, text, text + ": HOLD"};
  CHECK(seen.at("in_html") == listed);
  CHECK(seen.at("by_script") == listed);
  const std::string row = text + " " + text + ": " + text + " (" + text + ")";
  CHECK(seen.at("cells") == nlohmann::json{text, text, text + ": " + text, row});
  CHECK(seen.at("scripts") == 4);  // the page's three and the one of this test
}

TEST_CASE("no blank is lost: one whose order the page lacks is listed too") {
  RegisterPage page = register_of_two();
  page.blanks.at(1).order = "C-3";
  page.orders.at(1).client = page.orders.at(1).item = "";
  const std::string html = page_text(page);
  const std::size_t title = html.find("<h2 id=\"order-2\">No order on this page</h2>");
  REQUIRE(title != std::string::npos);
  CHECK(html.find("href=\"#NG7-32GX\">", title) != std::string::npos);
  CHECK(html.find("<p> for") == std::string::npos);
  const auto seen = in_browser(html, "", R"(
    at('search').value = 'ng7';
    at('search').dispatchEvent(new Event('input'));
    return document.querySelectorAll('#orders [data-id=NG732GX]').length;)");
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
    out.push([at('blank').hidden, document.activeElement.dataset.id]);
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
  CHECK(seen.at(2) == nlohmann::json::array({true, "NG732GX"}));
  CHECK(seen.at(3) == nlohmann::json::array({false, "#NG7-32GX"}));
  CHECK(seen.at(4) == "1 blank found.");
  CHECK(seen.at(5) == "Nothing fits.");
}

TEST_CASE("a large register is listed some hundred rows at a time, and found, opened and printed whole") {
  RegisterPage page{"Large", "2027-05-03 14:00", "9", {}, {}, {}};
  for (std::size_t i = 0; i <= most_in_html; ++i) {
    if (i % 100 == 0) page.orders.push_back({fmt::format("L-{}", i / 100), "Brackwater Forge", "knob", "", "", 80});
    PageBlank blank{fmt::format("X{:02}-{:04}", i / 10000, i), page.orders.back().id, "dry", "shop", {}, {}, {}};
    blank.history = {{"2027-05-03 09:00", "weighed", fmt::format("remark {}", i), "", true}};
    page.blanks.push_back(blank);
  }
  const std::string html = page_text(page);
  CHECK(html.find("<a class=\"row\"") == std::string::npos);
  CHECK(html.find("The 2001 blanks of this register are too many") != std::string::npos);
  const auto seen = in_browser(html, "#x002000", R"(
    const rows = () => [...document.querySelectorAll('#orders a')].map((row) => row.dataset.id);
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
  for (const std::string word : {"K7T-4X54", "NG7-32GX", "O'Brien", "Łucja", "HOLD"}) {
    CAPTURE(word);
    CHECK(text.find(word) != std::string::npos);
  }
  CHECK(text.find("Find a blank") == std::string::npos);
}
