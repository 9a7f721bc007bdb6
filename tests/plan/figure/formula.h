#pragma once

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>
#include <string_view>

#include <doctest/doctest.h>

namespace blankwright {

/// Between what a figure lies that was printed with so many digits.
struct Band {
  double low = 0, high = 0;
};

inline Band band_of(std::initializer_list<double> corners) { return {std::min(corners), std::max(corners)}; }

/// Works out a formula as it stands on the worksheet, in metric units, as a person with a pocket calculator would,
/// and keeps account of the digits that were not printed: every number with a decimal point or a unit is good to half
/// its last digit. In mm, N, N/mm², N mm and seconds; speeds a minute.
class PocketCalculator {
 public:
  static Band work_out(std::string_view formula) {
    PocketCalculator calculator{formula};
    const Band result = calculator.sum();
    CHECK_MESSAGE(calculator.rest_.empty(), "left over: " << std::string{calculator.rest_});
    return result;
  }

 private:
  explicit PocketCalculator(std::string_view formula) : rest_{formula} {}

  bool take(std::string_view word) {
    if (!rest_.starts_with(word)) return false;
    rest_.remove_prefix(word.size());
    return true;
  }

  Band sum() {
    Band total = product();
    while (true) {
      if (take(" + ")) {
        const Band b = product();
        total = {total.low + b.low, total.high + b.high};
      } else if (take(" − ")) {
        const Band b = product();
        total = {total.low - b.high, total.high - b.low};
      } else {
        return total;
      }
    }
  }

  Band product() {
    Band a = value();
    while (true) {
      if (take(" × ")) {
        const Band b = value();
        a = band_of({a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high});
      } else if (take(" / ")) {
        const Band b = value();
        a = band_of({a.low / b.low, a.low / b.high, a.high / b.low, a.high / b.high});
      } else {
        return a;
      }
    }
  }

  Band value() {
    Band v;
    if (const bool most = take("max("); most || take("min(")) {
      v = sum();
      while (take(", ")) {
        const Band b = sum();
        v = most ? Band{std::max(v.low, b.low), std::max(v.high, b.high)}
                 : Band{std::min(v.low, b.low), std::min(v.high, b.high)};
      }
      CHECK(take(")"));
    } else if (take("tan(")) {
      v = sum();
      v = {std::tan(v.low), std::tan(v.high)};
      CHECK(take(")"));
    } else if (take("√(")) {
      v = sum();
      v = {std::sqrt(v.low), std::sqrt(v.high)};
      CHECK(take(")"));
    } else if (take("(")) {
      v = sum();
      CHECK(take(")"));
    } else {
      return number();
    }
    if (take("²")) v = band_of({v.low * v.low, v.high * v.high});
    return v;
  }

  Band number() {
    double n = 0;
    const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), n);
    REQUIRE_MESSAGE(error == std::errc{}, "a number belongs here: " << std::string{rest_});
    const auto length = static_cast<std::size_t>(end - rest_.data());
    const std::string_view digits = rest_.substr(0, length);
    rest_.remove_prefix(length);
    const double factor = unit();
    const auto point = digits.find('.');
    const bool exact = point == std::string_view::npos && factor == 0;
    const double half =
        exact ? 0
              : 0.5 * std::pow(10, point == std::string_view::npos ? 0.0 : -static_cast<double>(length - point - 1));
    const double scale = factor == 0 ? 1 : factor;
    return {(n - half) * scale, (n + half) * scale};
  }

  /// How many of the calculator's units it is, or 0 where there is none.
  double unit() {
    if (take(" cm³")) return 1000;
    if (take(" N m")) return 1000;
    if (take(" h")) return 3600;
    for (const std::string_view one : {" mm/min", " mm²", " mm", " MPa", " N", " rpm"}) {
      if (take(one)) return 1;
    }
    return 0;
  }

  std::string_view rest_;
};

}  // namespace blankwright
