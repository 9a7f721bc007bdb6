#include "register/states.h"

#include <utility>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

template <class State>
void carry_on(std::map<std::string, State>& states, const std::string& name, const Entry& entry) {
  const auto state = states.find(name);
  if (state != states.end()) state->second = after(std::move(state->second), entry);
}

/// The state of that name, and for each blank that was in it that it was.
template <class State, class Fold>
const State& found(std::map<std::string, State>& states, const std::string& name,
                   std::map<std::string, std::set<std::string>>& of_blank, Fold fold) {
  const auto [place, is_new] = states.try_emplace(name);
  if (is_new) {
    place->second = fold();
    for (const BlankId& blank : place->second.blanks) of_blank[blank.encoded()].insert(name);
  }
  return place->second;
}

}  // namespace

const BlankState& States::blank(const BlankId& id) {
  const auto [place, is_new] = blanks_.try_emplace(id.encoded());
  if (is_new) {
    auto state = known_.blank(id);
    BW_EXPECT(state.has_value());
    place->second = std::move(*state);
  }
  return place->second;
}

const BathState& States::of(const BathState&, const std::string& name) {
  return found(baths_, name, baths_of_, [&] { return known_.bath(name); });
}

const LoadState& States::of(const LoadState&, const std::string& name) {
  return found(loads_, name, loads_of_, [&] { return known_.load(name); });
}

const ResinState& States::of(const ResinState&, const std::string& name) {
  const auto [place, is_new] = resins_.try_emplace(name);
  if (is_new) place->second = known_.resin(name);
  return place->second;
}

bool States::is_last(const Entry& entry) {
  const auto lies_after = [&](Instant last) {
    return told_at(entry) >= std::chrono::floor<std::chrono::minutes>(last);
  };
  if (entry.blank && !lies_after(blank(*entry.blank).last_done)) return false;
  const std::string bath = entry.text(Field::bath), load = entry.text(Field::load), resin = entry.text(Field::resin);
  return (bath.empty() || lies_after(of(BathState{}, bath).last_at)) &&
         (load.empty() || lies_after(of(LoadState{}, load).last_at)) &&
         (resin.empty() || lies_after(of(ResinState{}, resin).last_at));
}

void States::add(const Entry& entry, bool is_last) {
  if (entry.blank) changed_.insert_or_assign(entry.blank->encoded(), *entry.blank);
  if (!is_last) {  // it stands in the middle of what was folded
    blanks_.clear();
    baths_.clear();
    loads_.clear();
    resins_.clear();
    baths_of_.clear();
    loads_of_.clear();
    return;
  }
  std::set<std::string> baths{entry.text(Field::bath)};
  std::set<std::string> loads{entry.text(Field::load)};
  if (entry.blank) {
    const std::string id = entry.blank->encoded();
    carry_on(blanks_, id, entry);
    if (baths_.contains(*baths.begin())) baths_of_[id].insert(*baths.begin());
    if (loads_.contains(*loads.begin())) loads_of_[id].insert(*loads.begin());
    if (const auto was = baths_of_.find(id); was != baths_of_.end())
      baths.insert(was->second.begin(), was->second.end());
    if (const auto was = loads_of_.find(id); was != loads_of_.end())
      loads.insert(was->second.begin(), was->second.end());
  }
  for (const std::string& name : baths) carry_on(baths_, name, entry);
  for (const std::string& name : loads) carry_on(loads_, name, entry);
  carry_on(resins_, entry.text(Field::resin), entry);
}

}  // namespace blankwright
