#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ostream>

#include "commands/commands.h"
#include "commands/inputs.h"
#include "diagnose/failure.h"
#include "measure/nearest.h"
#include "measure/quantity_text.h"
#include "measure/read_thread.h"
#include "measure/thread_series.h"
#include "measure/utf8.h"
#include "plan/tables/species.h"
#include "plan/tables/threads.h"
#include "write/answer_text.h"

namespace blankwright {
namespace {

Answer known_species() {
  Answer out{{}, {"species", "oven-dry", "shrinks", "also called"}, {}};
  for (const Species& one : species_table()) {
    const auto density = oven_dry_density(one);
    out.rows.push_back({std::string{one.name}, density ? text(*density, UnitSystem::metric) : "",
                        one.tangential ? text(*one.tangential) : "", std::string{one.aliases}});
  }
  return out;
}

void add_thread(const std::string& designation, Answer& out) {
  const auto thread = read_thread(designation);
  BW_EXPECT(thread.has_value());
  const auto drill = conventional_tap_drill(*thread);
  const UnitSystem units = thread->system == ThreadSystem::metric ? UnitSystem::metric : UnitSystem::inches;
  out.rows.push_back({designation, thread->series, text(thread->major, {units, Round::nearest, Fineness::measured}),
                      drill ? drill->drill.name() : ""});
}

Answer known_threads() {
  Answer out{{}, {"thread", "series", "major diameter", "tap drill"}, {}};
  for (const MetricSize& size : metric_sizes()) {
    add_thread(fmt::format("M{:g}", size.diameter), out);
    for (const double pitch : size.fine) {
      if (pitch > 0) add_thread(fmt::format("M{:g}x{:g}", size.diameter, pitch), out);
    }
  }
  for (const UnifiedSize& size : unified_sizes()) {
    for (const int per_inch : graded_series(size)) add_thread(fmt::format("{}-{}", size.name, per_inch), out);
  }
  return out;
}

Answer known_labels() {
  Answer out{{}, {"label sheet", "paper", "labels", "each"}, {}};
  const auto size = [](Length length) {
    return text(length, {UnitSystem::metric, Round::nearest, Fineness::measured});
  };
  for (const LabelSheet& sheet : standard_template().label_sheets) {
    out.rows.push_back({sheet.name.value, sheet.paper.value == PaperSize::letter ? "Letter" : "A4",
                        fmt::format("{}", sheet.columns.value * sheet.rows.value),
                        size(sheet.width.value) + " x " + size(sheet.height.value)});
  }
  return out;
}

struct Listing {
  KnownThing thing;
  Answer (*rows)();
};

constexpr std::array listings{
    Listing{{"species", "woods that a job may name, with density and tangential shrinkage"}, known_species},
    Listing{{"threads", "threads of studs, with their tap drills"}, known_threads},
    Listing{{"labels", "label sheets that `tag_sheet` of a template may name"}, known_labels},
};

bool has_words(const std::vector<std::string>& row, const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& cell : row) all += ascii_lower(cell) + "\n";
  return std::ranges::all_of(
      words, [&](const std::string& word) { return all.find(ascii_lower(word)) != std::string::npos; });
}

/// What may have been meant by words that no row has.
std::vector<std::string> written_alike(const std::vector<std::string>& words, const Answer& known) {
  std::vector<std::string> names;
  for (const auto& row : known.rows) names.push_back(row.front());
  return nearest_names(fmt::format("{}", fmt::join(words, " ")), names, 3);
}

}  // namespace

std::vector<KnownThing> known_things() {
  std::vector<KnownThing> out;
  for (const Listing& one : listings) out.push_back(one.thing);
  return out;
}

Exit known(const KnownFlags& flags, Surroundings& around) {
  const auto* const listing =
      std::ranges::find(listings, std::string_view{flags.what}, [](const Listing& one) { return one.thing.name; });
  BW_EXPECT(listing != listings.end());
  Answer answer = listing->rows();
  const Answer all = answer;
  std::erase_if(answer.rows, [&](const auto& row) { return !has_words(row, flags.words); });
  if (answer.rows.empty()) {
    const auto near = written_alike(flags.words, all);
    around.errors << fmt::format("blankwright: nothing of that name is known among the {}{}\n", flags.what,
                                 near.empty() ? "" : fmt::format("; did you mean {}?", fmt::join(near, " or ")));
    return Exit::mistakes;
  }
  around.out << answer_as(flags.as, answer);
  return Exit::done;
}

}  // namespace blankwright
