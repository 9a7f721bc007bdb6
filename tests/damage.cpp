#include "damage.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

namespace blankwright {
namespace {

void set(Picture& picture, int x, int y, double value) {
  picture.grey.at(static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width) +
                  static_cast<std::size_t>(x)) = static_cast<std::uint8_t>(std::lround(value));
}

/// The grey between four dots; white outside of the picture.
double between(const Picture& from, double u, double v) {
  const int i = static_cast<int>(std::floor(u)), j = static_cast<int>(std::floor(v));
  if (i < 0 || j < 0 || i + 1 >= from.width || j + 1 >= from.height) return 255;
  const double p = u - i, q = v - j;
  return (1 - q) * ((1 - p) * from.at(i, j) + p * from.at(i + 1, j)) +
         q * ((1 - p) * from.at(i, j + 1) + p * from.at(i + 1, j + 1));
}

}  // namespace

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
      set(out, to_x, to_y, label.at(x, y));
    }
  }
  return out;
}

Picture on_white(const Picture& from, double border_mm) {
  const int border = static_cast<int>(border_mm / 25.4 * from.dots_per_inch);
  Picture out = from;
  out.width += 2 * border;
  out.height += 2 * border;
  out.grey.assign(static_cast<std::size_t>(out.width) * static_cast<std::size_t>(out.height), 255);
  for (int y = 0; y < from.height; ++y) {
    for (int x = 0; x < from.width; ++x) set(out, x + border, y + border, from.at(x, y));
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
      set(to, x, y, between(from, u, v));
    }
  }
  return to;
}

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
        set(out, x, y, value / sum);
      }
    }
    return out;
  };
  return pass(pass(from, true), false);
}

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
      set(label, code.left + x + i, code.top + y + j, kind == 0 ? 0 : kind == 1 ? 255 : kind == 2 ? 128 : up_to(256));
    }
  }
}

Picture tilted(const Picture& from, double degrees, double distance_mm) {
  Picture to = from;
  const double angle = degrees * std::numbers::pi / 180, c = std::cos(angle), s = std::sin(angle);
  const double far = distance_mm / 25.4 * from.dots_per_inch;
  const double mx = from.width / 2.0, my = from.height / 2.0;
  for (int y = 0; y < to.height; ++y) {
    for (int x = 0; x < to.width; ++x) {
      // The ray through a dot of the picture plane meets the sheet, which is turned about its upright middle.
      const double along = (x - mx) * far / (far * c - (x - mx) * s);
      const double nearer = far / (far + along * s);
      set(to, x, y, between(from, along + mx, (y - my) / nearer + my));
    }
  }
  return to;
}

void speckle(Picture& picture, double share, std::mt19937_64& random) {
  for (std::uint8_t& dot : picture.grey) {
    const auto drawn = random();
    if (static_cast<double>(drawn >> 11) * 0x1p-53 < share) dot = (drawn & 1) != 0 ? 255 : 0;
  }
}

}  // namespace blankwright
