#include "entries/process_state.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <initializer_list>
#include <span>

#include "entries/readings.h"

namespace blankwright {
namespace {

void add_once(std::vector<BlankId>& blanks, const std::optional<BlankId>& blank) {
  if (blank && std::ranges::find(blanks, *blank) == blanks.end()) blanks.push_back(*blank);
}

Refusal bath_refusal(const BathState& bath, std::string_view what) {
  return {Refused::bath_not_so, fmt::format("bath {} {}", bath.name, what)};
}

Volume volume_of(const Entry& entry) { return entry.get<Volume>(Field::volume).value_or(Volume{}); }

/// Something that may have happened, and what it is called.
struct Earlier {
  std::optional<Instant> at;
  std::string_view what;
};

/// An entry that tells of something which has to come after others cannot lie before any of them.
std::optional<Refusal> lies_before(const Entry& entry, std::string_view of, std::initializer_list<Earlier> others) {
  for (const Earlier& other : others) {
    if (!other.at || told_at(entry) >= std::chrono::floor<std::chrono::minutes>(*other.at)) continue;
    return Refusal{Refused::clock, fmt::format("{}: {} would lie before {}", of, name_of(entry.kind), other.what)};
  }
  return std::nullopt;
}

bool holds(const std::vector<BlankId>& blanks, const std::optional<BlankId>& blank) {
  return blank && std::ranges::find(blanks, *blank) != blanks.end();
}

/// What an entry does to a bath or a lot of resin that it names.
template <class State>
struct Effect {
  EntryKind kind;
  void (*take)(State& state, const Entry& entry);
};

constexpr auto bath_effects = std::to_array<Effect<BathState>>({
    {EntryKind::into_bath,
     [](BathState& bath, const Entry& entry) {
       if (const std::string vessel = entry.text(Field::vessel); !vessel.empty()) bath.vessel = vessel;
       add_once(bath.blanks, entry.blank);
       add_once(bath.inside, entry.blank);
       add_once(bath.last_bath_of, entry.blank);
       bath.last_in = std::max(bath.last_in, std::optional{entry.at});
     }},
    {EntryKind::poured,
     [](BathState& bath, const Entry& entry) {
       bath.poured[entry.text(Field::resin)] += volume_of(entry);
       bath.last_in = std::max(bath.last_in, std::optional{entry.at});
     }},
    {EntryKind::vacuum_on, [](BathState& bath, const Entry& entry) { bath.vacuum_on = entry.at; }},
    {EntryKind::target_reached,
     [](BathState& bath, const Entry& entry) {
       bath.target_reached = entry.at;
       bath.gauge = entry.get<GaugePressure>(Field::gauge);
       if (bath.bubbling_ended < bath.target_reached) bath.bubbling_ended.reset();  // that was not at its target
     }},
    {EntryKind::bubbling_ended, [](BathState& bath, const Entry& entry) { bath.bubbling_ended = entry.at; }},
    {EntryKind::released, [](BathState& bath, const Entry& entry) { bath.released = entry.at; }},
});

constexpr auto resin_effects = std::to_array<Effect<ResinState>>({
    {EntryKind::resin_opened,
     [](ResinState& resin, const Entry& entry) {
       resin.opened = entry.at;
       resin.in_bottle = entry.get<Volume>(Field::volume);
     }},
    {EntryKind::resin_activated,
     [](ResinState& resin, const Entry& entry) {
       resin.activated = entry.at;
       resin.dye = entry.text(Field::dye);
       resin.activated_volume += volume_of(entry);
     }},
    {EntryKind::poured, [](ResinState& resin, const Entry& entry) { resin.poured += volume_of(entry); }},
    {EntryKind::strained_back,
     [](ResinState& resin, const Entry& entry) { resin.strained_back += volume_of(entry); }},
    {EntryKind::discarded, [](ResinState& resin, const Entry& entry) { resin.discarded += volume_of(entry); }},
});

template <class State>
void apply(std::span<const Effect<State>> effects, State& state, const Entry& entry) {
  const auto effect = std::ranges::find(effects, entry.kind, &Effect<State>::kind);
  if (effect != effects.end()) effect->take(state, entry);
}

std::optional<Refusal> refuse_more(const BathState& bath) {
  if (bath.under_vacuum()) return bath_refusal(bath, "is under vacuum: what goes in now would never be evacuated");
  if (bath.released)
    return bath_refusal(bath, fmt::format("is finished: give this one a new name, such as {}-2", bath.name));
  return std::nullopt;
}

std::optional<Refusal> refuse_vacuum(const BathState& bath) {
  if (bath.blanks.empty()) return bath_refusal(bath, "holds no blanks");
  if (bath.vacuum_on) return bath_refusal(bath, "was put under vacuum already");
  return std::nullopt;
}

}  // namespace

BathState after(BathState bath, const Entry& entry) {
  if (entry.text(Field::bath) == bath.name || holds(bath.blanks, entry.blank))
    bath.last_at = std::max(bath.last_at, entry.at);
  const bool moved =
      entry.kind == EntryKind::into_bath || entry.kind == EntryKind::out_of_bath || entry.kind == EntryKind::drained;
  if (moved && entry.blank) std::erase(bath.inside, *entry.blank);
  if (entry.kind == EntryKind::into_bath && entry.blank) std::erase(bath.last_bath_of, *entry.blank);
  if (entry.kind == EntryKind::witness_cut && holds(bath.last_bath_of, entry.blank)) {
    bath.cut.push_back({*entry.blank, cut_of(entry).through, entry.text(Field::reason)});
  }
  if (entry.text(Field::bath) != bath.name) return bath;
  apply<BathState>(bath_effects, bath, entry);
  return bath;
}

LoadState after(LoadState load, const Entry& entry) {
  const bool named = entry.text(Field::load) == load.name;
  if (named || holds(load.blanks, entry.blank) || holds(load.dried, entry.blank))
    load.last_at = std::max(load.last_at, entry.at);
  const bool goes_in = entry.kind == EntryKind::into_oven || entry.kind == EntryKind::into_drying;
  const bool comes_out = entry.kind == EntryKind::out_of_oven || entry.kind == EntryKind::out_of_drying;
  const bool was_inside = holds(load.inside, entry.blank);
  const bool leaves = comes_out || entry.kind == EntryKind::scrapped || (goes_in && !named);
  if (leaves && was_inside) {
    std::erase(load.inside, *entry.blank);
    load.last_out = std::max(load.last_out, std::optional{entry.at});
  }
  if (goes_in && named) {
    add_once(entry.kind == EntryKind::into_oven ? load.blanks : load.dried, entry.blank);
    add_once(load.inside, entry.blank);
    if (const std::string oven = entry.text(Field::oven); !oven.empty()) load.oven = oven;
    load.first_in = std::min(load.first_in.value_or(entry.at), entry.at);
  } else if (const auto seen = entry.get<Temperature>(Field::temperature); seen && named) {
    if (entry.kind == EntryKind::core_temperature) {
      load.core.push_back({entry.at, *seen, entry.measured_in()});
    } else {
      load.air.emplace_back(entry.at, *seen);
    }
  } else if (entry.kind == EntryKind::witness_cut && holds(load.blanks, entry.blank)) {
    load.cut.push_back({*entry.blank, cut_of(entry).hard, entry.text(Field::reason)});
  }
  return load;
}

ResinState after(ResinState resin, const Entry& entry) {
  if (entry.text(Field::resin) != resin.name) return resin;
  resin.last_at = std::max(resin.last_at, entry.at);
  apply<ResinState>(resin_effects, resin, entry);
  return resin;
}

std::optional<Refusal> refusal(const BathState& bath, const Entry& entry) {
  const std::string of = "bath " + bath.name;
  const bool names_it = entry.text(Field::bath) == bath.name;
  const bool comes_out = entry.kind == EntryKind::out_of_bath || entry.kind == EntryKind::drained;
  if (!names_it && !(comes_out && holds(bath.inside, entry.blank))) return std::nullopt;
  if (entry.kind == EntryKind::into_bath || entry.kind == EntryKind::poured) return refuse_more(bath);
  if (comes_out) {
    if (bath.under_vacuum()) return bath_refusal(bath, "is under vacuum");
    return lies_before(entry, of, {{bath.released, "its vacuum was released"}});
  }
  if (entry.kind == EntryKind::vacuum_on) {
    if (auto refused = refuse_vacuum(bath)) return refused;
    return lies_before(entry, of, {{bath.last_in, "what went into it last"}});
  }
  const bool is_of_its_vacuum = entry.kind == EntryKind::target_reached || entry.kind == EntryKind::bubbling_ended ||
                                entry.kind == EntryKind::released;
  if (!is_of_its_vacuum) return std::nullopt;
  if (!bath.under_vacuum()) return bath_refusal(bath, "is not under vacuum");
  if (entry.kind == EntryKind::bubbling_ended && !bath.target_reached)
    return bath_refusal(bath, "has not reached its vacuum");
  if (entry.kind == EntryKind::target_reached) {
    return lies_before(entry, of, {{bath.vacuum_on, "its vacuum was put on"}});
  }
  if (entry.kind == EntryKind::bubbling_ended) {
    return lies_before(entry, of, {{bath.target_reached, "its target was reached"}});
  }
  return lies_before(entry, of,
                     {{bath.vacuum_on, "its vacuum was put on"},
                      {bath.target_reached, "its target was reached"},
                      {bath.bubbling_ended, "its bubbling ended"}});
}

std::optional<Refusal> refusal(const LoadState& load, const Entry& entry) {
  const auto refused = [&](std::string_view what) {
    return Refusal{Refused::load_not_so, fmt::format("load {} {}", load.name, what)};
  };
  if (entry.text(Field::load) != load.name) return std::nullopt;
  if (entry.kind == EntryKind::into_oven && !load.dried.empty()) {
    return refused("dried wood; a load that cures has a name of its own");
  }
  if (entry.kind == EntryKind::into_drying && !load.blanks.empty()) {
    return refused("cures resin; a load that dries has a name of its own");
  }
  if (entry.kind == EntryKind::into_oven && load.last_out) {
    return refused("was taken out already; another filling of the oven has a name of its own");
  }
  if (entry.kind != EntryKind::core_temperature && entry.kind != EntryKind::oven_temperature) return std::nullopt;
  if (load.blanks.empty() && load.dried.empty()) return refused("holds no blanks");
  if (const auto in = entry.measured_in(); in && !holds(load.blanks, in) && !holds(load.dried, in)) {
    return refused(fmt::format("does not hold {}", in->shown()));
  }
  if (load.is_over() && entry.at > *load.last_out) return refused("was taken out before that");
  return lies_before(entry, "load " + load.name, {{load.first_in, "it went in"}});
}

std::optional<Refusal> refusal(const ResinState& resin, const Entry& entry) {
  const auto refused = [&](std::string_view what) {
    return Refusal{Refused::resin_not_so, fmt::format("resin {} {}", resin.name, what)};
  };
  if (entry.text(Field::resin) != resin.name) return std::nullopt;
  if (entry.kind == EntryKind::resin_opened) {
    if (resin.opened) return refused("was opened already");
    return std::nullopt;
  }
  if (!resin.opened) return refused("was never opened: enter that first");
  if (resin.in_bottle) {
    // Activator and dye add to it, and bottles are filled to more than their figure.
    const Volume at_most = 1.05 * *resin.in_bottle;
    const Volume gone = resin.poured + resin.discarded - resin.strained_back;
    const bool leaves = entry.kind == EntryKind::poured || entry.kind == EntryKind::discarded;
    if ((entry.kind == EntryKind::resin_activated && resin.activated_volume + volume_of(entry) > at_most) ||
        (leaves && gone + volume_of(entry) > at_most)) {
      return refused("does not hold that much");
    }
    if (entry.kind == EntryKind::strained_back && volume_of(entry) > resin.poured - resin.strained_back) {
      return refused("was not poured that much");
    }
  }
  return lies_before(entry, "resin " + resin.name, {{resin.opened, "it was opened"}});
}

}  // namespace blankwright
