#include "measure/utf8.h"

#include <doctest/doctest.h>

#include <string>
#include <string_view>

using namespace blankwright;
using namespace std::string_literals;

namespace {

TextFault fault_of(std::string_view given, Lines lines = Lines::one) {
  const auto result = normalised(given, lines);
  REQUIRE_FALSE(result.has_value());
  return result.error();
}

}  // namespace

TEST_CASE("letters typed with separate accents come out as the composed letters") {
  // Canonical compositions: Unicode Standard Annex 15, figures 3 to 5, and UnicodeData.txt, field 5.
  struct Row {
    std::string_view given, composed;
  };
  const Row published[] = {
      {"A\u030A", "\u00C5"},             // A, ring
      {"o\u0302", "\u00F4"},             // o, circumflex
      {"\u212B", "\u00C5"},              // angstrom sign
      {"\u2126", "\u03A9"},              // ohm sign
      {"s\u0326", "\u0219"},             // Romanian s with comma below
      {"u\u030B", "\u0171"},             // Hungarian u with double acute
      {"\u03B9\u0308\u0301", "\u0390"},  // iota, dialytika, tonos
      {"\u1F71", "\u03AC"},              // alpha with oxia is alpha with tonos
      {"\u0387", "\u00B7"},              // Greek raised dot
      {"\u00BD\u2033", "\u00BD\u2033"},  // compatibility forms stay: UAX 15, section 1.2
      {"\u00B5m", "\u00B5m"},            // micro sign stays the micro sign
      {"Wei\u00DFbuche 8 \u00D7 40", "Wei\u00DFbuche 8 \u00D7 40"},
      {"", ""},
  };
  for (const Row& row : published) {
    CAPTURE(row.given);
    const auto result = normalised(row.given);
    REQUIRE(result.has_value());
    CHECK(*result == row.composed);
  }
}

TEST_CASE("bytes that are not well-formed UTF-8 are refused where they begin") {
  // Unicode Standard 15.0, section 3.9: table 3-7, and the ill-formed sequences of tables 3-8 to 3-11.
  const std::string_view ill_formed[] = {
      "\xC0\xAF",          // longer than needed
      "\xE0\x9F\x80",      // longer than needed
      "\xF0\x80\x80\x80",  // longer than needed
      "\xED\xA0\x80",      // a surrogate
      "\xF4\x91\x92\x93",  // beyond U+10FFFF
      "\xFF",              // never a lead byte
      "\x80",              // continuation without a lead
      "\xE2\x88",          // cut short
      "\xC3(",             // lead without its continuation
  };
  for (const std::string_view bytes : ill_formed) {
    const auto first = static_cast<unsigned char>(bytes.front());
    CAPTURE(static_cast<int>(first));
    const TextFault fault = fault_of("Nu\u00DF "s + std::string{bytes});
    CHECK(fault.kind == TextFaultKind::not_utf8);
    CHECK(fault.code_point == first);
    CHECK(fault.offset == 5);
  }
}

TEST_CASE("what cannot be printed is refused with its kind and its place") {
  // Categories and directions: UnicodeData.txt, fields 2 and 4.
  struct Row {
    std::string_view given;
    TextFaultKind kind;
    char32_t code_point;
    std::size_t offset;
  };
  const Row rows[] = {
      {"oak\tlog", TextFaultKind::control_character, 0x09, 3},
      {"oak\nlog", TextFaultKind::control_character, 0x0A, 3},
      {"oak\x1B[2J", TextFaultKind::control_character, 0x1B, 3},
      {"oak\x7F", TextFaultKind::control_character, 0x7F, 3},
      {"oak\u0085", TextFaultKind::control_character, 0x85, 3},
      {"oak \u0301", TextFaultKind::loose_combining_mark, 0x301, 4},
      {"\u0301oak", TextFaultKind::loose_combining_mark, 0x301, 0},
      {"\u00E9 x\u0302", TextFaultKind::loose_combining_mark, 0x302, 4},
      {"e\u0301\u0301", TextFaultKind::loose_combining_mark, 0x301, 3},
      {"oak\u20DD", TextFaultKind::loose_combining_mark, 0x20DD, 3},        // enclosing circle
      {"oak\uFE0F", TextFaultKind::loose_combining_mark, 0xFE0F, 3},        // variation selector
      {"oak \u05D0", TextFaultKind::right_to_left, 0x5D0, 4},               // Hebrew
      {"oak \u0627", TextFaultKind::right_to_left, 0x627, 4},               // Arabic
      {"oak \u0661", TextFaultKind::right_to_left, 0x661, 4},               // Arabic digit
      {"oak\u202E", TextFaultKind::right_to_left, 0x202E, 3},               // override
      {"oak\u200F", TextFaultKind::right_to_left, 0x200F, 3},               // mark
      {"\u00D8 \u2300", TextFaultKind::unsupported_character, 0x2300, 3},   // diameter sign: the fonts lack it
      {"\u0416", TextFaultKind::unsupported_character, 0x416, 0},           // Cyrillic
      {"oak\u00AD", TextFaultKind::unsupported_character, 0xAD, 3},         // soft hyphen
      {"oak\u200B", TextFaultKind::unsupported_character, 0x200B, 3},       // zero-width space
      {"oak\u2028", TextFaultKind::unsupported_character, 0x2028, 3},       // line separator
      {"a\u1EBF", TextFaultKind::unsupported_character, 0x1EBF, 1},         // Vietnamese
      {"ae\u0302\u0301", TextFaultKind::unsupported_character, 0x1EBF, 1},  // the same, typed with marks
      {"oak\U0001F332", TextFaultKind::unsupported_character, 0x1F332, 3},
      {"\uFEFFoak", TextFaultKind::unsupported_character, 0xFEFF, 0},  // byte order mark
  };
  for (const Row& row : rows) {
    CAPTURE(row.given);
    const TextFault fault = fault_of(row.given);
    CHECK(fault.kind == row.kind);
    CHECK(fault.code_point == row.code_point);
    CHECK(fault.offset == row.offset);
  }
  CHECK(fault_of("oak\0log"s).kind == TextFaultKind::control_character);
}

TEST_CASE("notes may have several lines, a name may not") {
  CHECK(normalised("oil twice\nthen wax", Lines::several) == "oil twice\nthen wax");
  CHECK(fault_of("oil twice\nthen wax").offset == 9);
  CHECK(fault_of("oil\ttwice", Lines::several).kind == TextFaultKind::control_character);
  const TextFault mark = fault_of("oil\n\u0301", Lines::several);
  CHECK(mark.kind == TextFaultKind::loose_combining_mark);
  CHECK(mark.offset == 4);
}

TEST_CASE("a letter under a mountain of marks is refused without delay") {
  std::string zalgo = "e";
  for (int i = 0; i < 200'000; ++i) zalgo += i % 2 == 0 ? "\u0301" : "\u0316";
  CHECK(fault_of(zalgo).kind == TextFaultKind::loose_combining_mark);
}

TEST_CASE("normalising what is normalised changes nothing") {
  const std::string once = normalised("Mezo\u030B \u2126 s\u0326").value();
  CHECK(normalised(once) == once);
}

TEST_CASE("a message names the character, and shows it only where that is harmless") {
  CHECK(in_words(fault_of("\u0416")) == "character U+0416 '\u0416' is not among those that can be printed");
  CHECK(in_words(fault_of("a\u200B")) == "character U+200B is not among those that can be printed");
  CHECK(in_words(fault_of("a\u202E")).find("U+202E ") != std::string::npos);
  CHECK(in_words(fault_of("a\u202E")).find("\u202E") == std::string::npos);
  CHECK(in_words(fault_of("a\x1B")) == "control character U+001B cannot be printed");
  CHECK(in_words(fault_of("a\xFF")) == "byte 0xFF is not UTF-8");
  CHECK(in_words(fault_of("x\u0302")) == "combining mark U+0302 fits no character before it");
}

TEST_CASE("UTF-8 is decoded and encoded as the Unicode Standard's examples show") {
  // Unicode Standard 15.0, table 3-4: <004D, 0430, 4E8C, 10302> is <4D D0 B0 E4 BA 8C F0 90 8C 82>.
  const std::string bytes = "\x4D\xD0\xB0\xE4\xBA\x8C\xF0\x90\x8C\x82";
  CHECK(code_points(bytes) == U"\u004D\u0430\u4E8C\U00010302");
  CHECK(code_point_count(bytes) == 4);
  std::string again;
  for (const char32_t c : code_points(bytes)) again += to_utf8(c);
  CHECK(again == bytes);
  CHECK(code_points("a\xFF\xFE") == U"a\uFFFD\uFFFD");
  CHECK(code_point_count("") == 0);
  CHECK(to_utf8(0xD800) == "\uFFFD");
  CHECK(to_utf8(0x110000) == "\uFFFD");
}

TEST_CASE("only the letters A to Z are folded to lower case") {
  CHECK(ascii_lower("Black WALNUT 5/16-18 @[`{") == "black walnut 5/16-18 @[`{");
  CHECK(ascii_lower("\u00C4\u0130\u03A9") == "\u00C4\u0130\u03A9");
}
