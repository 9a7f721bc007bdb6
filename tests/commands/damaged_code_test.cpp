// The codes of the samples' tags as a bench treats them: printed coarse and fine, held askew, out of focus, stained.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>
#include <random>

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

/// Where the dark of a label's left part lies: its code, since words stand to the right of it.
struct CodeBox {
  int left = 0, top = 0, right = 0, bottom = 0;
};

CodeBox code_box(const Picture& label) {
  // The first dark column from the left begins the code, the first white stretch of two quiet modules ends it.
  const auto dark_column = [&](int x) {
    for (int y = 0; y < label.height * 3 / 5; ++y) {
      if (label.at(x, y) < 128) return true;
    }
    return false;
  };
  CodeBox box;
  while (!dark_column(box.left)) ++box.left;
  int white = 0;
  for (int x = box.left; x < label.width && white < label.dots_per_inch / 20; ++x) {
    white = dark_column(x) ? 0 : white + 1;
    if (white == 0) box.right = x + 1;
  }
  box.top = label.height;
  for (int y = 0; y < label.height; ++y) {
    for (int x = box.left; x < box.right; ++x) {
      if (label.at(x, y) < 128 && y - box.top < box.right - box.left) {
        box.top = std::min(box.top, y);
        if (y < box.top + (box.right - box.left)) box.bottom = y + 1;
      }
    }
  }
  return box;
}

/// A code with its quiet zone of four modules in the middle of white, so that it can be turned without being cut.
Picture code_alone(const Picture& label) {
  const CodeBox code = code_box(label);
  const int side = code.right - code.left, quiet = side * 4 / 25;
  Picture out;
  out.dots_per_inch = label.dots_per_inch;
  out.width = out.height = side * 8 / 5;
  out.grey.assign(static_cast<std::size_t>(out.width) * static_cast<std::size_t>(out.height), 255);
  const int shift = (out.width - side) / 2;
  for (int y = std::max(0, code.top - quiet); y < std::min(label.height, code.top + side + quiet); ++y) {
    for (int x = std::max(0, code.left - quiet); x < std::min(label.width, code.right + quiet); ++x) {
      const int to_x = x - code.left + shift, to_y = y - code.top + shift;
      if (to_x < 0 || to_y < 0 || to_x >= out.width || to_y >= out.height) continue;
      out.grey.at(static_cast<std::size_t>(to_y) * static_cast<std::size_t>(out.width) +
                  static_cast<std::size_t>(to_x)) = label.at(x, y);
    }
  }
  return out;
}

Picture turned(const Picture& from, double degrees) {
  Picture to = from;
  const double angle = degrees * std::numbers::pi / 180, c = std::cos(angle), s = std::sin(angle);
  const double mx = from.width / 2.0, my = from.height / 2.0;
  for (int y = 0; y < to.height; ++y) {
    for (int x = 0; x < to.width; ++x) {
      const double u = c * (x - mx) + s * (y - my) + mx, v = -s * (x - mx) + c * (y - my) + my;
      const int i = static_cast<int>(std::floor(u)), j = static_cast<int>(std::floor(v));
      double value = 255;
      if (i >= 0 && j >= 0 && i + 1 < from.width && j + 1 < from.height) {
        const double p = u - i, q = v - j;
        value = (1 - q) * ((1 - p) * from.at(i, j) + p * from.at(i + 1, j)) +
                q * ((1 - p) * from.at(i, j + 1) + p * from.at(i + 1, j + 1));
      }
      to.grey.at(static_cast<std::size_t>(y) * static_cast<std::size_t>(to.width) + static_cast<std::size_t>(x)) =
          static_cast<std::uint8_t>(std::lround(value));
    }
  }
  return to;
}

/// Gaussian, of that standard deviation in dots.
Picture blurred(const Picture& from, double sigma) {
  const int reach = static_cast<int>(std::ceil(3 * sigma));
  std::vector<double> weights;
  double sum = 0;
  for (int k = -reach; k <= reach; ++k)
    weights.push_back(std::exp(-k * k / (2 * sigma * sigma))), sum += weights.back();
  const auto pass = [&](const Picture& in, bool across) {
    Picture out = in;
    for (int y = 0; y < in.height; ++y) {
      for (int x = 0; x < in.width; ++x) {
        double value = 0;
        for (int k = -reach; k <= reach; ++k) {
          const int i = across ? std::clamp(x + k, 0, in.width - 1) : x;
          const int j = across ? y : std::clamp(y + k, 0, in.height - 1);
          value += weights.at(static_cast<std::size_t>(k + reach)) * in.at(i, j);
        }
        out.grey.at(static_cast<std::size_t>(y) * static_cast<std::size_t>(in.width) + static_cast<std::size_t>(x)) =
            static_cast<std::uint8_t>(std::lround(value / sum));
      }
    }
    return out;
  };
  return pass(pass(from, true), false);
}

/// A square stain of a tenth of the symbol's area, off the three finder patterns with their white (ISO/IEC 18004:
/// eight modules of 25 in three corners), in black, white, grey or noise.
void stain(Picture& label, const CodeBox& code, std::mt19937_64& random) {
  const int side = code.right - code.left, stain_side = static_cast<int>(side * std::sqrt(0.1));
  const int finder = side * 8 / 25 + 1;
  const auto up_to = [&](int n) { return static_cast<int>(random() % static_cast<std::uint64_t>(n)); };
  int x = 0, y = 0;
  bool on_finder = true;
  while (on_finder) {
    x = up_to(side - stain_side);
    y = up_to(side - stain_side);
    const bool left = x<finder, right = x + stain_side> side - finder;
    const bool top = y<finder, bottom = y + stain_side> side - finder;
    on_finder = (top && (left || right)) || (bottom && left);
  }
  const int kind = up_to(4);
  for (int j = 0; j < stain_side; ++j) {
    for (int i = 0; i < stain_side; ++i) {
      const std::size_t at = static_cast<std::size_t>(code.top + y + j) * static_cast<std::size_t>(label.width) +
                             static_cast<std::size_t>(code.left + x + i);
      label.grey.at(at) = static_cast<std::uint8_t>(kind == 0 ? 0 : kind == 1 ? 255 : kind == 2 ? 128 : up_to(256));
    }
  }
}

bool reads(std::vector<std::string> (*reader)(const Picture&), const Picture& picture, const std::string& id) {
  return reader(picture) == std::vector{id};
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
