#include "sheet/frame/block_layout.h"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>

#include "template_for_test.h"

using namespace blankwright;

namespace {

/// The tag's blocks of a template text, placed in a room of 100 by 40 mm.
class Placed {
 public:
  explicit Placed(const std::string& blocks, Length label_height = 46 * mm) {
    Diagnostics out;
    const auto source = std::make_shared<const SourceText>(SourceText{"own.toml", "format = 1\n" + blocks});
    auto read = read_template(source, template_for_test("A4"), out);
    if (!read) throw std::runtime_error{rendered(out)};
    sheets_ = std::move(*read);
    placed_ = placed_blocks(sheets_.tag, {.free = {3 * mm, 3 * mm, 100 * mm, 40 * mm},
                                          .white = 3 * mm,
                                          .label_height = label_height,
                                          .codes = code_forms(sheets_),
                                          .pictures = sheets_.pictures});
  }
  std::size_t count() const { return placed_.size(); }
  /// "x y width height" in mm.
  std::string box(std::size_t i) const {
    const Box& b = placed_.at(i).box;
    return fmt::format("{:.2f} {:.2f} {:.2f} {:.2f}", b.x / mm, b.y / mm, b.width / mm, b.height / mm);
  }
  const Box& at(std::size_t i) const { return placed_.at(i).box; }

 private:
  Template sheets_;
  std::vector<PlacedBlock> placed_;
};

std::string block(const std::string& keys) { return "[[tag]]\n" + keys + "\n"; }

}  // namespace

TEST_CASE("strips are taken from the edges of what is left, those without a size share it") {
  const Placed p{block("kind = \"id\"\nheight = \"10 mm\"") +
                 block("kind = \"order\"\nside = \"bottom\"\nheight_share = \"20 %\"") +
                 block("kind = \"item\"\nside = \"right\"\nwidth = \"25 mm\"") + block("kind = \"wood\"") +
                 block("kind = \"size\"")};
  REQUIRE(p.count() == 5);
  CHECK(p.box(0) == "3.00 3.00 100.00 10.00");
  CHECK(p.box(1) == "3.00 37.00 100.00 6.00");   // a fifth of the 30 that are left, at the bottom
  CHECK(p.box(2) == "78.00 13.00 25.00 24.00");  // between the two
  CHECK(p.box(3) == "3.00 13.00 75.00 12.00");   // the last two share the 24 that are left
  CHECK(p.box(4) == "3.00 25.00 75.00 12.00");
}

TEST_CASE("blocks beside each other share their strip, and shrink alike where they ask for too much") {
  const Placed p{block("kind = \"id\"\nheight = \"10 mm\"\nwidth_share = \"60 %\"") +
                 block("kind = \"order\"\nbeside = true") + block("kind = \"count\"\nbeside = true") +
                 block("kind = \"item\"\nwidth = \"90 mm\"") +
                 block("kind = \"wood\"\nbeside = true\nwidth = \"60 mm\"")};
  CHECK(p.box(0) == "3.00 3.00 60.00 10.00");
  CHECK(p.box(1) == "63.00 3.00 20.00 10.00");
  CHECK(p.box(2) == "83.00 3.00 20.00 10.00");
  CHECK(p.box(3) == "3.00 13.00 60.00 30.00");  // 90 and 60 into 100
  CHECK(p.box(4) == "63.00 13.00 40.00 30.00");
}

TEST_CASE("a block for higher labels is left out on lower ones") {
  const std::string blocks =
      block("kind = \"mass_fields\"\nfrom_height = \"31 mm\"\nheight = \"8 mm\"") + block("kind = \"id\"");
  CHECK(Placed{blocks, 31 * mm}.count() == 2);
  const Placed low{blocks, 30 * mm};
  REQUIRE(low.count() == 1);
  CHECK(low.box(0) == "3.00 3.00 100.00 40.00");
}

TEST_CASE("a code's quiet zone may use the white round the label's words, and what follows keeps clear of it") {
  // ISO/IEC 18004: four modules of white on every side; version 2 has 25 modules.
  const Placed p{block("kind = \"code\"\nside = \"left\"\nwidth = \"30 mm\"") + block("kind = \"id\"")};
  const auto code = placed_code(std::vector<CodeForm>{{QrLevel::high, 2}}, p.at(0));
  REQUIRE(code.has_value());
  const Box& white = code->place.with_border;
  CHECK(p.at(0).x < 3 * mm);  // it reaches into the margin, and not off the label
  CHECK(p.at(0).x >= 0 * mm);
  CHECK(p.at(0).y >= 0 * mm);
  CHECK(std::abs((white.width - 33 * code->place.module) / mm) < 1e-9);
  CHECK(p.at(1).x >= white.right() - 1e-9 * mm);
  CHECK(p.at(1).right() == 103 * mm);
}

TEST_CASE("codes of an address take the smallest version at the highest level that finds room") {
  Template t = template_for_test("A4");
  CHECK(code_text(t, BlankId::nth(0)) == BlankId::nth(0).encoded());
  t.code_base = Given<std::string>{"https://workshop.example/r#", Origin::shop, {}, {}};
  CHECK(code_text(t, BlankId::nth(0)) == "https://workshop.example/r#" + BlankId::nth(0).shown());
  const auto forms = code_forms(t);
  REQUIRE(forms.size() == 3);
  // ISO/IEC 18004, table 7: 35 bytes need version 4 at H (34 bytes)... 5 (44), version 4 at Q (46), 3 at M (42).
  CHECK(code_text(t, BlankId::nth(0)).size() == 35);
  CHECK(forms.at(0).version == 5);
  CHECK(forms.at(1).version == 4);
  CHECK(forms.at(2).version == 3);
}
