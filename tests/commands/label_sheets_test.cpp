// Whatever an order is called, each label sheet that comes with the program takes its tags.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <regex>

#include "entries/blank_id.h"
#include "found_words.h"
#include "program.h"
#include "read/template.h"
#include "register/register.h"

using namespace blankwright;

namespace {

std::vector<LabelSheet> shipped_sheets() {
  Diagnostics out;
  const std::string file = BLANKWRIGHT_SOURCE_DIR "/templates/standard.toml";
  const auto text = std::make_shared<const SourceText>(SourceText{"standard.toml", bytes_of(file)});
  return read_template(text, Template{}, out).value().label_sheets;
}

/// The metric sample's order under the longest names that a job may have, for tags on that sheet.
struct LongNames {
  SampleJobs jobs;
  std::string pdf;
  std::vector<BlankId> ids;

  explicit LongNames(const LabelSheet& sheet) {
    const std::string order(40, 'W');  // the manual, keys of a job: at most 40, and 80 of an item
    const std::string shop = jobs / "metric/shop.toml", job = jobs / "metric/burnisher.toml";
    put_bytes(jobs / "metric/own.toml",
              fmt::format("format = 1\npaper = \"{}\"\ntag_sheet = \"{}\"\n",
                          sheet.paper.value == PaperSize::a4 ? "A4" : "Letter", sheet.name.value));
    put_bytes(shop,
              std::regex_replace(bytes_of(shop), std::regex{"\ntemplate = \"a4\""}, "\ntemplate = \"own.toml\""));
    std::string text = std::regex_replace(bytes_of(job), std::regex{"\nid = \"[^\"]*\""}, "\nid = \"" + order + "\"");
    text = std::regex_replace(text, std::regex{"\nitem = \"[^\"]*\""}, "\nitem = \"" + std::string(80, 'M') + "\"");
    put_bytes(job, text);
    const ProgramRun run = run_program({"compile", "--quiet", "--only", "tags", "--out", jobs.out(), job});
    REQUIRE_MESSAGE(run.exit == Exit::done, run.errors);
    pdf = jobs.out() + "/" + order + "/tags.pdf";
    ids = Register::open_to_read(jobs / "metric/shop.register")->issued_to(order);
  }
};

/// The label at a place of a sheet, from the left, then down.
Box place_on(const LabelSheet& sheet, std::size_t place) {
  const auto columns = static_cast<std::size_t>(sheet.columns.value);
  const double column = static_cast<double>(place % columns), row = static_cast<double>(place / columns);
  return {sheet.left.value + column * sheet.pitch_x.value, sheet.top.value + row * sheet.pitch_y.value,
          sheet.width.value, sheet.height.value};
}

}  // namespace

TEST_CASE("every label sheet takes the tags of the longest names: the ID whole, its code read, words clear") {
  for (const LabelSheet& sheet : shipped_sheets()) {
    CAPTURE(sheet.name.value);
    const LongNames order{sheet};
    REQUIRE(order.ids.size() == 10);  // of 6 handles and a witness, by the sample's yield
    const std::string pdf = bytes_of(order.pdf);
    const auto words = found_words(order.pdf);
    const Picture page = printed(pdf, 1, 300);
    for (std::size_t i = 0; i < order.ids.size(); ++i) {
      CAPTURE(i);
      const Box box = place_on(sheet, i);
      const Picture label = page.part(box);
      const std::vector<std::string> wanted{order.ids.at(i).encoded()};
      CHECK(read_by_zxing(label) == wanted);
      CHECK(read_by_zbar(label) == wanted);
      const auto stands = [&](const std::string& wanted_words) {
        return std::ranges::any_of(words, [&](const FoundWord& w) {
          const double x = w.left / 72 * 25.4, y = w.top / 72 * 25.4;
          return w.page == 1 && w.text == wanted_words && x >= box.x / mm && x <= box.right() / mm &&
                 y >= box.y / mm - 1 && y <= box.bottom() / mm;
        });
      };
      CHECK(stands(order.ids.at(i).shown()));
      CHECK(stands("oven"));  // what it stays out of
    }
    const double points = 72 / 25.4;
    for (const std::string& fault :
         misplaced(words, width_of(sheet.paper.value) / mm * points, height_of(sheet.paper.value) / mm * points)) {
      FAIL_CHECK(fault);
    }
  }
}
