#include "entries/fate.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <tuple>

#include "diagnose/says_gate.h"

namespace blankwright {
namespace {

constexpr std::array<std::string_view, 14> words_of_stages{
    "sawn",     "in the bath", "wet",       "curing", "cured",    "squared",  "bored",
    "stud set", "turned",      "inspected", "sent",   "cut open", "scrapped", "not needed"};
static_assert(words_of_stages.size() == static_cast<std::size_t>(Stage::withdrawn) + 1);

}  // namespace

std::string_view stage_words(const BlankSummary& blank) {
  const Fate fate = fate_of(blank);
  if (fate == Fate::to_be_sawn) return "to be sawn";
  if (!blank.drying.empty()) return "drying";
  if (fate == Fate::lost && blank.stage == Stage::inspected) return "failed inspection";
  return words_of_stages.at(static_cast<std::size_t>(blank.stage));
}

Saying place_of(const BlankSummary& blank) {
  if (fate_of(blank) == Fate::to_be_sawn || blank.stage == Stage::sent || blank.stage >= Stage::cut_open)
    return {};
  if (blank.stage == Stage::in_bath) return say(says::lies_in_bath, blank.bath);
  if (blank.stage == Stage::in_oven) return say(says::lies_in_oven, blank.load);
  return blank.drying.empty() ? say(says::lies_in_shop) : say(says::lies_in_oven_to_dry, blank.drying);
}

std::vector<std::pair<std::string_view, int>> by_stage(std::span<const KnownBlank> blanks) {
  std::map<std::tuple<bool, Stage, bool, std::string_view>, int> counts;
  for (const KnownBlank& known : blanks) {
    const bool is_sawn = fate_of(known.blank) != Fate::to_be_sawn;
    ++counts[{is_sawn, known.blank.stage, !known.blank.drying.empty(), stage_words(known.blank)}];
  }
  std::vector<std::pair<std::string_view, int>> out;
  for (const auto& [key, count] : counts) out.emplace_back(std::get<std::string_view>(key), count);
  return out;
}

Fate fate_of(const BlankSummary& blank) {
  if (blank.stage == Stage::withdrawn) return Fate::withdrawn;
  if (blank.stage == Stage::scrapped) return Fate::lost;
  if (blank.stage == Stage::cut_open) return Fate::cut_open;
  if (blank.result == Outcome::fail) return Fate::lost;
  if (blank.stage >= Stage::stud_set && !blank.witness) return Fate::good;
  return blank.begun || blank.stage != Stage::begun ? Fate::in_work : Fate::to_be_sawn;
}

void Tally::add(const BlankSummary& blank) {
  switch (fate_of(blank)) {
    case Fate::to_be_sawn:
      ++to_be_sawn;
      break;
    case Fate::in_work:
      ++in_work;
      break;
    case Fate::good:
      ++good;
      sent += blank.stage == Stage::sent ? 1 : 0;
      break;
    case Fate::lost:
      ++lost;
      break;
    case Fate::cut_open:
      ++cut_open;
      break;
    case Fate::withdrawn:
      break;
  }
}

std::string in_words(const Tally& tally) {
  std::vector<std::string> parts;
  const auto say = [&](int count, const char* what) {
    if (count > 0) parts.push_back(fmt::format("{} {}", count, what));
  };
  say(tally.good, "good");
  if (tally.sent > 0) parts.back() += fmt::format(" ({} sent)", tally.sent);
  say(tally.lost, "lost");
  say(tally.in_work, "in work");
  say(tally.to_be_sawn, "to be sawn");
  say(tally.cut_open, "cut open");
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::map<std::string, int> good_pieces(std::span<const KnownBlank> blanks) {
  std::map<std::string, int> good;
  for (const KnownBlank& known : blanks) {
    if (fate_of(known.blank) == Fate::good) ++good[known.blank.promised];
  }
  return good;
}

std::vector<std::string> orders_that_lack(std::span<const KnownBlank> blanks,
                                          const std::map<std::string, int>& quantities) {
  auto good = good_pieces(blanks);
  std::vector<std::string> lacking;
  for (const auto& [order, wanted] : quantities) {
    if (good[order] < wanted) lacking.push_back(order);
  }
  return lacking;
}

}  // namespace blankwright
