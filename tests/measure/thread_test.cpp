#include "measure/read_thread.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <string>

using namespace blankwright;

namespace {

Thread thread_of(std::string_view text) {
  const auto thread = read_thread(text);
  CAPTURE(text);
  if (!thread) FAIL(thread.error().message);
  return *thread;
}

ThreadFault refused(std::string_view text) {
  const auto thread = read_thread(text);
  CAPTURE(text);
  if (thread) FAIL(thread->designation);
  return thread.error();
}

bool near(Length a, Length b) { return abs(a - b) < 1e-9 * mm; }

}  // namespace

TEST_CASE("a unified designation gives size, threads per inch and series") {
  // ASME B1.1 section 6 (designation) and table 1 (series), from memory; sizes #N = 0.060 in + N × 0.013 in.
  struct Row {
    std::string_view text;
    double inches;
    int per_inch;
    std::string_view series, designation;
  };
  const Row rows[] = {
      {"3/8-16 UNC", 0.375, 16, "UNC", "3/8-16 UNC"},
      {"#10-24", 0.190, 24, "UNC", "#10-24 UNC"},
      {"10-32 UNF", 0.190, 32, "UNF", "#10-32 UNF"},
      {"10-24", 0.190, 24, "UNC", "#10-24 UNC"},
      {"# 10 - 24", 0.190, 24, "UNC", "#10-24 UNC"},
      {"5/16-18", 0.3125, 18, "UNC", "5/16-18 UNC"},
      {" 5/16 - 18 unc ", 0.3125, 18, "UNC", "5/16-18 UNC"},
      {"5/16\"-18", 0.3125, 18, "UNC", "5/16-18 UNC"},
      {"5/16 in-18", 0.3125, 18, "UNC", "5/16-18 UNC"},
      {"5⁄16–18", 0.3125, 18, "UNC", "5/16-18 UNC"},
      {"1-1/8-7", 1.125, 7, "UNC", "1-1/8-7 UNC"},
      {"1 1/8-7", 1.125, 7, "UNC", "1-1/8-7 UNC"},
      {"1⅛-7", 1.125, 7, "UNC", "1-1/8-7 UNC"},
      {"⅜-16", 0.375, 16, "UNC", "3/8-16 UNC"},
      {".375-16", 0.375, 16, "UNC", "3/8-16 UNC"},
      {"0.3125-18", 0.3125, 18, "UNC", "5/16-18 UNC"},
      {".312-18", 0.3125, 18, "UNC", "5/16-18 UNC"},
      {".190-24", 0.190, 24, "UNC", "#10-24 UNC"},
      {"3/8-24", 0.375, 24, "UNF", "3/8-24 UNF"},
      {"1/4-32", 0.25, 32, "UNEF", "1/4-32 UNEF"},
      {"3/8-20", 0.375, 20, "UN", "3/8-20 UN"},
      {"3/8-18 UNS", 0.375, 18, "UNS", "3/8-18 UNS"},
      {"1/4-20 UNRC-2A", 0.25, 20, "UNRC", "1/4-20 UNRC-2A"},
      {"1-8", 1.0, 8, "UNC", "1-8 UNC"},
      {"1-64", 0.073, 64, "UNC", "#1-64 UNC"},
      {"4-40", 0.112, 40, "UNC", "#4-40 UNC"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.text);
    const Thread thread = thread_of(row.text);
    CHECK(thread.system == ThreadSystem::unified);
    CHECK(near(thread.major, row.inches * inch));
    CHECK(near(thread.pitch, inch / row.per_inch));
    CHECK(thread.per_inch == row.per_inch);
    CHECK(thread.series == row.series);
    CHECK(thread.designation == row.designation);
    CHECK_FALSE(thread.left_hand);
    CHECK_FALSE(thread.warning.has_value());
  }
}

TEST_CASE("a metric designation gives diameter and pitch, the coarse one where none is given") {
  // ISO 965-1 section 4 (designation), ISO 261 (coarse pitches), from memory.
  struct Row {
    std::string_view text;
    double diameter, pitch;
    std::string_view tolerance, designation;
  };
  const Row rows[] = {
      {"M8", 8, 1.25, "", "M8×1.25"},
      {"m8", 8, 1.25, "", "M8×1.25"},
      {"M8x1.25", 8, 1.25, "", "M8×1.25"},
      {"M8x1", 8, 1, "", "M8×1"},
      {"M 8 X 1", 8, 1, "", "M8×1"},
      {"M8*1", 8, 1, "", "M8×1"},
      {"M10×1", 10, 1, "", "M10×1"},
      {"M8x1.25-6g", 8, 1.25, "6g", "M8×1.25-6g"},
      {"M8×1.25-6g", 8, 1.25, "6g", "M8×1.25-6g"},
      {"M8-6g", 8, 1.25, "6g", "M8×1.25-6g"},
      {"M8-5g6g", 8, 1.25, "5g6g", "M8×1.25-5g6g"},
      {"M10x1,25", 10, 1.25, "", "M10×1.25"},
      {"M6", 6, 1, "", "M6×1"},
      {"M10", 10, 1.5, "", "M10×1.5"},
      {"M12", 12, 1.75, "", "M12×1.75"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.text);
    const Thread thread = thread_of(row.text);
    CHECK(thread.system == ThreadSystem::metric);
    CHECK(near(thread.major, row.diameter * mm));
    CHECK(near(thread.pitch, row.pitch * mm));
    CHECK(thread.per_inch == 0);
    CHECK(thread.tolerance == row.tolerance);
    CHECK(thread.designation == row.designation);
    CHECK_FALSE(thread.warning.has_value());
  }
  CHECK(thread_of("M8").series == "coarse");
  CHECK(thread_of("M8x1").series == "fine");
}

TEST_CASE("class and hand may follow, and a left-hand stud keeps its mark") {
  const Thread full = thread_of("0.375-16 UNC-2A-LH");
  CHECK(full.left_hand);
  CHECK(full.tolerance == "2A");
  CHECK(full.designation == "3/8-16 UNC-2A-LH");
  CHECK(thread_of("3/8-16-2a lh").designation == "3/8-16 UNC-2A-LH");
  CHECK(thread_of("1/4-20UNC-2A").designation == "1/4-20 UNC-2A");
  CHECK(thread_of("M8x1-LH").designation == "M8×1-LH");
  CHECK(thread_of("M8 LH").designation == "M8×1.25-LH");
  CHECK(thread_of("M8x1-6g-LH").designation == "M8×1-6g-LH");
}

TEST_CASE("a hyphen before a metric pitch is taken with a warning") {
  const Thread thread = thread_of("M8-1.25");
  CHECK(thread.designation == "M8×1.25");
  CHECK(thread.warning.has_value());
  CHECK(thread_of("M8-1").warning.has_value());
}

TEST_CASE("a pitch that no table has is taken with a warning") {
  CHECK(thread_of("M8x1.1").warning.has_value());
  CHECK(thread_of("M8x1.1").series == "special");
  CHECK(thread_of("0.300-32 UNS").warning.has_value());
  CHECK(thread_of("3/8-15").warning.has_value());  // a slip for 3/8-16, more likely than a special thread
  CHECK_FALSE(thread_of("3/8-15 UNS").warning.has_value());
  CHECK_FALSE(thread_of("3/8-16").warning.has_value());
}

TEST_CASE("a screw's length is not taken for a pitch") {
  struct Row {
    std::string_view text, first_candidate;
  };
  const Row rows[] = {
      {"M8x30", "M8×1.25"},
      {"M8 x 30", "M8×1.25"},
      {"M8-30", "M8×1.25"},
      {"M8x2", "M8×1.25"},
      {"M8x1.25x30", "M8×1.25"},
      {"M8x1x30 mm", "M8×1"},
      {"M8-1.25x30", "M8×1.25"},
      {"M8x1.25-6gx30", "M8×1.25"},
      {"1/4-20 x 1", "1/4-20"},
      {"1/4-20x1-1/2", "1/4-20"},
      {"#10-24 x 1/2", "#10-24"},
      {"5/16-18 UNC x 2 in", "5/16-18"},
      {"5/16-18 UNC-2A x 2", "5/16-18"},
  };
  for (const Row& row : rows) {
    CAPTURE(row.text);
    const ThreadFault fault = refused(row.text);
    CHECK(fault.kind == ThreadFault::Kind::screw_length);
    REQUIRE_FALSE(fault.candidates.empty());
    CHECK(fault.candidates.front() == row.first_candidate);
  }
}

TEST_CASE("what may be several threads is answered with which") {
  using Names = std::vector<std::string>;
  CHECK(refused("10").candidates == Names{"M10", "#10-24", "#10-32"});
  CHECK(refused("1/4").candidates == Names{"1/4-20", "1/4-28"});
  CHECK(refused("1-1/8").candidates == Names{"1-1/8-7", "1-1/8-12"});
  CHECK(refused("#10").candidates == Names{"#10-24", "#10-32"});
  CHECK(refused("1/4 UNC").candidates == Names{"1/4-20"});
  CHECK(refused("8 mm").candidates == Names{"M8"});
  CHECK(refused("8x1.25").candidates == Names{"M8×1.25"});
  CHECK(refused("8-1.25").candidates == Names{"M8×1.25"});
  CHECK(refused("1/4 20").candidates == Names{"1/4-20"});
  CHECK(refused("1/4").hint() == "write \"1/4-20\" or \"1/4-28\"");
  CHECK(refused("M13").kind == ThreadFault::Kind::which_thread);
  CHECK(thread_of("M13x1.5").warning.has_value());
}

TEST_CASE("a series that does not belong to the threads per inch is refused with both readings") {
  const ThreadFault fault = refused("3/8-24 UNC");
  CHECK(fault.kind == ThreadFault::Kind::series_differs);
  CHECK(fault.candidates == std::vector<std::string>{"3/8-24 UNF", "3/8-16"});
}

TEST_CASE("threads of other standards are refused by name") {
  for (const std::string_view text :
       {"1/4-18 NPT", "G1/4", "G 1/4", "TR 10x2", "1/2-12 BSW", "MJ8x1", "1/4-20 UNJC"}) {
    CAPTURE(text);
    CHECK(refused(text).kind == ThreadFault::Kind::other_standard);
  }
}

TEST_CASE("nonsense is refused with a reason") {
  using Kind = ThreadFault::Kind;
  CHECK(refused("").kind == Kind::not_a_thread);
  CHECK(refused("wood screw").kind == Kind::not_a_thread);
  CHECK(refused("#7-20").kind == Kind::not_a_thread);
  CHECK(refused("1/3-16").kind == Kind::not_a_thread);
  CHECK(refused("11/8-7").kind == Kind::not_a_thread);
  CHECK(refused("1/0-7").kind == Kind::not_a_thread);
  CHECK(refused("3/8-16 shiny").kind == Kind::not_a_thread);
  CHECK(refused("M8x").kind == Kind::not_a_thread);
  CHECK(refused("M8 shiny").kind == Kind::not_a_thread);
  CHECK(refused("1/4-4").kind == Kind::unlikely_pitch);
  CHECK(refused("1/4-0").kind == Kind::unlikely_pitch);
  CHECK(refused("1/4-200").kind == Kind::unlikely_pitch);
  CHECK(refused("M8x0").kind == Kind::unlikely_pitch);
  CHECK(refused("M0").kind == Kind::out_of_range);
  CHECK(refused("M100").kind == Kind::out_of_range);
  CHECK(refused("2-1/2-4").kind == Kind::out_of_range);
  CHECK(refused(std::string(5000, '1')).kind == Kind::not_a_thread);
  CHECK(refused("5/16-18 \xff\xfe").kind == Kind::not_a_thread);
}

TEST_CASE("every hint of a refused thread can be pasted, and every designation reads back as itself") {
  // Property over random text made of the letters that designations use; seed fixed.
  const std::string_view pieces[] = {"M",   "m",  "8",  "10", "1",    "4",  "20", "24",   "/",   "-",
                                     " ",   "x",  "×",  "#",  ".",    ",",  "\"", "⅜",    "UNC", "UN",
                                     "-2A", "6g", "LH", "30", "1.25", "in", "mm", "\xc3", "0"};
  const std::string_view heads[] = {"", "M", "M8", "M10x1", "#10", "10-24", "5/16-18", "1-1/8", "1/4-20 UNC"};
  std::mt19937 random{20240611};
  int taken = 0;
  for (int round = 0; round < 60000; ++round) {
    std::string text{heads[random() % std::size(heads)]};
    for (auto i = random() % 6; i > 0; --i) text += pieces[random() % std::size(pieces)];
    CAPTURE(text);
    const auto thread = read_thread(text);
    if (thread) {
      ++taken;
      CHECK(thread->pitch > Length{});
      CHECK(thread->major > 2 * thread->pitch);
      const auto again = read_thread(thread->designation);
      REQUIRE(again.has_value());
      CHECK(again->designation == thread->designation);
      CHECK(near(again->major, thread->major));
      CHECK(near(again->pitch, thread->pitch));
      CHECK(again->left_hand == thread->left_hand);
    } else {
      CHECK_FALSE(thread.error().message.empty());
      for (const std::string& candidate : thread.error().candidates) {
        CAPTURE(candidate);
        CHECK(read_thread(candidate).has_value());
      }
    }
  }
  CHECK(taken > 500);
}

TEST_CASE("no bytes whatever upset the reading of a thread") {
  std::mt19937 random{7};
  for (int round = 0; round < 20000; ++round) {
    std::string text;
    for (auto i = random() % 24; i > 0; --i) text += static_cast<char>(random() & 0xff);
    const auto thread = read_thread(text);
    if (!thread) CHECK_FALSE(thread.error().message.empty());
  }
}
