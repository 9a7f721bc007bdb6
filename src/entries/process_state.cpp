#include "entries/process_state.h"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>

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
  switch (entry.kind) {
    case EntryKind::into_bath:
      add_once(bath.blanks, entry.blank);
      add_once(bath.inside, entry.blank);
      add_once(bath.last_bath_of, entry.blank);
      bath.last_in = std::max(bath.last_in, std::optional{entry.at});
      break;
    case EntryKind::poured:
      bath.poured[entry.text(Field::resin)] += volume_of(entry);
      bath.last_in = std::max(bath.last_in, std::optional{entry.at});
      break;
    case EntryKind::vacuum_on:
      bath.vacuum_on = entry.at;
      break;
    case EntryKind::target_reached:
      bath.target_reached = entry.at;
      bath.gauge = entry.get<GaugePressure>(Field::gauge);
      if (bath.bubbling_ended < bath.target_reached) bath.bubbling_ended.reset();  // that was not at its target
      break;
    case EntryKind::bubbling_ended:
      bath.bubbling_ended = entry.at;
      break;
    case EntryKind::released:
      bath.released = entry.at;
      break;
    default:
      break;
  }
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
  switch (entry.kind) {
    case EntryKind::resin_opened:
      resin.opened = entry.at;
      resin.in_bottle = entry.get<Volume>(Field::volume);
      break;
    case EntryKind::resin_activated:
      resin.activated = entry.at;
      resin.dye = entry.text(Field::dye);
      resin.activated_volume += volume_of(entry);
      break;
    case EntryKind::poured:
      resin.poured += volume_of(entry);
      break;
    case EntryKind::strained_back:
      resin.strained_back += volume_of(entry);
      break;
    case EntryKind::discarded:
      resin.discarded += volume_of(entry);
      break;
    default:
      break;
  }
  return resin;
}

std::optional<Refusal> refusal(const BathState& bath, const Entry& entry) {
  const std::string of = "bath " + bath.name;
  const bool names_it = entry.text(Field::bath) == bath.name;
  const bool comes_out = entry.kind == EntryKind::out_of_bath || entry.kind == EntryKind::drained;
  if (!names_it && !(comes_out && holds(bath.inside, entry.blank))) return std::nullopt;
  switch (entry.kind) {
    case EntryKind::into_bath:
    case EntryKind::poured:
      if (bath.under_vacuum())
        return bath_refusal(bath, "is under vacuum: what goes in now would never be evacuated");
      if (bath.released) return bath_refusal(bath, "was run already; a bath with other blanks has a name of its own");
      return std::nullopt;
    case EntryKind::vacuum_on:
      if (bath.blanks.empty()) return bath_refusal(bath, "holds no blanks");
      if (bath.vacuum_on) return bath_refusal(bath, "was put under vacuum already");
      return lies_before(entry, of, {{bath.last_in, "what went into it last"}});
    case EntryKind::target_reached:
      if (!bath.under_vacuum()) return bath_refusal(bath, "is not under vacuum");
      return lies_before(entry, of, {{bath.vacuum_on, "its vacuum was put on"}});
    case EntryKind::bubbling_ended:
      if (!bath.under_vacuum()) return bath_refusal(bath, "is not under vacuum");
      if (!bath.target_reached) return bath_refusal(bath, "has not reached its vacuum");
      return lies_before(entry, of, {{bath.target_reached, "its target was reached"}});
    case EntryKind::released:
      if (!bath.under_vacuum()) return bath_refusal(bath, "is not under vacuum");
      return lies_before(entry, of,
                         {{bath.vacuum_on, "its vacuum was put on"},
                          {bath.target_reached, "its target was reached"},
                          {bath.bubbling_ended, "its bubbling ended"}});
    case EntryKind::out_of_bath:
    case EntryKind::drained:
      if (bath.under_vacuum()) return bath_refusal(bath, "is under vacuum");
      return lies_before(entry, of, {{bath.released, "its vacuum was released"}});
    default:
      return std::nullopt;
  }
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
