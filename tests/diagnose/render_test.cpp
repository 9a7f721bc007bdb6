#include <doctest/doctest.h>

#include <algorithm>
#include <memory>
#include <string>

#include "diagnose/diagnostics.h"
#include "diagnose/problem.h"
#include "measure/utf8.h"

using namespace blankwright;

namespace {

/// Whatever the words are.
Saying words(const std::string& any) { return say(Sentence<1>{{"any", "{}"}}, any); }

Source file(std::string name, std::string text) {
  return std::make_shared<const SourceText>(SourceText{std::move(name), std::move(text)});
}

/// One error at a place of a file, as it is printed.
std::string shown(const Source& source, int line, int column, int length, const std::string& message = "wrong") {
  Diagnostics out;
  out.error(Problem::wrong_type, {source, line, column, length}, words(message));
  return rendered(out);
}

std::string line_of(const std::string& text, int n) {
  std::size_t at = 0;
  for (int i = 1; i < n; ++i) at = text.find('\n', at) + 1;
  return text.substr(at, text.find('\n', at) - at);
}

/// The column of the first caret, counted in characters behind the bar.
std::size_t caret_column(const std::string& out) { return line_of(out, 3).find('^') - line_of(out, 3).find('|') - 2; }

}  // namespace

TEST_CASE("a mistake is shown as compilers show it: place, words, the line, a mark below, a hint") {
  const Source order = file("orders/0147.toml", "id = \"A\"\n\n[stud]\nenters = 14\nload = \"1.8 kN\"\n");
  Diagnostics out;
  out.error(Problem::bare_number, {order, 4, 10, 2}, words("bare number where a length belongs"))
      .label({order, 5, 8, 8}, words("this load sets the bore's depth"))
      .hint(words("enters = \"14 mm\""));
  CHECK(rendered(out) ==
        "orders/0147.toml:4:10: error: bare number where a length belongs [bare-number]\n"
        "    4 | enters = 14\n"
        "      |          ^^\n"
        "    5 | load = \"1.8 kN\"\n"
        "      |        -------- this load sets the bore's depth\n"
        "   hint: enters = \"14 mm\"\n");
}

TEST_CASE("a label in another file is shown with that file's name") {
  const Source order = file("job.toml", "quantity = 6\n");
  const Source shop = file("shop.toml", "\nexpected = \"8 of 10\"\n");
  Diagnostics out;
  out.warning(Problem::no_yield_known, {order, 1, 12, 1}, words("few are known"))
      .label({shop, 2, 12, 9}, words("by this yield"));
  CHECK(rendered(out) ==
        "job.toml:1:12: warning: few are known [no-yield-known]\n"
        "    1 | quantity = 6\n"
        "      |            ^\n"
        "   shop.toml:2:12: by this yield\n"
        "    2 | expected = \"8 of 10\"\n"
        "      |            ---------\n");
}

TEST_CASE("places outside all files, and files as a whole, are shown without a line") {
  Diagnostics out;
  out.error(Problem::file_unreadable, {file("gone.toml", "")}, words("no such file"));
  out.note(Problem::yield_is_a_guess, {}, words("a guess")).label({}, words("passed over"));
  CHECK(rendered(out) ==
        "blankwright: note: a guess [yield-is-a-guess]\n"
        "gone.toml: error: no such file [file-unreadable]\n");
}

TEST_CASE("the mark stands under the right character of a line with tabs and with letters of several bytes") {
  const Source tabs = file("a", "\t\tx = 1\n");
  CHECK(line_of(shown(tabs, 1, 7, 1), 2) == "    1 |   x = 1");
  CHECK(caret_column(shown(tabs, 1, 7, 1)) == 6);
  const Source letters = file("a", "größe = \"¾ 木 😀\" # x\n");
  CHECK(caret_column(shown(letters, 1, 18, 1)) == 17);
  CHECK(line_of(shown(letters, 1, 9, 7), 3) == "      |         ^^^^^^^");
}

TEST_CASE("a mark never leaves its line, whatever place it is given") {
  const Source source = file("a", "abc\r\nd");
  CHECK(line_of(shown(source, 1, 2, 99), 3) == "      |  ^^");
  CHECK(line_of(shown(source, 1, 2, 99), 2) == "    1 | abc");  // without the carriage return
  CHECK(line_of(shown(source, 1, 50, 1), 3) == "      |    ^");
  CHECK(line_of(shown(source, 2, 1, 0), 3) == "      | ^");
  CHECK(line_of(shown(source, 9, 1, 1), 3) == "      | ^");
  CHECK(line_of(shown(source, 1, -5, 1), 3) == "      | ^");
}

TEST_CASE("a byte order mark takes no column") {
  const Source source = file("a", "\uFEFFabc\n");
  CHECK(shown(source, 1, 2, 1) == "a:1:2: error: wrong [wrong-type]\n    1 | abc\n      |  ^\n");
}

TEST_CASE("of a long line the part around its mark is shown, the mark still under its character") {
  std::string text(5000, 'x');
  text.at(3999) = '!';
  const std::string out = shown(file("a", text + "\n"), 1, 4000, 1);
  CHECK(line_of(out, 1) == "a:1:4000: error: wrong [wrong-type]");
  CHECK(line_of(out, 2).size() <= 170);
  CHECK(line_of(out, 2).at(line_of(out, 3).find('^')) == '!');
  std::string accents;
  for (int i = 0; i < 3000; ++i) accents += i == 2000 ? "!" : "ä";
  const std::string accented = shown(file("a", accents), 1, 2001, 1);
  const auto shown_line = code_points(line_of(accented, 2));
  CHECK(shown_line.size() <= 170);
  CHECK(shown_line.at(line_of(accented, 3).find('^')) == U'!');
}

TEST_CASE("mistakes are sorted by place, files in the order in which they come") {
  const Source b = file("b.toml", "1\n2\n3\n");
  const Source a = file("a.toml", "1\n");
  Diagnostics out;
  out.error(Problem::wrong_type, {b, 3, 1, 1}, words("third"));
  out.error(Problem::wrong_type, {a, 1, 1, 1}, words("other file"));
  out.warning(Problem::wrong_type, {b, 1, 5, 1}, words("second"));
  out.note(Problem::wrong_type, {b, 1, 1, 1}, words("first"));
  out.note(Problem::wrong_type, {b, 1, 1, 1}, words("first, told later"));
  const std::string text = rendered(out);
  std::size_t from = 0;
  for (const char* expected :
       {"b.toml:1:1: note: first [", "b.toml:1:1: note: first, told later [", "b.toml:1:5: warning: second [",
        "b.toml:3:1: error: third [", "a.toml:1:1: error: other file ["}) {
    CAPTURE(expected);
    const auto at = text.find(expected, from);
    REQUIRE(at != std::string::npos);
    from = at;
  }
  CHECK(out.errors() == 2);
  CHECK(out.warnings() == 1);
}

TEST_CASE("what one run has to say is taken over by another with its counts") {
  Diagnostics all, part;
  all.warning(Problem::bond_untested, {}, words("w"));
  part.error(Problem::wrong_type, {}, words("e"));
  part.warning(Problem::bond_untested, {}, words("another"));
  all.append(std::move(part));
  CHECK(all.errors() == 1);
  CHECK(all.warnings() == 2);
  CHECK(all.has_errors());
  CHECK(all.all().size() == 3);
}

TEST_CASE("what two orders say of the shop in the same words is said once, and of two places twice") {
  const auto shop = std::make_shared<const SourceText>(SourceText{"shop.toml", "a = 1\nb = 2\n"});
  const auto said_at = [&](int line) {
    Diagnostics one;
    one.warning(Problem::bond_untested, {shop, line, 5, 1}, words("assumed"));
    one.error(Problem::wrong_type, {shop, line, 5, 1}, words("e"));
    return one;
  };
  Diagnostics all;
  for (const int line : {1, 1, 2, 1}) all.append(said_at(line));
  CHECK(all.warnings() == 2);
  CHECK(all.errors() == 4);  // an error each: one order's must not hide another's
}

TEST_CASE("a hostile file cannot steer the terminal: no control character reaches the output") {
  // Unicode Standard: C0 and C1 controls (table 23-1), bidirectional controls (Annex 9, section 2), line separators.
  const std::string hostile =
      "x\x1b[2J\x1b]0;title\x07\r\b\x7f\xc2\x9b"
      "31m\xe2\x80\xae\xe2\x81\xa6\xe2\x80\xa8\xe2\x80\x8b\xff\xc3\x1b[31m\xef\xbb\xbf";
  std::string with_nul = hostile + std::string(1, '\0') + "end";
  const Source source = file("na\x1b[1mme\n.toml", "a\n" + with_nul + "\n");
  Diagnostics out;
  out.error(Problem::unknown_key, {source, 2, 1, 3}, words("unknown key `" + with_nul + "\nsecond: line`"))
      .label({source, 2, 2, 1}, words(with_nul))
      .label({file("\x1b[31mother", with_nul), 1, 1, 1}, words(with_nul))
      .hint(words("did you mean `" + with_nul + "`?"));
  const std::string text = rendered(out);
  CHECK_FALSE(invalid_utf8_at(text).has_value());
  for (const char32_t c : code_points(text)) {
    const bool control = (c < 0x20 && c != U'\n') || (c >= 0x7F && c <= 0x9F) || (c >= 0x200B && c <= 0x200F) ||
                         (c >= 0x2028 && c <= 0x202E) || (c >= 0x2060 && c <= 0x2069) || c == 0xFEFF;
    CAPTURE(static_cast<unsigned>(c));
    CHECK_FALSE(control);
  }
  CHECK(line_of(text, 1).ends_with("second: line` [unknown-key]"));  // the first line stands alone
  CHECK(std::count(text.begin(), text.end(), '\n') == 9);
}

TEST_CASE("a message that a file made very long is cut") {
  const std::string out = shown(file("a", "x"), 1, 1, 1, "unknown key `" + std::string(1'000'000, 'k') + "`");
  CHECK(out.size() < 3000);
  CHECK(line_of(out, 1).ends_with("[wrong-type]"));
}

TEST_CASE("severities are coloured for a terminal only when asked for") {
  Diagnostics out;
  out.error(Problem::wrong_type, {}, words("e"));
  CHECK(rendered(out).find('\x1b') == std::string::npos);
  CHECK(rendered(out, true).find("\x1b[1;31merror\x1b[0m: e") != std::string::npos);
}
