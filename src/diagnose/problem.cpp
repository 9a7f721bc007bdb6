#include "diagnose/problem.h"

#include <array>
#include <vector>

namespace blankwright {
namespace {

constexpr int problem_count = static_cast<int>(Problem::picture_unreadable) + 1;

constexpr std::array<std::string_view, problem_count> names{
    "file-unreadable",
    "file-too-large",
    "not-utf8",
    "not-toml",
    "nested-too-deep",
    "format-missing",
    "format-newer",
    "unknown-key",
    "missing-key",
    "wrong-type",
    "bare-number",
    "not-a-quantity",
    "unknown-unit",
    "other-kind",
    "out-of-range",
    "unknown-word",
    "unknown-name",
    "wrong-file",
    "unprintable-text",
    "bad-order-id",
    "bad-date",
    "bad-thread",
    "thread-spelling",
    "bad-drill",
    "bad-zone",
    "bad-hours",
    "bad-counts",
    "bad-money",
    "bad-series",
    "keys-disagree",
    "unknown-label-sheet",
    "tags-on-other-paper",
    "template-missing",
    "same-order-id",
    "stations-not-rising",
    "seat-station-missing",
    "too-few-stations",
    "species-unknown",
    "species-ambiguous",
    "shrinkage-unknown",
    "drill-missing",
    "drill-too-small",
    "hole-outside-thread-limits",
    "wall-too-thin",
    "web-too-thin",
    "handle-too-short-for-stud",
    "head-hole-too-shallow",
    "stud-pulls-out",
    "stud-too-short",
    "pull-not-judged",
    "blank-too-small",
    "blank-too-short",
    "bore-must-be-truer",
    "no-yield-known",
    "yield-is-a-guess",
    "too-many-to-start",
    "bond-untested",
    "edge-distance-small",
    "currency-differs",
    "resin-unknown",
    "dye-unknown",
    "wood-density-unknown",
    "not-a-defect",
    "boards-too-few",
    "wood-too-wet",
    "drying-times-fall",
    "vessel-size-missing",
    "vessel-too-small",
    "resin-lighter-than-wood",
    "activated-too-old",
    "gauge-beyond-atmosphere",
    "pump-too-weak",
    "resin-or-water-boils",
    "calibration-falls",
    "calibration-too-short",
    "oven-colder-than-cure",
    "oven-too-small",
    "cure-too-long",
    "core-not-reached",
    "thread-strips",
    "stud-bends",
    "bond-twists",
    "overtightened",
    "strength-unknown",
    "stud-not-in-stock",
    "size-in-use-grows",
    "price-below-cost",
    "ferrule-disagrees",
    "vessel-missing",
    "oven-missing",
    "calendar-too-full",
    "load-waits-too-long",
    "wait-broken",
    "runs-too-long",
    "runs-alone",
    "runs-into-outage",
    "entries-later",
    "schedule-impossible",
    "routing-incomplete",
    "finishes-late",
    "order-in-register-differs",
    "open-order-not-planned",
    "blanks-do-not-fit",
    "ids-not-needed",
    "series-differs",
    "text-does-not-fit",
    "ink-near-edge",
    "picture-unreadable",
};

constexpr std::array<Problem, problem_count> problems = [] {
  std::array<Problem, problem_count> all{};
  for (std::size_t i = 0; i < all.size(); ++i) all.at(i) = static_cast<Problem>(i);
  return all;
}();

}  // namespace

std::string_view problem_name(Problem problem) { return names.at(static_cast<std::size_t>(problem)); }

std::span<const Problem> all_problems() { return problems; }

}  // namespace blankwright
