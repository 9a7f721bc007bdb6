#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "measure/thread_parts.h"
#include "measure/thread_series.h"

namespace blankwright::thread_parts {
namespace {

constexpr double least_metric = 1, greatest_metric = 64;  ///< mm

std::string metric_name(double diameter, double pitch) { return fmt::format("M{}×{}", diameter, pitch); }

/// The threads of ISO 261 with that diameter, coarse first.
std::vector<std::string> choices(double diameter) {
  std::vector<std::string> names;
  const MetricSize* size = find_metric(diameter);
  if (size == nullptr) return names;
  names.push_back(metric_name(diameter, size->coarse));
  for (const double pitch : size->fine) {
    if (pitch > 0) names.push_back(metric_name(diameter, pitch));
  }
  return names;
}

/// Grade and position, as in "6g" (ISO 965-1), or nothing.
std::string take_zone(SizeScan& in) {
  SizeScan ahead = in;
  const char grade = ahead.next();
  if (grade < '3' || grade > '9' || !ahead.take(grade)) return {};
  const char position = ahead.next();
  if (std::string_view{"efghGH"}.find(position) == std::string_view::npos || !ahead.take(position)) return {};
  in = ahead;
  return {grade, position};
}

/// One zone, or two where pitch and major diameter differ: "5g6g". Nothing where it runs on into something else.
std::string take_tolerance(SizeScan& in) {
  SizeScan ahead = in;
  std::string tolerance = take_zone(ahead);
  tolerance += take_zone(ahead);
  if (SizeScan behind = ahead; !behind.token().empty() && !length_follows(ahead)) return {};
  in = ahead;
  return tolerance;
}

struct Pitch {
  double value = 0;
  bool given = false;
  bool by_hyphen = false;  ///< M8-1.25
};

std::optional<Pitch> take_pitch(SizeScan& in) {
  SizeScan ahead = in;
  ahead.skip_spaces();
  const bool times = ahead.take('x') || ahead.take('X') || ahead.take('*');
  const bool hyphen = !times && ahead.take('-');
  if (!times && !hyphen) return Pitch{};
  ahead.skip_spaces();
  const auto number = ahead.number();
  const char behind = ahead.next();
  const bool letter = (behind >= 'a' && behind <= 'z') || (behind >= 'A' && behind <= 'Z');
  if (hyphen && (!number || (letter && !length_follows(ahead)))) return Pitch{};  // a tolerance, a hand
  if (!number) return std::nullopt;
  in = ahead;
  return Pitch{number->value, true, hyphen};
}

tl::expected<double, ThreadFault> believed_pitch(double diameter, const Pitch& pitch) {
  const MetricSize* size = find_metric(diameter);
  if (!pitch.given) {
    if (size != nullptr) return size->coarse;
    return fault(Kind::which_thread,
                 fmt::format("no coarse pitch is known here for M{}; the pitch is wanted as well", diameter),
                 diameter > 6 ? std::vector{metric_name(diameter, 1)} : std::vector<std::string>{});
  }
  if (pitch.value > greatest_metric_pitch(diameter)) {
    const std::string coarse = size == nullptr ? "" : fmt::format(" (coarse is {} mm)", size->coarse);
    return fault(
        Kind::screw_length,
        fmt::format("{} mm is too much for the pitch of M{}{}; a screw's length does not belong to its thread",
                    pitch.value, diameter, coarse),
        choices(diameter));
  }
  if (pitch.value < finest_metric_pitch) {
    return fault(
        Kind::unlikely_pitch,
        fmt::format("{} mm is too little for a pitch; at least {} mm is wanted", pitch.value, finest_metric_pitch),
        choices(diameter));
  }
  return pitch.value;
}

std::string metric_series(double diameter, double pitch) {
  const MetricSize* size = find_metric(diameter);
  const auto is = [pitch](double choice) { return std::abs(choice - pitch) < 1e-9; };
  if (size != nullptr && is(size->coarse)) return "coarse";
  if (size != nullptr && std::any_of(std::begin(size->fine), std::end(size->fine), is)) return "fine";
  return "special";
}

std::optional<std::string> metric_warning(const Thread& thread, bool by_hyphen) {
  std::string says;
  if (by_hyphen) says = fmt::format("hyphen before the pitch; read as {}", thread.designation);
  if (thread.series == "special") {
    if (!says.empty()) says += "; ";
    says += fmt::format("{} is not a choice known from ISO 261; see that a tap for it exists", thread.designation);
  }
  return says.empty() ? std::nullopt : std::optional{says};
}

/// `-6g`, `-LH`, in this order.
tl::expected<void, ThreadFault> take_tail(SizeScan& in, Thread& thread) {
  const std::string bare = thread.designation;
  in.skip_separator();
  thread.tolerance = take_tolerance(in);
  if (!thread.tolerance.empty()) {
    thread.designation += "-" + thread.tolerance;
    if (length_follows(in)) return length_fault(bare, in.rest());
    in.skip_separator();
  }
  if (in.take_word("LH")) {
    thread.left_hand = true;
    thread.designation += "-LH";
  }
  in.skip_spaces();
  if (length_follows(in)) return length_fault(bare, in.rest());
  if (!in.done()) return stray(bare, in.rest());
  return {};
}

}  // namespace

Result read_metric(SizeScan in) {
  const auto size = in.number();
  if (!size || size->value < least_metric || size->value > greatest_metric) {
    return fault(Kind::out_of_range,
                 fmt::format("no metric size known here; M{} to M{} are", least_metric, greatest_metric), {"M8"});
  }
  const double diameter = size->value;
  const auto given = take_pitch(in);
  if (!given) {
    return fault(Kind::not_a_thread, fmt::format("the pitch of M{} is wanted behind the x", diameter),
                 choices(diameter));
  }
  const auto pitch = believed_pitch(diameter, *given);
  if (!pitch) return tl::unexpected{pitch.error()};
  Thread thread;
  thread.system = ThreadSystem::metric;
  thread.major = diameter * mm;
  thread.pitch = *pitch * mm;
  thread.series = metric_series(diameter, *pitch);
  thread.designation = metric_name(diameter, *pitch);
  if (length_follows(in)) return length_fault(thread.designation, in.rest());
  thread.warning = metric_warning(thread, given->by_hyphen);
  if (const auto tail = take_tail(in, thread); !tail) return tl::unexpected{tail.error()};
  return thread;
}

}  // namespace blankwright::thread_parts
