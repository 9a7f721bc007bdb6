#include "measure/quantity_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "measure/digit.h"
#include "measure/nearest.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

using Fault = QuantityFault;

std::string_view trimmed(std::string_view text) {
  for (bool again = true; again;) {
    again = false;
    for (const std::string_view space : {std::string_view{" "}, std::string_view{"\t"}, std::string_view{"\u00a0"}}) {
      if (text.starts_with(space)) text.remove_prefix(space.size()), again = true;
      if (text.ends_with(space)) text.remove_suffix(space.size()), again = true;
    }
  }
  return text;
}

struct Glyph {
  std::string_view written;
  int top, bottom;
};
constexpr std::array glyphs{Glyph{"¼", 1, 4}, Glyph{"½", 1, 2}, Glyph{"¾", 3, 4}, Glyph{"⅛", 1, 8},
                            Glyph{"⅜", 3, 8}, Glyph{"⅝", 5, 8}, Glyph{"⅞", 7, 8}};

/// Reads from the front of a text, and remembers how far.
class Cursor {
 public:
  explicit Cursor(std::string_view text) : rest_{text} {}
  std::string_view rest() const { return rest_; }
  bool at_end() const { return rest_.empty(); }

  void skip_space() {
    while (!rest_.empty() && (rest_.front() == ' ' || rest_.front() == '\t' || rest_.starts_with("\u00a0"))) {
      rest_.remove_prefix(rest_.starts_with("\u00a0") ? 2 : 1);
    }
  }
  bool take(std::string_view word) {
    if (!rest_.starts_with(word)) return false;
    rest_.remove_prefix(word.size());
    return true;
  }
  std::optional<long> whole_number() {
    long value = 0;
    const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
    if (error != std::errc{} || end == rest_.data() || rest_.front() == '-') return std::nullopt;
    rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
    return value;
  }
  /// Digits with at most one full stop.
  std::optional<double> decimal() {
    double value = 0;
    const auto [end, error] =
        std::from_chars(rest_.data(), rest_.data() + rest_.size(), value, std::chars_format::fixed);
    const bool starts_well = !rest_.empty() && (is_digit(rest_.front()) || rest_.front() == '.');
    if (error != std::errc{} || !starts_well) return std::nullopt;
    rest_.remove_prefix(static_cast<std::size_t>(end - rest_.data()));
    return value;
  }
  std::optional<double> glyph() {
    for (const Glyph& g : glyphs) {
      if (take(g.written)) return static_cast<double>(g.top) / g.bottom;
    }
    return std::nullopt;
  }

 private:
  std::string_view rest_;
};

/// `n/m` or a fraction's glyph; nothing is taken where there is none.
tl::expected<std::optional<double>, Fault> fraction(Cursor& in) {
  if (const auto g = in.glyph()) return g;
  Cursor ahead = in;
  const auto top = ahead.whole_number();
  if (!top || !(ahead.take("/") || ahead.take("\u2044"))) return std::optional<double>{};
  const auto bottom = ahead.whole_number();
  if (!bottom) return std::optional<double>{};
  if (*bottom == 0) return tl::unexpected{Fault{Fault::Cause::fraction_by_zero, "fraction with a zero below", {}}};
  in = ahead;
  return static_cast<double>(*top) / static_cast<double>(*bottom);
}

Fault not_a_quantity(std::string_view whole_text, Kind kind) {
  return {Fault::Cause::not_a_quantity, fmt::format("\"{}\" is not {}", whole_text, with_article(kind)),
          std::string{example(kind)}};
}

/// A decimal, a fraction, or a whole number and a fraction joined by a hyphen, a space or nothing.
tl::expected<double, Fault> unsigned_number(Cursor& in, std::string_view whole_text, Kind kind) {
  const auto alone = fraction(in);
  if (!alone) return tl::unexpected{alone.error()};
  if (*alone) return **alone;
  const std::string_view from = in.rest();
  const auto value = in.decimal();
  if (!value) return tl::unexpected{not_a_quantity(whole_text, kind)};
  const std::string_view digits = from.substr(0, from.size() - in.rest().size());
  if (digits.find('.') != std::string_view::npos) return *value;
  Cursor ahead = in;
  if (!ahead.take("-")) ahead.skip_space();
  const auto part = fraction(ahead);
  if (!part) return tl::unexpected{part.error()};
  if (!*part) return *value;
  in = ahead;
  return *value + **part;
}

tl::expected<double, Fault> number(Cursor& in, std::string_view whole_text, Kind kind) {
  const bool negative = in.take("-") || in.take("\u2212");
  const auto value = unsigned_number(in, whole_text, kind);
  return value && negative ? -*value : value;
}

bool same(std::string_view typed, const UnitName& unit) {
  if (unit.exact_case || typed.size() != unit.written.size()) return typed == unit.written;
  return ascii_lower(typed) == ascii_lower(unit.written);
}

/// The unit up to the next number or the end. A number follows a space, or at once the sign for feet: 1'3".
std::string_view unit_text(Cursor& in) {
  in.skip_space();
  const std::string_view rest = in.rest();
  const auto may_end_at = [&](std::size_t end) {
    const std::string_view before = rest.substr(0, end);
    return before.ends_with(' ') || before.ends_with('\t') || before.ends_with('\'') || before.ends_with("′");
  };
  std::size_t end = 0;
  while (end < rest.size() && !(may_end_at(end) && (is_digit(rest[end]) || rest[end] == '.'))) ++end;
  const std::string_view typed = rest.substr(0, end);
  in.take(typed);
  return trimmed(typed);
}

const UnitName* find_unit(std::string_view typed, Kind kind) {
  for (const UnitName& u : unit_names()) {
    if (u.kind == kind && same(typed, u)) return &u;
  }
  return nullptr;
}

/// A comma among the digits. Three digits behind it may be thousands as well as thousandths: then nothing is
/// proposed.
Fault comma_in_number(std::string_view behind, std::string_view amount, Kind kind) {
  const auto digits = std::min(behind.find_first_not_of("0123456789"), behind.size());
  const bool clear = digits > 0 && digits != 3 && find_unit(trimmed(behind.substr(digits)), kind) != nullptr;
  return {Fault::Cause::not_a_quantity,
          fmt::format("comma in the number of {}; decimals begin with a full stop, thousands are not parted",
                      with_article(kind)),
          clear ? fmt::format("{}.{}", amount, behind) : std::string{}};
}

std::string unit_meant(std::string_view typed, Kind kind) {
  if (typed == "''" && kind == Kind::length) return "in";  // the nearest spelling would be that of a foot
  std::vector<std::string> known;
  for (const UnitName& u : unit_names()) {
    if (u.kind == kind) known.emplace_back(u.written);
  }
  const auto near = nearest_names(typed, known, 1);
  return near.empty() ? std::string{usual_unit(kind)} : near.front();
}

/// Whoever writes a length as a fraction means inches.
std::string_view unit_for(std::string_view digits, Kind kind) {
  const bool plain = digits.find_first_not_of("-0123456789.") == std::string_view::npos;
  return kind == Kind::length && !plain ? "in" : usual_unit(kind);
}

Fault wrong_unit(std::string_view unit, std::string_view amount, std::string_view whole_text, Kind kind) {
  if (unit.starts_with(",")) return comma_in_number(unit.substr(1), amount, kind);
  constexpr std::string_view never_begins_a_unit = "0123456789.+-*/";
  const bool exponent = (unit.front() == 'e' || unit.front() == 'E') && unit.size() > 1 &&
                        std::string_view{"0123456789+-"}.find(unit.at(1)) != std::string_view::npos;
  if (exponent || never_begins_a_unit.find(unit.front()) != std::string_view::npos) {
    return not_a_quantity(whole_text, kind);
  }
  for (const UnitName& u : unit_names()) {
    if (!same(unit, u)) continue;
    return {Fault::Cause::other_kind,
            fmt::format("\"{}\" is a unit of {}, where {} belongs", unit, kind_name(u.kind), with_article(kind)),
            std::string{example(kind)}};
  }
  const bool all_read =
      whole_text.ends_with(unit) && whole_text.starts_with(amount) && std::ranges::none_of(unit, is_digit);
  return {Fault::Cause::unknown_unit, fmt::format("unknown unit \"{}\" where {} belongs", unit, with_article(kind)),
          all_read ? fmt::format("{} {}", amount, unit_meant(unit, kind)) : std::string{example(kind)}};
}

}  // namespace

tl::expected<double, QuantityFault> read_si(std::string_view text, Kind kind) {
  const std::string_view all = trimmed(text);
  Cursor in{all};
  double sum = 0;
  double last_factor = 0;
  bool negative = false;
  do {
    const std::string_view from = in.rest();
    const auto amount = number(in, all, kind);
    if (!amount) return tl::unexpected{amount.error()};
    const std::string_view digits = trimmed(from.substr(0, from.size() - in.rest().size()));
    const std::string_view unit = unit_text(in);
    const bool follows = last_factor != 0;
    if (unit.empty()) {
      if (follows) return tl::unexpected{not_a_quantity(all, kind)};
      return tl::unexpected{Fault{Fault::Cause::bare_number,
                                  fmt::format("bare number where {} belongs", with_article(kind)),
                                  fmt::format("{} {}", digits, unit_for(digits, kind))}};
    }
    const UnitName* found = find_unit(unit, kind);
    if (found == nullptr) return tl::unexpected{wrong_unit(unit, digits, all, kind)};
    if (follows && (found->factor >= last_factor || found->offset != 0)) {
      return tl::unexpected{not_a_quantity(all, kind)};
    }
    if (!follows) negative = std::signbit(*amount);
    sum += (negative && follows ? -*amount : *amount) * found->factor + found->offset;
    last_factor = found->factor;
    in.skip_space();
  } while (!in.at_end());
  if (!std::isfinite(sum) || std::abs(sum) > 1e12) {
    return tl::unexpected{Fault{Fault::Cause::out_of_range, fmt::format("\"{}\" is out of all proportion", all), {}}};
  }
  return sum;
}

}  // namespace blankwright
