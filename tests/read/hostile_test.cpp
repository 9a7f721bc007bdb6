// What nobody means well writes, and what a slip of the editor makes of a file: each ends in a diagnostic.

#include <doctest/doctest.h>

#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include "diagnose/problem.h"
#include "measure/utf8.h"
#include "read/document.h"
#include "texts.h"

using namespace blankwright;
using namespace std::string_literals;

namespace {

std::string repeated(std::string_view piece, int times) {
  std::string out;
  out.reserve(piece.size() * static_cast<std::size_t>(times));
  for (int i = 0; i < times; ++i) out += piece;
  return out;
}

struct Row {
  std::string what;
  std::string text;
  Problem problem;
};

void check_each(const std::vector<Row>& rows) {
  for (const Row& row : rows) {
    CAPTURE(row.what);
    const Diagnostics said = said_of(FileKind::job, row.text);
    const std::string words = rendered(said);
    CHECK_MESSAGE(find_problem(said, row.problem) != nullptr, problem_name(row.problem), " is not in\n",
                  words.substr(0, 2000));
    CHECK(said.has_errors());
    CHECK(words.size() < 100'000);
    CHECK_FALSE(invalid_utf8_at(words).has_value());
    CHECK(words.find('\x1b') == std::string::npos);
  }
}

}  // namespace

TEST_CASE("the job that the others are made of reads without a word") {
  CHECK(rendered(said_of(FileKind::job, job_with())).empty());
}

TEST_CASE("files that are not a document are refused as such") {
  const std::string start = "format = 1\n";
  check_each({
      {"empty", "", Problem::format_missing},
      {"words", "please make six handles\n", Problem::not_toml},
      {"a picture", "\x89PNG\r\n\x1a\n\0\0\0\rIHDR"s, Problem::not_utf8},
      {"UTF-16",
       "\xff\xfe"
       "f\0o\0r\0m\0a\0t\0"s,
       Problem::not_utf8},
      {"Latin-1",
       job_with("Nobody",
                "N\xf6"
                "body"),
       Problem::not_utf8},
      {"overlong slash", job_with("Nobody", "N\xc0\xaf"), Problem::not_utf8},
      {"surrogate", job_with("Nobody", "N\xed\xa0\x80"), Problem::not_utf8},
      {"NUL", job_with("Nobody", "N\0body"s), Problem::not_toml},
      {"NUL between lines", start + "\0\n"s, Problem::not_toml},
      {"escape", job_with("Nobody", "N\x1b[2Jbody"), Problem::not_toml},
      {"carriage return alone", "format = 1\rid = \"a\"\r", Problem::not_toml},
      {"quote left open", job_with("\"Nobody\"", "\"Nobody"), Problem::not_toml},
      {"many-line quote left open", job_with("\"Nobody\"", "\"\"\"Nobody"), Problem::not_toml},
      {"quantity without quotes", job_with("\"14 mm\"", "14 mm"), Problem::not_toml},
      {"the same key twice", start + "id = \"a\"\nid = \"b\"\n", Problem::not_toml},
      {"the same table twice", start + "[stud]\n[stud]\n", Problem::not_toml},
      {"the same key twice in an inline table",
       job_with("diameter = \"24 mm\"", "diameter = \"24 mm\", at = \"1 mm\""), Problem::not_toml},
      {"table and key", job_with() + "[stud.thread]\n", Problem::not_toml},
      {"number beyond 64 bits", job_with("quantity = 6", "quantity = 99999999999999999999"), Problem::not_toml},
      {"larger than the cap", job_with() + "#" + std::string(largest_file, 'x'), Problem::file_too_large},
      {"a hundred thousand unknown keys",
       start +
           [] {
             std::string keys;
             for (int i = 0; i < 100'000; ++i) keys += "k" + std::to_string(i) + "=1\n";
             return keys;
           }(),
       Problem::unknown_key},
      {"a key of a million letters", start + std::string(1'000'000, 'k') + " = 1\n", Problem::unknown_key},
      {"a key that steers the terminal", start + "\"\\u001b[2J\\u0000\" = 1\n", Problem::unknown_key},
  });
}

TEST_CASE("nesting that would exhaust the stack is refused, however it is dressed") {
  const std::string start = "format = 1\n";
  const std::string dotted = repeated("a.", 50'000) + "a";
  const std::string unseen =
      "\"\"\"\n\"\"\", ";  // quotes over several lines, behind which a careless scan sees nothing
  check_each({
      {"brackets", start + "a = " + std::string(100'000, '['), Problem::nested_too_deep},
      {"closed brackets", start + "a = " + std::string(100'000, '[') + std::string(100'000, ']'),
       Problem::nested_too_deep},
      {"braces", start + "a = " + repeated("{a=", 100'000), Problem::nested_too_deep},
      {"both, over lines", start + "a = " + repeated("[\n{a = ", 50'000), Problem::nested_too_deep},
      {"dotted key", start + dotted + " = 1\n", Problem::nested_too_deep},
      {"dotted key with spaces", start + repeated("a . ", 50'000) + "a = 1\n", Problem::nested_too_deep},
      {"quoted parts", start + repeated("\"a\".", 50'000) + "a = 1\n", Problem::nested_too_deep},
      {"literal parts", start + repeated("'a' . ", 50'000) + "a = 1\n", Problem::nested_too_deep},
      {"quotes within parts", start + repeated("\"\\\"'\".", 50'000) + "a = 1\n", Problem::nested_too_deep},
      {"header", start + "[" + dotted + "]\n", Problem::nested_too_deep},
      {"header of a list", start + "[[" + dotted + "]]\n", Problem::nested_too_deep},
      {"quoted header", start + "[" + repeated("\"a\".", 50'000) + "a]\n", Problem::nested_too_deep},
      {"inside an inline table", start + "x = {" + dotted + " = 1}\n", Problem::nested_too_deep},
      {"second in an inline table", start + "x = {b = 1, " + dotted + " = 1}\n", Problem::nested_too_deep},
      {"behind quotes over lines", start + "x = {b = " + unseen + dotted + " = 1}\n", Problem::nested_too_deep},
      {"behind literal quotes over lines", start + "x = {b = '''\n''', " + dotted + " = 1}\n",
       Problem::nested_too_deep},
      {"behind an odd quote", start + "x = {b = \"\"\"a\"b\"\"\", " + dotted + " = 1}\n", Problem::nested_too_deep},
      {"behind four closing quotes", start + "x = {b = \"\"\"a\"\"\"\", " + dotted + " = 1}\n",
       Problem::nested_too_deep},
      {"behind five closing quotes", start + "x = {b = '''a''''', " + dotted + " = 1}\n", Problem::nested_too_deep},
      {"behind an escaped quote", start + "x = {b = \"\\\\\\\"\", " + dotted + " = 1}\n", Problem::nested_too_deep},
      {"behind an escaped line end", start + "x = {b = \"\"\"\\\n\"\"\", " + dotted + " = 1}\n",
       Problem::nested_too_deep},
      {"behind a quote in a comment", start + "# it's \"\n" + dotted + " = 1\n", Problem::nested_too_deep},
      {"deep inline tables of many parts", start + repeated(repeated("x.", 31) + "x = {", 31) + std::string(31, '}'),
       Problem::unknown_key},  // as deep as may be: nothing of it may crash
  });
}

TEST_CASE("many headers each a little deeper end in words, too") {
  std::string text = "format = 1\n";
  std::string name = "a";
  for (int i = 0; i < 31; ++i)
    text += "[" + (name += ".a") + "]\n" + repeated("b.", 31) + "b = " + repeated("[", 20) + repeated("]", 20) + "\n";
  check_each({{"headers", text, Problem::unknown_key}});
}

TEST_CASE("brackets, dots and quotes inside texts and comments are only text") {
  for (const std::string& notes :
       std::vector<std::string>{"\"[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[\"", "'" + repeated(".", 60) + "'",
                                "\"\"\"\n" + repeated("{[.", 50) + "\n\"\"\"", "'''it's [[[ '''''", "\"a\\\"[[[\"",
                                "\"\"\"say \"\"[[[\"\" \\\n   here\"\"\""}) {
    CAPTURE(notes);
    const std::string text =
        job_with("quantity = 6\n", "quantity = 6\nnotes = " + notes + " # don't [ " + repeated("{.", 40) + "\n");
    CHECK(rendered(said_of(FileKind::job, text)).empty());
  }
}

TEST_CASE("values that no handle has are refused by their problem") {
  const std::string million(1'000'000, 'x');
  const auto notes = [](const std::string& value) {
    return job_with("quantity = 6", "quantity = 6\nnotes = \"" + value + "\"");
  };
  const auto due = [](const std::string& value) { return job_with("quantity = 6", "quantity = 6\ndue = " + value); };
  check_each({
      {"a billion metres", job_with("14 mm", "1000000000 m"), Problem::out_of_range},
      {"10^30 mm", job_with("14 mm", "1" + std::string(30, '0') + " mm"), Problem::out_of_range},
      {"a million digits", job_with("14 mm", std::string(1'000'000, '9') + " mm"), Problem::not_a_quantity},
      {"a million minus signs", job_with("14 mm", std::string(1'000'000, '-') + "1 mm"), Problem::not_a_quantity},
      {"a million spaces", job_with("14 mm", "14" + std::string(1'000'000, ' ') + "mn"), Problem::unknown_unit},
      {"negative", job_with("14 mm", "-14 mm"), Problem::out_of_range},
      {"nan", job_with("\"14 mm\"", "nan"), Problem::bare_number},
      {"inf", job_with("\"14 mm\"", "-inf"), Problem::bare_number},
      {"nan in quotes", job_with("14 mm", "nan mm"), Problem::not_a_quantity},
      {"inf in quotes", job_with("14 mm", "inf mm"), Problem::not_a_quantity},
      {"NUL in a quantity", job_with("14 mm", "14 mm\\u0000"), Problem::unknown_unit},
      {"escape in a quantity", job_with("14 mm", "\\u001b[2J14 mm"), Problem::not_a_quantity},
      {"most negative count", job_with("quantity = 6", "quantity = -9223372036854775808"), Problem::out_of_range},
      {"largest count", job_with("quantity = 6", "quantity = 9223372036854775807"), Problem::out_of_range},
      {"count as a decimal", job_with("quantity = 6", "quantity = 6.0"), Problem::wrong_type},
      {"count as nan", job_with("quantity = 6", "quantity = nan"), Problem::wrong_type},
      {"no pieces", job_with("quantity = 6", "quantity = 0"), Problem::out_of_range},
      {"time where a date belongs", due("07:32:00"), Problem::bad_date},
      {"moment where a date belongs", due("2027-06-18T07:32:00Z"), Problem::bad_date},
      {"date in quotes", due("\"2027-06-18\""), Problem::bad_date},
      {"no such day", due("2027-02-30"), Problem::not_toml},
      {"year 0", due("0000-01-01"), Problem::bad_date},
      {"year 9999", due("9999-12-31"), Problem::bad_date},
      {"id with a slash", job_with("A-1", "../A"), Problem::bad_order_id},
      {"id with a backslash", job_with("A-1", "a\\\\b"), Problem::bad_order_id},
      {"id with a colon", job_with("A-1", "c:a"), Problem::bad_order_id},
      {"id of dots", job_with("A-1", ".."), Problem::bad_order_id},
      {"id ending in a dot", job_with("A-1", "a."), Problem::bad_order_id},
      {"id that is a device", job_with("A-1", "NUL"), Problem::bad_order_id},
      {"id that is a device with an ending", job_with("A-1", "com1.txt"), Problem::bad_order_id},
      {"id with a space", job_with("A-1", "a b"), Problem::bad_order_id},
      {"id with a letter that looks alike", job_with("A-1", "Ä-1"), Problem::bad_order_id},
      {"id with a control character", job_with("A-1", "a\\u001b[2J"), Problem::unprintable_text},
      {"id with a NUL", job_with("A-1", "a\\u0000b"), Problem::unprintable_text},
      {"id with a line end", job_with("A-1", "a\\nb"), Problem::unprintable_text},
      {"id of a million letters", job_with("A-1", million), Problem::out_of_range},
      {"no id", job_with("A-1", ""), Problem::out_of_range},
      {"client of blanks", job_with("Nobody", "   "), Problem::out_of_range},
      {"text of a million letters", notes(million), Problem::out_of_range},
      {"a million combining marks", notes("a" + repeated("\u0301", 1'000'000)), Problem::unprintable_text},
      {"right-to-left letters", notes("\u05e9\u05dc\u05d5\u05dd"), Problem::unprintable_text},
      {"right-to-left override", notes("a\u202eb"), Problem::unprintable_text},
      {"loose combining mark", notes("\u0301a"), Problem::unprintable_text},
      {"mark that fits no letter", notes("x\u0301"), Problem::unprintable_text},
      {"sign that the fonts lack", notes("\U0001F600"), Problem::unprintable_text},
      {"byte order mark inside", notes("a\uFEFFb"), Problem::unprintable_text},
      {"escaped control character", notes("a\\u0007"), Problem::unprintable_text},
      {"two lines where one belongs", job_with("Nobody", "No\\nbody"), Problem::unprintable_text},
      {"thread of a million letters", job_with("M8", million), Problem::bad_thread},
      {"thread that steers the terminal", job_with("M8", "M8\\u001b[2J"), Problem::bad_thread},
      {"thread of a huge number", job_with("M8", "M99999999999999999999"), Problem::bad_thread},
      {"drill of a huge number", job_with() + "[bore]\ndrill = \"#99999999999999999999\"\n", Problem::bad_drill},
      {"word of a million letters", job_with() + "[bore]\nfit = \"" + million + "\"\n", Problem::unknown_word},
      {"one station", job_with("{at = \"0 mm\", diameter = \"24 mm\"}, ", ""), Problem::out_of_range},
      {"no stations",
       job_with("[{at = \"0 mm\", diameter = \"24 mm\"}, {at = \"90 mm\", diameter = \"20 mm\"}]", "[]"),
       Problem::out_of_range},
      {"a list of everything", job_with("[{at = \"0 mm\", diameter = \"24 mm\"}", "[1, \"a\", [], {}, 1.5, true"),
       Problem::wrong_type},
      {"a table where a text belongs", job_with("\"Nobody\"", "{a = 1}"), Problem::wrong_type},
      {"a text where a table belongs",
       job_with("[stud]\nthread = \"M8\"\nenters = \"14 mm\"\n", "") + "stud = \"M8\"\n", Problem::unknown_key},
      {"a list where a table belongs", job_with("[wood]", "[[wood]]"), Problem::wrong_type},
      {"format as a text", job_with("format = 1", "format = \"1\""), Problem::wrong_type},
      {"format 0", job_with("format = 1", "format = 0"), Problem::wrong_type},
      {"format of a far future", job_with("format = 1", "format = 9223372036854775807"), Problem::format_newer},
  });
}

TEST_CASE("a shop's values are refused by their problem, and steer nothing") {
  const std::string start =
      "format = 1\nname = \"x\"\nzone = \"Europe/Vienna\"\nrouting = [{name = \"Turn\", who = \"t\", fixed = \"1 "
      "h\"}]\n";
  const auto said = [&](const std::string& more) { return said_of(FileKind::shop, start + more); };
  CHECK(rendered(said("hours.monday = [\"08:00-12:00\"]\n")).empty());
  CHECK(find_problem(said(""), Problem::bad_hours) != nullptr);
  CHECK(find_problem(said(""), Problem::bad_hours)->at.source != nullptr);  // it points into the file
  for (const std::string hours :
       {"\"\"", "\"12:00-08:00\"", "\"08:00-08:00\"", "\"25:00-26:00\"", "\"08:60-09:00\"", "\"08:00\"",
        "\"-1:00-08:00\"", "\"08:00-24:01\"", "\"99999999999:00-08:00\"", "\"08:00-12:00 \"", "\"\\u001b[2J\""}) {
    CAPTURE(hours);
    CHECK(find_problem(said("hours.monday = [" + hours + "]\n"), Problem::bad_hours) != nullptr);
  }
  for (const std::string counts :
       {"", "8", "8 of", "11 of 10", "-1 of 10", "0 of 0", "8 of 99999999999", "8 of 10 x", "8.5 of 10"}) {
    CAPTURE(counts);
    CHECK(find_problem(said("yield.expected = \"" + counts + "\"\n"), Problem::bad_counts) != nullptr);
  }
  for (const std::string zone :
       {"", "..", "../../../etc/passwd", "/etc/localtime", "Europe/Vienna\\u0000", "Europe/", "posixrules/../UTC"}) {
    CAPTURE(zone);
    CHECK(find_problem(said_of(FileKind::shop, "format = 1\nzone = \"" + zone + "\"\n"), Problem::bad_zone) !=
          nullptr);
  }
}

TEST_CASE("a byte order mark and line ends of Windows change nothing but the bytes") {
  std::string text = job_with();
  for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 2) text.replace(at, 1, "\r\n");
  CHECK(rendered(said_of(FileKind::job, "\uFEFF" + text)).empty());
  const Diagnostics said = said_of(FileKind::job, "\uFEFFformat = 2\r\n");
  CHECK(rendered(said).starts_with("file.toml:1:10: error: "));
  CHECK(rendered(said).find("    1 | format = 2\n      |          ^\n") != std::string::npos);
}

TEST_CASE("places are counted in characters, so that the mark stands under the mistake") {
  const Diagnostics said = said_of(FileKind::job, job_with("\"Nobody\"", "\"Größe ½\"\nnotes = {ö = 1}"));
  CHECK(said.has_errors());
  const Diagnostics later = said_of(FileKind::job, job_with("{at = \"90 mm\", diameter = \"20 mm\"}",
                                                            "{at = \"90 mm\", \"ä½\" = 1, diameter = 20}"));
  const Diagnostic* bare = find_problem(later, Problem::bare_number);
  REQUIRE(bare != nullptr);
  const std::string line =
      "stations = [{at = \"0 mm\", diameter = \"24 mm\"}, {at = \"90 mm\", \"ä½\" = 1, diameter = 20}]";
  CHECK(bare->at.column == static_cast<int>(code_point_count(line.substr(0, line.find("20}")))) + 1);
  const Diagnostics latin = said_of(FileKind::job, "format = 1\nclient = \"äöü\xff\"\n");
  CHECK(rendered(latin).starts_with("file.toml:2:14: error: file is not UTF-8 text [not-utf8]\n"));
}

TEST_CASE("a file of random damage never ends in anything but words") {
  std::vector<std::pair<FileKind, std::string>> samples;
  for (const auto& entry : std::filesystem::recursive_directory_iterator{BLANKWRIGHT_SOURCE_DIR "/sample-jobs"}) {
    if (entry.path().extension() != ".toml") continue;
    const auto name = entry.path().filename();
    samples.emplace_back(name == "shop.toml"     ? FileKind::shop
                         : name == "sheets.toml" ? FileKind::sheets
                                                 : FileKind::job,
                         file_text(std::filesystem::relative(entry.path(), BLANKWRIGHT_SOURCE_DIR).string()));
  }
  samples.emplace_back(FileKind::sheets, file_text("templates/standard.toml"));
  REQUIRE(samples.size() >= 6);
  std::sort(samples.begin(), samples.end());
  const std::string_view pieces[] = {"\"",
                                     "'",
                                     "\"\"\"",
                                     "[",
                                     "]",
                                     "{",
                                     "}",
                                     "=",
                                     ".",
                                     ",",
                                     "\n",
                                     "#",
                                     "\\",
                                     "\\u0000",
                                     "0",
                                     "-",
                                     "999999999999",
                                     "nan",
                                     "e9",
                                     "mm",
                                     "¾",
                                     "\xff",
                                     "\u202e",
                                     "[[",
                                     "]]",
                                     " = ",
                                     "1/0 in",
                                     "07:32:00",
                                     "2027-01-29"};
  std::mt19937_64 random{1709};
  const auto up_to = [&](std::size_t n) { return static_cast<std::size_t>(random() % n); };
  for (int i = 0; i < 4000; ++i) {
    auto [kind, text] = samples.at(up_to(samples.size()));
    for (std::size_t n = 1 + up_to(4); n > 0; --n) {
      if (text.empty()) break;
      const std::size_t at = up_to(text.size());
      switch (up_to(5)) {
        case 0:
          text.at(at) = static_cast<char>(random() & 0xFFU);
          break;
        case 1:
          text.erase(at, 1 + up_to(20));
          break;
        case 2:
          text.insert(at, pieces[up_to(std::size(pieces))]);
          break;
        case 3:
          text.insert(at, text.substr(up_to(text.size()), up_to(80)));
          break;
        default:
          text.resize(at + 1);
          break;
      }
    }
    CAPTURE(i);
    Diagnostics said;
    REQUIRE_NOTHROW(said = said_of(kind, text));
    const std::string words = rendered(said);
    CHECK_FALSE(invalid_utf8_at(words).has_value());
    CHECK(words.find('\0') == std::string::npos);
  }
}
