#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <numeric>

#include "measure/thread_parts.h"
#include "measure/thread_series.h"
#include "measure/utf8.h"

namespace blankwright::thread_parts {
namespace {

constexpr double greatest_unified = 1.5;  ///< in
constexpr int most_per_inch = 80;         ///< #0-80, the finest of ASME B1.1

struct Size {
  std::string name;  ///< "#10", "5/16", "1-1/8", "0.300"
  double inches = 0;
  const UnifiedSize* known = nullptr;
  std::optional<int> bare = std::nullopt;  ///< a whole number alone: `10` may be #10, 10 mm or 10 in
};

Size known_size(const UnifiedSize& size) { return {std::string{size.name}, size.inches, &size}; }

/// Candidates of that size that can be pasted.
std::vector<std::string> graded_names(const UnifiedSize* size) {
  std::vector<std::string> names;
  if (size == nullptr) return names;
  for (const int per_inch : graded_series(*size)) names.push_back(fmt::format("{}-{}", size->name, per_inch));
  if (names.size() > 2) names.resize(2);  // the extra fine series is rare: not offered unasked
  return names;
}

tl::expected<Size, ThreadFault> fraction_size(int whole, int top, int bottom) {
  if (bottom < 2 || bottom > 64 || !std::has_single_bit(static_cast<unsigned>(bottom)) || top < 1) {
    return fault(Kind::not_a_thread,
                 fmt::format("{}/{} is not a fraction of the inch; halves to sixty-fourths are wanted", top, bottom));
  }
  if (top >= bottom) {
    return fault(Kind::not_a_thread, fmt::format("{}/{} is more than an inch; a whole number with a proper fraction "
                                                 "is wanted, as in 1-3/8",
                                                 top, bottom));
  }
  const int common = std::gcd(top, bottom);
  const std::string part = fmt::format("{}/{}", top / common, bottom / common);
  const std::string name = whole == 0 ? part : fmt::format("{}-{}", whole, part);
  if (const UnifiedSize* known = find_unified(name)) return known_size(*known);
  return Size{name, whole + static_cast<double>(top) / bottom};
}

/// `.375`, `0.3125`, `.312`: the size that rounds to it, where at least three decimals are given.
Size decimal_size(WrittenNumber written) {
  const double slack = written.decimals >= 3 ? 0.5001 * std::pow(10.0, -written.decimals) : 1e-9;
  for (const UnifiedSize& size : unified_sizes()) {
    if (std::abs(size.inches - written.value) <= slack) return known_size(size);
  }
  return {fmt::format("{:.{}f}", written.value, std::max(written.decimals, 3)), written.value};
}

/// `3/8` or nothing.
std::optional<std::pair<int, int>> take_fraction(SizeScan& in) {
  SizeScan ahead = in;
  const auto top = ahead.whole();
  if (!top || !ahead.take('/')) return std::nullopt;
  const auto bottom = ahead.whole();
  if (!bottom) return std::nullopt;
  in = ahead;
  return std::pair{*top, *bottom};
}

tl::expected<Size, ThreadFault> take_number_size(SizeScan& in) {
  in.skip_spaces();
  const auto number = in.whole();
  const UnifiedSize* known = number ? find_unified(fmt::format("#{}", *number)) : nullptr;
  if (known != nullptr) return known_size(*known);
  return fault(Kind::not_a_thread, "no numbered size known here; #0 to #6, #8, #10 and #12 are", {"#10-24"});
}

tl::expected<Size, ThreadFault> take_size(SizeScan& in) {
  if (in.take('#')) return take_number_size(in);
  if (const auto part = take_fraction(in)) return fraction_size(0, part->first, part->second);
  const auto number = in.number();
  if (!number) return fault(Kind::not_a_thread, "no size that can be read where a thread belongs", {"5/16-18"});
  if (number->decimals > 0) return decimal_size(*number);
  const int whole = static_cast<int>(std::min(number->value, 1e6));
  SizeScan ahead = in;
  ahead.skip_separator();
  if (const auto part = take_fraction(ahead)) {
    in = ahead;
    return fraction_size(whole, part->first, part->second);
  }
  Size size{fmt::format("{}", whole), number->value};
  size.bare = whole;
  return size;
}

/// The threads that a whole number alone may stand for.
std::vector<std::string> bare_candidates(int whole) {
  std::vector<std::string> names;
  if (find_metric(whole) != nullptr) names.push_back(fmt::format("M{}", whole));
  for (const std::string& name : graded_names(find_unified(fmt::format("#{}", whole)))) names.push_back(name);
  for (const std::string& name : graded_names(find_unified(fmt::format("{}", whole)))) names.push_back(name);
  return names;
}

/// `10-24` is #10, `1-8` is one inch: whichever has threads that coarse.
Size settled(const Size& size, int per_inch) {
  if (!size.bare) return size;
  const UnifiedSize* numbered = find_unified(fmt::format("#{}", *size.bare));
  if (numbered != nullptr && per_inch >= fewest_threads_per_inch(numbered->inches)) return known_size(*numbered);
  if (const UnifiedSize* inches = find_unified(size.name)) return known_size(*inches);
  return numbered != nullptr ? known_size(*numbered) : size;
}

/// The series named, upper case, or nothing.
std::string take_series(SizeScan& in) {
  for (const std::string_view name : {"UNC", "UNF", "UNEF", "UNS", "UNRC", "UNRF", "UNREF", "UNRS", "UNR", "UN"}) {
    SizeScan ahead = in;
    if (!ahead.take_word(name)) continue;
    in = ahead;
    return std::string{name};
  }
  return {};
}

/// `R` (rounded root, screws only) belongs to the form, not to the series: UNRC counts threads as UNC.
std::string without_rounding(std::string series) {
  if (series.starts_with("UNR")) series.erase(2, 1);
  return series;
}

/// A whole number alone, or with millimetres behind it: `10`, `10 mm`, `8x1.25`, `8-1.25`.
tl::unexpected<ThreadFault> bare_fault(int whole, SizeScan behind) {
  behind.skip_separator();
  const bool times = behind.take('x') || behind.take('X') || behind.take('*');
  behind.skip_spaces();
  const auto pitch = behind.number();
  const bool millimetres = times || pitch || behind.take_word("MM");
  std::vector<std::string> names = bare_candidates(whole);
  if (millimetres && find_metric(whole) != nullptr) {
    const bool likely = pitch && pitch->value >= finest_metric_pitch && pitch->value <= greatest_metric_pitch(whole);
    names = {likely ? fmt::format("M{}×{}", whole, pitch->value) : fmt::format("M{}", whole)};
  }
  return fault(Kind::which_thread,
               fmt::format("{} alone does not say which thread; the whole designation is wanted", whole), names);
}

/// Nothing, or not a whole number of threads, stands behind the size.
tl::unexpected<ThreadFault> no_threads_per_inch(const Size& size, SizeScan behind) {
  if (size.bare) return bare_fault(*size.bare, behind);
  behind.skip_separator();
  std::vector<std::string> names = graded_names(size.known);
  if (const std::string series = without_rounding(take_series(behind)); size.known != nullptr && !series.empty()) {
    for (const int per_inch : graded_series(*size.known)) {
      if (unified_series(size.known, per_inch) == series) names = {fmt::format("{}-{}", size.name, per_inch)};
    }
  }
  return fault(Kind::which_thread, fmt::format("{} without its threads per inch", size.name), names);
}

/// "1A" to "3B", upper case, or nothing.
std::string take_class(SizeScan& in) {
  SizeScan ahead = in;
  const std::string token{ahead.token()};
  if (token.size() != 2 || token[0] < '1' || token[0] > '3') return {};
  const char side = token[1] == 'a' || token[1] == 'A' ? 'A' : token[1] == 'b' || token[1] == 'B' ? 'B' : '\0';
  if (side == '\0') return {};
  in = ahead;
  return {token[0], side};
}

tl::expected<void, ThreadFault> take_series_into(SizeScan& in, const Size& size, Thread& thread) {
  const std::string named = take_series(in);
  if (named.empty()) return {};
  const std::string plain = without_rounding(named);
  const bool general = plain == "UN" || plain == "UNS";  // any diameter-pitch combination may be called so
  if (!general && plain != thread.series) {
    std::vector<std::string> names{fmt::format("{}-{} {}", size.name, thread.per_inch, thread.series)};
    for (const int per_inch : size.known == nullptr ? std::vector<int>{} : graded_series(*size.known)) {
      if (unified_series(size.known, per_inch) == plain) names.push_back(fmt::format("{}-{}", size.name, per_inch));
    }
    return fault(Kind::series_differs,
                 fmt::format("{}-{} is {}, not {}", size.name, thread.per_inch, thread.series, named), names);
  }
  if (named != plain) thread.series.insert(2, 1, 'R');
  return {};
}

tl::expected<void, ThreadFault> take_tail(SizeScan& in, const Size& size, Thread& thread) {
  const std::string bare = fmt::format("{}-{}", size.name, thread.per_inch);
  if (length_follows(in)) return length_fault(bare, in.rest());
  in.skip_separator();
  if (const auto series = take_series_into(in, size, thread); !series) return series;
  if (length_follows(in)) return length_fault(bare, in.rest());
  in.skip_separator();
  thread.tolerance = take_class(in);
  if (length_follows(in)) return length_fault(bare, in.rest());
  in.skip_separator();
  thread.left_hand = in.take_word("LH");
  if (length_follows(in)) return length_fault(bare, in.rest());
  in.skip_spaces();
  if (!in.done()) return stray(bare, in.rest());
  thread.designation = fmt::format("{} {}", bare, thread.series);
  if (!thread.tolerance.empty()) thread.designation += "-" + thread.tolerance;
  if (thread.left_hand) thread.designation += "-LH";
  return {};
}

tl::expected<void, ThreadFault> believed(const Size& size, int per_inch) {
  if (size.inches > greatest_unified || size.inches <= 0) {
    return fault(Kind::out_of_range,
                 fmt::format("{} in is no size of a stud; #0 to 1-1/2 in are known here", size.name));
  }
  if (per_inch < fewest_threads_per_inch(size.inches) || per_inch > most_per_inch) {
    return fault(Kind::unlikely_pitch, fmt::format("{} threads per inch do not suit {}", per_inch, size.name),
                 graded_names(size.known));
  }
  return {};
}

}  // namespace

Result read_unified(SizeScan in) {
  auto size = take_size(in);
  if (!size) return tl::unexpected{size.error()};
  in.skip_spaces();
  if (!in.take('"')) in.take_word("IN");
  SizeScan behind = in;
  behind.skip_spaces();
  const bool hyphen = behind.take('-');
  behind.skip_spaces();
  const auto per_inch = behind.whole();
  if (!per_inch || behind.next() == '.' || behind.next() == ',') return no_threads_per_inch(*size, in);
  *size = settled(*size, *per_inch);
  if (const auto fit = believed(*size, *per_inch); !fit) return tl::unexpected{fit.error()};
  if (!hyphen) {
    return fault(Kind::not_a_thread, "size and threads per inch without a hyphen between them",
                 {fmt::format("{}-{}", size->name, *per_inch)});
  }
  Thread thread;
  thread.system = ThreadSystem::unified;
  thread.major = size->inches * inch;
  thread.per_inch = *per_inch;
  thread.pitch = inch / *per_inch;
  thread.series = unified_series(size->known, *per_inch);
  if (size->known == nullptr) {
    thread.warning =
        fmt::format("{} in is not a size known from ASME B1.1; see that a tap for it exists", size->name);
  }
  const bool said_special = ascii_lower(behind.rest()).find("uns") != std::string::npos;
  if (const auto tail = take_tail(in = behind, *size, thread); !tail) return tl::unexpected{tail.error()};
  if (thread.series == "UNS" && !said_special && !thread.warning) {
    thread.warning = fmt::format("{} threads per inch are of no standard series for {}; see that a tap for it exists",
                                 *per_inch, size->name);
  }
  return thread;
}

}  // namespace blankwright::thread_parts
