#include "sheet/frame/table.h"

#include <doctest/doctest.h>

#include "table_pages_fixture.h"

namespace blankwright::table_pages {
namespace {

constexpr TextStyle body{.size = Lettering::hand, .least = Lettering::hand};

/// A table of one column, its head "Head", rows "1", "2", …
Table numbered(int rows, Length height) {
  Table table{{{50 * mm, 1}}, {{Cell{{{"Head", body}}}}, 10 * mm}, {}};
  for (int n = 1; n <= rows; ++n) table.rows.push_back({{Cell{{{fmt::format("row {}", n), body}}}}, height});
  return table;
}

std::vector<Page> pages_with(const Dossier& d, const Table& table) {
  OrderFlow flow = flow_for(d, shared_fonts());
  begin_part(flow, Word::routing_sheet);
  put_table(flow, table);
  return pages_of(std::move(flow));
}

std::vector<double> in_mm(const std::vector<Length>& lengths) {
  std::vector<double> numbers;
  for (const Length l : lengths) numbers.push_back(l / mm);
  return numbers;
}

/// The number of the page that a text stands on, from 0.
std::size_t page_with(const std::vector<Page>& pages, const std::string& words) {
  for (std::size_t n = 0; n < pages.size(); ++n) {
    if (count_of(texts_of(pages.at(n)), words) > 0) return n;
  }
  return pages.size();
}

}  // namespace

TEST_CASE("what the columns leave over goes where it may stretch") {
  const std::vector<Column> columns{{20 * mm}, {30 * mm, 1}, {10 * mm, 3}};
  const auto widths = in_mm(column_widths(columns, 100 * mm));  // 40 left over, shared 1 to 3
  CHECK(widths.at(0) == doctest::Approx(20));
  CHECK(widths.at(1) == doctest::Approx(40));
  CHECK(widths.at(2) == doctest::Approx(40));
}

TEST_CASE("columns wished too wide for the paper all shrink alike") {
  const std::vector<Column> columns{{100 * mm}, {50 * mm, 1}};
  const auto widths = in_mm(column_widths(columns, 75 * mm));
  CHECK(widths.at(0) == doctest::Approx(50));
  CHECK(widths.at(1) == doctest::Approx(25));
}

TEST_CASE("a text too wide for its cell steps down, and wraps at its least size where that is not enough") {
  Page page;
  const Canvas canvas{page, shared_fonts()};
  const std::vector<Phrase> phrase{{"bath keeper", {.size = Lettering::hand, .least = Lettering::note}}};
  const Length wanted = canvas.width_of("bath keeper", {.size = Lettering::hand});

  const Block shrunk = set_block(canvas, phrase, 0.9 * wanted);
  CHECK(shrunk.phrases.at(0).lines.lines.size() == 1);
  CHECK(shrunk.phrases.at(0).style.size == Lettering::note);

  const Block wrapped = set_block(canvas, phrase, 0.7 * wanted);
  CHECK(wrapped.phrases.at(0).lines.lines == std::vector<std::string>{"bath", "keeper"});
  CHECK(wrapped.phrases.at(0).style.size == Lettering::note);
}

TEST_CASE("the template's lettering makes the words of a table larger") {
  constexpr TextStyle may_shrink{.size = Lettering::hand, .least = Lettering::note};
  const auto size_of = [](const std::vector<Page>& pages, const std::string& words) {
    for (const Text& t : texts_of(pages)) {
      if (t.words == words) return t.size / mm;
    }
    return 0.0;
  };
  const Prepared as_shipped{Job{}}, larger{Job{.lettering = 120}};
  Table table = numbered(1, 8 * mm);
  table.columns = {{50 * mm, 1}, {14 * mm}};
  table.head.cells.push_back(Cell{{{"Oven", body}}});
  table.rows.at(0).cells.push_back(Cell{{{"bath keeper", may_shrink}}});
  const auto shipped_pages = pages_with(as_shipped.dossier(), table);
  const auto larger_pages = pages_with(larger.dossier(), table);
  CHECK(size_of(larger_pages, "row 1") == doctest::Approx(1.2 * size_of(shipped_pages, "row 1")));
  CHECK(size_of(shipped_pages, "bath") > 0);
  CHECK(size_of(larger_pages, "bath") == doctest::Approx(1.2 * size_of(shipped_pages, "bath")));
}

TEST_CASE("a row grows with its longest text") {
  const Prepared order{Job{}};
  Table table = numbered(2, 8 * mm);
  table.rows.at(0).cells.at(0).phrases.at(0).words = "row 1 " + std::string(1200, 'x');
  const auto pages = pages_with(order.dossier(), table);
  const auto texts = texts_of(pages);
  Length deepest{}, second{};
  for (const Text& t : texts) {
    if (t.words.find("xxx") != std::string::npos) deepest = std::max(deepest, ink(t).bottom());
    if (t.words == "row 2") second = ink(t).y;
  }
  CHECK(deepest > 0 * mm);
  CHECK(second > deepest);
}

TEST_CASE("a table that does not fit goes on under its head, with no row lost or twice") {
  const Prepared order{Job{}};
  const auto pages = pages_with(order.dossier(), numbered(57, 12 * mm));
  CHECK(pages.size() > 1);
  for (const Page& page : pages) CHECK(count_of(texts_of(page), "Head") == 1);
  for (int n = 1; n <= 57; ++n) CHECK(count_of(texts_of(pages), fmt::format("row {}", n)) == 1);
}

TEST_CASE("a row that belongs to the one below it is not parted from it by the end of a page") {
  const Prepared order{Job{}};
  for (int rows = 2; rows <= 30; ++rows) {
    CAPTURE(rows);
    Table table = numbered(rows, 12 * mm);
    table.rows.at(table.rows.size() - 2).with_next = true;
    const auto pages = pages_with(order.dossier(), table);
    CHECK(page_with(pages, fmt::format("row {}", rows - 1)) == page_with(pages, fmt::format("row {}", rows)));
  }
}

TEST_CASE("a table leaves the room below it that its notes need, whatever its length") {
  const Prepared order{Job{}};
  for (int rows = 1; rows <= 40; ++rows) {
    CAPTURE(rows);
    Table table = numbered(rows, 12 * mm);
    table.below = 20 * mm;
    const Dossier d = order.dossier();
    OrderFlow flow = flow_for(d, shared_fonts());
    begin_part(flow, Word::routing_sheet);
    put_table(flow, table);
    CHECK(free_room(flow).height >= 20 * mm - 0.001 * mm);
  }
}

}  // namespace blankwright::table_pages
