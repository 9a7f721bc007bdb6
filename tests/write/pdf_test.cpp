#include "write/pdf.h"

#include <doctest/doctest.h>

#include <clocale>
#include <limits>
#include <regex>
#include <string>
#include <thread>
#include <vector>

#include "diagnose/failure.h"
#include "paper.h"
#include "sheet/mark/font_metrics.h"
#include "write/pdf_content.h"
#include "write/sample_pages.h"

using namespace blankwright;

namespace {

std::string told_by(const std::string& tool, const std::string& bytes) {
  const TemporaryFolder folder;
  put_bytes(folder / "paper.pdf", bytes);
  const ToolRun run = run_tool(tool + " " + shell_quoted(folder / "paper.pdf"));
  CHECK(run.status == 0);
  CHECK(run.err == "");
  return run.out;
}

/// Lets qpdf and Poppler read every object; they must have nothing to say.
void check_sound(const std::string& bytes) {
  for (const char* tool : {"qpdf --check", "pdfinfo", "pdffonts", "pdftoppm -r 20 -png"}) told_by(tool, bytes);
  copied_text(bytes);
}

DocumentInfo document_info(std::string title, std::int64_t made_at_unix = 0) {
  DocumentInfo info;
  info.title = std::move(title);
  info.made_at_unix = made_at_unix;
  info.true_to_size = true;
  return info;
}

bool contains(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("a document passes qpdf's and Poppler's checks without a word") {
  std::vector<Page> pages{tag_sheet(ids_of_a_sheet()),
                          {.paper = letter, .items = {text(20, 20, "±½ → ≥ ź")}, .label = "Bench card"}};
  pages.push_back({.paper = a4, .items = {}, .label = ""});
  pages.at(1).items.push_back({Fill{.paths = {rectangle(20, 30, 10, 10)}}, Role::rule});
  for (const Dash dash : {Dash::solid, Dash::hidden, Dash::centre, Dash::tear}) {
    pages.at(1).items.push_back(stroke(20, 50, 120, 50, 0.35 * mm, dash));
  }
  check_sound(pdf_of(pages, document_info("Zażółć"), fonts()));
}

TEST_CASE("words are copied out as they were printed, in Greek, in Polish and with fractions") {
  const std::vector<std::string> lines{"K7T-4X54",           "Zażółć gęślą jaźń",      "ΑΒΓΔ Ωω άέή µ Ø",
                                       "1½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ ⅓ ⅔", "±0.5 × 45° − → ≥ ≤ √ ∞", "(round) [square] \\ back",
                                       "Ångström naïve ſ ÿ"};
  Page page{.paper = a4, .items = {}, .label = {}};
  double y = 20;
  for (const Face face : {Face::regular, Face::bold}) {
    for (const std::string& line : lines) page.items.push_back(text(20, y += 10, line, face));
  }
  const std::string copied = copied_text(pdf(page));
  for (const std::string& line : lines) {
    CAPTURE(line);
    const std::size_t first = copied.find(line);
    CHECK(first != std::string::npos);
    CHECK(copied.find(line, first + 1) != std::string::npos);
  }
}

TEST_CASE("words are as wide as their font has them") {
  // Poppler goes by the widths that the document states; FontMetrics reads the font with FreeType.
  const std::string words = "Wimlj9\u00bd\u017b\u03a9";
  const FontMetrics metrics{fonts().regular, fonts().bold};
  for (const Face face : {Face::regular, Face::bold}) {
    const TemporaryFolder folder;
    put_bytes(folder / "paper.pdf", pdf({.paper = a4, .items = {text(20, 20, words, face, 10 * mm)}, .label = {}}));
    const std::string boxes = run_tool("pdftotext -bbox " + shell_quoted(folder / "paper.pdf") + " -").out;
    std::smatch box;
    REQUIRE(std::regex_search(boxes, box, std::regex{"<word xMin=\"([0-9.]+)\" .*xMax=\"([0-9.]+)\""}));
    const double points = std::stod(box[2]) - std::stod(box[1]);
    CHECK(points == doctest::Approx(metrics.width(words, face, 10 * mm) / (inch / 72)).epsilon(0.003));
  }
}

TEST_CASE("the paper is the size that was asked for") {
  // ISO 216: A4 is 210 × 297 mm, 595.276 × 841.890 pt; Letter is 8.5 × 11 in, 612 × 792 pt.
  CHECK(contains(told_by("pdfinfo", pdf({.paper = a4, .items = {}, .label = {}})), "595.276 x 841.89 pts (A4)"));
  CHECK(contains(told_by("pdfinfo", pdf({.paper = letter, .items = {}, .label = {}})), "612 x 792 pts (letter)"));
}

TEST_CASE("a document says what it is, when it was made and in which language") {
  const DocumentInfo info{.title = "Arkusz tokarza — Zażółć",
                          .author = "Hollow Ash Works",
                          .subject = "Ωμέγα (3)",
                          .language = "pl",
                          .made_at_unix = 951'782'399,  // 2000-02-28 23:59:59 UTC, POSIX.1-2017, 4.16
                          .true_to_size = true};
  const std::string bytes = pdf({.paper = a4, .items = {text(20, 20, "A")}, .label = "Turner's sheet"}, info);
  const std::string told = told_by("TZ=UTC pdfinfo -isodates", bytes);
  CHECK(contains(told, "Arkusz tokarza — Zażółć\n"));
  CHECK(contains(told, "Hollow Ash Works\n"));
  CHECK(contains(told, "Ωμέγα (3)\n"));
  CHECK(contains(told, "2000-02-28T23:59:59Z"));
  CHECK(contains(told, "PDF version:     1.7"));
  CHECK_FALSE(contains(bytes, "Haru"));
  CHECK(contains(bytes, "/Lang (pl)"));
  CHECK(contains(bytes, "/PrintScaling /None"));
  CHECK_FALSE(contains(pdf({.paper = a4, .items = {}, .label = {}}), "PrintScaling"));
}

TEST_CASE("only the fonts that are used are embedded, as subsets with their text copied") {
  const std::string one = told_by("pdffonts", pdf({.paper = a4, .items = {text(20, 20, "A")}, .label = {}}));
  CHECK(contains(one, "+BlankwrightSans-Regular"));
  CHECK_FALSE(contains(one, "Bold"));
  CHECK(contains(one, "yes yes yes"));  // embedded, a subset, with a map to Unicode
  const std::string none = told_by("pdffonts", pdf({.paper = a4, .items = {}, .label = {}}));
  CHECK_FALSE(contains(none, "Blankwright"));
}

TEST_CASE("pages with one label in a row make one bookmark and are counted within it") {
  std::vector<Page> pages;
  for (const char* label : {"Turner's sheet", "Étiquettes", "Étiquettes", "Worksheet"}) {
    pages.push_back({.paper = a4, .items = {text(20, 20, label)}, .label = label});
  }
  const std::string bytes = pdf_of(pages, {}, fonts());
  const TemporaryFolder folder;
  put_bytes(folder / "paper.pdf", bytes);
  const ToolRun run =
      run_tool("qpdf --json --json-key=outlines --json-key=pagelabels " + shell_quoted(folder / "paper.pdf"));
  REQUIRE(run.status == 0);
  std::size_t bookmarks = 0;
  for (std::size_t at = 0; (at = run.out.find("\"title\":", at)) != std::string::npos; ++at) ++bookmarks;
  CHECK(bookmarks == 3);
  for (const char* title :
       {"\"title\": \"Turner's sheet\"", "\"title\": \"Étiquettes\"", "\"title\": \"Worksheet\""}) {
    CAPTURE(title);
    CHECK(contains(run.out, title));
  }
  CHECK(contains(run.out, "Étiquettes "));  // the prefix of "Étiquettes 1", "Étiquettes 2"
}

TEST_CASE("a document of 250 pages holds 250 pages in order") {
  std::vector<Page> pages;
  for (int n = 1; n <= 250; ++n)
    pages.push_back({.paper = a4, .items = {text(20, 20, "sheet " + std::to_string(n))}, .label = "Tags"});
  const std::string bytes = pdf_of(pages, {}, fonts());
  CHECK(contains(told_by("pdfinfo", bytes), "Pages:           250"));
  const std::string copied = copied_text(bytes);
  CHECK(copied.find("sheet 2\n") < copied.find("sheet 101\n"));
  CHECK(copied.find("sheet 101\n") < copied.find("sheet 250\n"));
  check_sound(bytes);
}

TEST_CASE("the same pages give the same bytes, also in two threads and in a locale with a decimal comma") {
  const std::vector<Page> pages{tag_sheet(ids_of_a_sheet())};
  const DocumentInfo info = document_info("Tags", 1'700'000'000);
  const std::string first = pdf_of(pages, info, fonts());
  std::vector<std::string> made(8);
  std::vector<std::thread> threads;
  for (const int half : {0, 1}) {
    threads.emplace_back([&, half] {
      for (std::size_t n = static_cast<std::size_t>(half); n < made.size(); n += 2)
        made.at(n) = pdf_of(pages, info, fonts());
    });
  }
  for (std::thread& thread : threads) thread.join();
  for (const std::string& bytes : made) CHECK((bytes == first));

  const std::string before = std::setlocale(LC_ALL, nullptr);
  if (std::setlocale(LC_ALL, "de_DE.UTF-8") != nullptr) CHECK((pdf_of(pages, info, fonts()) == first));
  std::setlocale(LC_ALL, before.c_str());
}

TEST_CASE("a document is the same whatever documents and fonts came before it") {
  const Page page{.paper = a4, .items = {text(20, 20, "Ash 7"), text(20, 30, "Ash 7", Face::bold)}, .label = {}};
  const std::string first = pdf(page);
  CHECK((pdf_of({&page, 1}, {}, {fonts().bold, fonts().regular}) != first));
  CHECK((pdf(page) == first));
}

TEST_CASE("a sheet of 24 tags takes no more than 25 kB") { CHECK(pdf(tag_sheet(ids_of_a_sheet())).size() <= 25'000); }

TEST_CASE("numbers in a page are short and the state is set once") {
  UsedCharacters used;
  UsedImages images;
  const Page page{.paper = {"card", 25.4 * mm, 25.4 * mm},
                  .items = {text(1.25, 10, "A(č)"), text(1.25, 15, "B"), stroke(0, -0.5, 10.0004, 0, 0.25 * mm),
                            stroke(0, 1, 1, 1, 0.25 * mm)},
                  .label = {}};
  // Written by hand from ISO 32000-1: 72/25.4 points in a millimetre, y turned over, literal strings of two bytes a
  // character: brackets and the carriage return in č (U+010D) are escaped.
  using namespace std::string_literals;
  CHECK(pdf_content(page, used, images) ==
        "2.834646 0 0 -2.834646 0 72 cm\n1 j\n"
        "BT\n/R 5 Tf\n1 0 0 -1 1.25 10 Tm(\0A\0\\(\1\\r\0\\))Tj\n1 0 0 -1 1.25 15 Tm(\0B)Tj\nET\n"
        ".25 w\n0 -.5 m 10 0 l S\n0 1 m 1 1 l S\n"s);
  CHECK(used.in(Face::regular) == u"()ABč");
  CHECK(used.in(Face::bold).empty());
}

TEST_CASE("what no page may hold is our own mistake") {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  constexpr double infinite = std::numeric_limits<double>::infinity();
  const auto with = [](const Item& item) { return Page{.paper = a4, .items = {item}, .label = {}}; };
  for (const double bad : {nan, infinite, -infinite, 40'000.0}) {
    CHECK_THROWS_AS(pdf(with(stroke(0, 0, bad, 0, 1 * mm))), BrokenPromise);
    CHECK_THROWS_AS(pdf(with(text(bad, 0, "A"))), BrokenPromise);
    CHECK_THROWS_AS(pdf({.paper = {"none", bad * mm, 297 * mm}, .items = {}, .label = {}}), BrokenPromise);
  }
  CHECK_THROWS_AS(pdf(with(text(0, 0, "\xC3"))), BrokenPromise);
  CHECK_THROWS_AS(pdf(with(text(0, 0, "a\nb"))), BrokenPromise);
  CHECK_THROWS_AS(pdf(with(text(0, 0, "\U0001F332"))), BrokenPromise);
  CHECK_THROWS_AS(pdf(with(text(0, 0, "A", Face::regular, Length{}))), BrokenPromise);
  CHECK_THROWS_AS(pdf(with(stroke(0, 0, 1, 0, Length{}))), BrokenPromise);
  CHECK_THROWS_AS(pdf(with({Matrix{{}, 1 * mm, 3, std::vector<bool>(8)}, Role::code})), BrokenPromise);
  CHECK_THROWS_AS(pdf({.paper = a4, .items = {}, .label = {}}, document_info("", 253'402'300'800)), BrokenPromise);
  CHECK_THROWS_AS(pdf_of({}, {}, fonts()), BrokenPromise);
}

TEST_CASE("a font that is none is told as the world's fault") {
  const Page page{.paper = a4, .items = {text(20, 20, "A")}, .label = {}};
  const std::string whole = fonts().regular;
  for (const std::string& bytes :
       {std::string{}, std::string{"not a font"}, whole.substr(0, 200), whole.substr(0, 2000)}) {
    CHECK_THROWS_AS(pdf_of({&page, 1}, {}, {bytes, fonts().bold}), WorldError);
  }
}
