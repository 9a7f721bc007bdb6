#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <functional>
#include <map>

#include "commands/ask_parts.h"
#include "commands/gates.h"
#include "commands/output.h"
#include "commands/scrapped_by_change.h"
#include "entries/statistics.h"
#include "plan/wood/start_count.h"

namespace blankwright {

/// Blanks beyond those that make up their order, which are the ones that came furthest, and what they would serve.
Answered about_stock(Asked& asked, std::string&) {
  auto blanks = asked.at.known.known_blanks();
  const auto wanted = asked.at.known.quantities();
  auto good = good_pieces(blanks);
  std::ranges::stable_sort(blanks, std::ranges::greater{}, [](const KnownBlank& known) { return known.blank.stage; });
  std::map<std::string, int> kept;  // of the good ones, for the order
  Gates gates{asked.at.known, asked.at.inputs.shop};
  Answer answer;
  answer.columns = {"blank", "species", "condition", "dye", "stage", "could become"};
  for (const auto& [blank, species, condition, dye] : blanks) {
    const auto quantity = wanted.find(blank.promised);
    if (quantity == wanted.end() || good[blank.promised] < quantity->second) continue;
    const Fate fate = fate_of(blank);
    if (fate == Fate::good && kept[blank.promised]++ < quantity->second) continue;
    const bool usable = fate == Fate::good || (fate == Fate::in_work && !blank.witness);
    if (!usable || blank.stage < Stage::cured || blank.stage >= Stage::turned) continue;
    std::vector<std::string> ways;
    for (const Way& way : gates.could_become(*asked.at.known.blank(*blank.id), Gates::Tell::fitting))
      ways.push_back(in_words(way));
    answer.rows.push_back({blank.id->shown(), species, condition, dye, std::string{stage_words(blank)},
                           fmt::format("{}", fmt::join(ways, "; "))});
  }
  return answer;
}

Answered about_under_way(Asked& asked, std::string&) {
  auto blanks = asked.at.known.known_blanks();
  std::erase_if(blanks, [](const KnownBlank& known) {
    return known.blank.stage == Stage::sent || is_given_up(fate_of(known.blank));
  });
  return table_of(asked, blanks, all_columns());
}

std::string yield_in_plans(const std::optional<YieldSeen>& seen) {
  if (!seen) return "none yet";
  const std::string share = percent_text(static_cast<double>(seen->good) / seen->started);
  if (seen->counted == YieldBy::register_alone) return share;
  return fmt::format("{}: {} good of {}, those counted in the shop file among them", share, seen->good,
                     seen->started);
}

Answered about_yield(Asked& asked, std::string&) {
  auto blanks = asked.at.known.known_blanks();
  const std::size_t issued = blanks.size();
  leave_out_scrapped_by_change(asked.at.known, blanks);
  const auto wanted = asked.at.known.quantities();
  Tally all;
  std::map<std::string, Tally> orders;
  std::map<std::string, int> reasons;
  for (const KnownBlank& known : blanks) {
    all.add(known.blank);
    if (fate_of(known.blank) == Fate::lost) ++reasons[known.blank.reason];
    if (!known.blank.witness) orders[known.blank.order].add(known.blank);
  }
  const YieldCounted in_plans = yield_counted(blanks, wanted);
  Answer answer;
  answer.facts = {{"good", std::to_string(all.good)},
                  {"lost", std::to_string(all.lost)},
                  {"in work", std::to_string(all.in_work)},
                  {"to be sawn", std::to_string(all.to_be_sawn)},
                  {"cut open", std::to_string(all.cut_open)},
                  {"counted in plans", fmt::format("{} good, {} lost", in_plans.good, in_plans.lost)},
                  {"yield in plans", yield_in_plans(yield_seen(in_plans, asked.at.inputs.shop.yield.expected))}};
  if (blanks.size() < issued)
    answer.facts.emplace_back("left out",
                              fmt::format("{} scrapped since the order was changed: no loss of the process",
                                          counted(static_cast<std::int64_t>(issued - blanks.size()), "blank")));
  for (const std::string& id : in_plans.not_through) {
    if (!orders[id].is_begun()) continue;
    const auto quantity = wanted.find(id);
    const std::string enough =
        quantity == wanted.end() ? std::string{} : fmt::format("{} are good or ", quantity->second);
    answer.facts.emplace_back("not in plans yet: " + id,
                              fmt::format("{}; counts when {}none is in work", in_words(orders[id]), enough));
  }
  answer.columns = {"reason of loss", "blanks"};
  for (const auto& [reason, count] : reasons) {
    answer.rows.push_back({reason.empty() ? "not said" : reason, std::to_string(count)});
  }
  return answer;
}

Answered about_uptake(Asked& asked, std::string&) {
  Answer answer;
  answer.columns = {"species", "condition", "blanks", "gain, wet", "deviation", "least", "most", "gain, cured"};
  for (const UptakeSeen& seen : uptake_seen(asked.at.known.known_blanks())) {
    const auto& wet = seen.wet;
    const auto part = [&](double Spread::*member) { return wet ? percent_text((*wet).*member) : ""; };
    answer.rows.push_back({seen.species, seen.condition,
                           std::to_string(wet          ? wet->n
                                          : seen.cured ? seen.cured->n
                                                       : 0),
                           part(&Spread::mean), part(&Spread::deviation), part(&Spread::least), part(&Spread::most),
                           seen.cured ? percent_text(seen.cured->mean) : ""});
  }
  return answer;
}

Answered about_axis(Asked& asked, std::string&) {
  const auto seen = axis_spread(asked.at.known.known_blanks());
  Answer answer;
  if (!seen) {
    answer.facts = {{"axes measured", "fewer than two"}};
    return answer;
  }
  const auto lean = [&](double value) {
    return fmt::format("{} per {}", asked.length(value * (100 * mm)), asked.length(100 * mm));
  };
  const std::string off = "off by more than chance: set it";
  const std::string chance = "within chance";
  answer.facts = {{"axes measured", std::to_string(seen->n)},
                  {"mean offset towards face 1", asked.length(seen->mean_1)},
                  {"mean offset towards face 2", asked.length(seen->mean_2)},
                  {"fence", seen->fence_off ? off : chance},
                  {"mean lean towards face 1", lean(seen->mean_slope_1)},
                  {"mean lean towards face 2", lean(seen->mean_slope_2)},
                  {"table's squareness", seen->table_off ? off : chance},
                  {"95 of 100 offsets stay within", asked.length(seen->offset_95)},
                  {"95 of 100 leans stay within", lean(seen->tilt_95)}};
  return answer;
}

}  // namespace blankwright
