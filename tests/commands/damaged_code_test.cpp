// The codes of the samples' tags as a bench treats them: printed coarse and fine, held askew, out of focus, stained.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cstdlib>
#include <nlohmann/json.hpp>
#include <random>

#include "damage.h"
#include "program.h"

using namespace blankwright;

namespace {

/// A label's place on its sheet, in mm: the makers' figures of the two sheets that the samples use.
Box label_of(bool metric, std::size_t n) {
  const std::size_t columns = metric ? 3 : 2;
  const double column = static_cast<double>(n % columns), row = static_cast<double>(n / columns);
  if (metric) return {(7.21 + 66.04 * column) * mm, (15.15 + 38.1 * row) * mm, 63.5 * mm, 38.1 * mm};
  return {(3.97 + 106.36 * column) * mm, (12.7 + 50.8 * row) * mm, 101.6 * mm, 50.8 * mm};
}

struct Tags {
  std::string pdf;
  std::vector<std::string> ids;  ///< as encoded, of the first page
  bool metric = true;
};

const std::vector<Tags>& all_tags() {
  static const std::vector<Tags> all = [] {
    const SampleJobs jobs;
    std::vector<Tags> out;
    for (const bool metric : {true, false}) {
      const Sample& sample = samples().at(metric ? 0 : 1);
      const auto run = run_program({"compile", "--out", jobs.out(sample.job), jobs / sample.job});
      if (run.exit != Exit::done) throw std::runtime_error{run.errors};
      const std::string folder = jobs.out(sample.job) + "/" + sample.id + "/";
      Tags tags{bytes_of(folder + "tags.pdf"), {}, metric};
      const auto plan = nlohmann::json::parse(bytes_of(folder + "plan.json"));
      for (const auto& blank : plan["blanks"]) {
        std::string id = blank["id"];
        std::erase(id, '-');
        if (tags.ids.size() < 10) tags.ids.push_back(id);
      }
      out.push_back(std::move(tags));
    }
    return out;
  }();
  return all;
}

bool reads(std::vector<std::string> (*reader)(const Picture&), const Picture& picture, const std::string& id) {
  return reader(picture) == std::vector{id};
}

/// Of each damage to each code: 10, or what the variable DRAWS says.
int draws_wanted() {
  const char* said = std::getenv("DRAWS");
  return said == nullptr ? 10 : std::stoi(said);
}

}  // namespace

TEST_CASE("codes are read from prints at 300 and 600 dots an inch by both readers, at 100 by one of them") {
  for (const Tags& tags : all_tags()) {
    for (const int dots_per_inch : {100, 300, 600}) {
      const Picture page = printed(tags.pdf, 1, dots_per_inch);
      for (std::size_t n = 0; n < tags.ids.size(); ++n) {
        CAPTURE(dots_per_inch);
        CAPTURE(n);
        const Picture label = page.part(label_of(tags.metric, n));
        const bool zxing = reads(read_by_zxing, label, tags.ids.at(n));
        const bool zbar = reads(read_by_zbar, label, tags.ids.at(n));
        CHECK((dots_per_inch == 100 ? zxing || zbar : zxing && zbar));
      }
    }
  }
}

TEST_CASE("each damage by itself leaves a code that one of the readers reads") {
  for (const Tags& tags : all_tags()) {
    const Picture page = printed(tags.pdf, 1, 300);
    int draws = 0, blurry = 0, patched = 0, speckled = 0;
    for (std::size_t n = 0; n < tags.ids.size(); ++n) {
      const Picture whole = on_white(page.part(label_of(tags.metric, n)), 10);
      const auto is_read = [&](const Picture& picture) {
        return reads(read_by_zxing, picture, tags.ids.at(n)) || reads(read_by_zbar, picture, tags.ids.at(n));
      };
      const CodeBox box = code_box(whole);
      const double module = (box.right - box.left) / 25.0;  // of version 2
      const bool through_blur = is_read(blurred(whole, module / 2));
      for (int draw = 0; draw < draws_wanted(); ++draw) {
        std::mt19937_64 random{1000 * n + static_cast<std::uint64_t>(draw)};
        Picture patch = whole, dots = whole;
        stain(patch, box, random);
        speckle(dots, 0.03, random);
        ++draws;
        blurry += through_blur;
        patched += is_read(patch);
        speckled += is_read(dots);
      }
    }
    MESSAGE("of ", draws, " blurred, stained, speckled: ", blurry, ", ", patched, ", ", speckled);
    CAPTURE(tags.metric);
    REQUIRE(draws > 0);
    CHECK(blurry >= 0.98 * draws);
    CHECK(patched >= 0.98 * draws);
    CHECK(speckled >= 0.98 * draws);
  }
}

TEST_CASE("codes are read when they are held askew, out of focus and stained") {
  int clean = 0, both_clean = 0, stained = 0, zxing_stained = 0, zbar_stained = 0, either_stained = 0;
  for (const Tags& tags : all_tags()) {
    const Picture page = printed(tags.pdf, 1, 300);
    std::vector<Picture> labels;
    for (std::size_t n = 0; n < tags.ids.size(); ++n) {
      labels.push_back(code_alone(page.part(label_of(tags.metric, n))));
      const Picture damaged = blurred(turned(labels.back(), 7), 1.5);
      ++clean;
      both_clean += reads(read_by_zxing, damaged, tags.ids.at(n)) && reads(read_by_zbar, damaged, tags.ids.at(n));
    }
    for (std::uint64_t seed = 0; seed < 100; ++seed) {  // 200 with both samples
      std::mt19937_64 random{seed};
      const std::size_t n = seed % labels.size();
      Picture label = labels.at(n);
      stain(label, code_box(label), random);
      const Picture damaged = blurred(turned(label, 7), 1.5);
      const bool zxing = reads(read_by_zxing, damaged, tags.ids.at(n));
      const bool zbar = reads(read_by_zbar, damaged, tags.ids.at(n));
      ++stained;
      zxing_stained += zxing;
      zbar_stained += zbar;
      either_stained += zxing || zbar;
    }
  }
  MESSAGE("turned 7 degrees and blurred 1.5 dots, both readers: ", both_clean, " of ", clean);
  MESSAGE("stained over 10 % besides: ZXing ", zxing_stained, ", ZBar ", zbar_stained, ", either ", either_stained,
          " of ", stained);
  CHECK(both_clean == clean);
  CHECK(either_stained >= 0.98 * stained);
}
