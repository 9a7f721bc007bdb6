#include "entries/process_state.h"

#include <fmt/format.h>

#include <algorithm>

namespace blankwright {
namespace {

void add_once(std::vector<BlankId>& blanks, const std::optional<BlankId>& blank) {
  if (blank && std::ranges::find(blanks, *blank) == blanks.end()) blanks.push_back(*blank);
}

Refusal bath_refusal(const BathState& bath, std::string_view what) {
  return {Refused::bath_not_so, fmt::format("bath {} {}", bath.name, what)};
}

Volume volume_of(const Entry& entry) { return entry.get<Volume>(Field::volume).value_or(Volume{}); }

}  // namespace

BathState after(BathState bath, const Entry& entry) {
  if (entry.text(Field::bath) != bath.name) return bath;
  switch (entry.kind) {
    case EntryKind::into_bath:
      add_once(bath.blanks, entry.blank);
      break;
    case EntryKind::poured:
      bath.poured[entry.text(Field::resin)] += volume_of(entry);
      break;
    case EntryKind::vacuum_on:
      bath.vacuum_on = entry.at;
      break;
    case EntryKind::target_reached:
      bath.target_reached = entry.at;
      bath.gauge = entry.get<GaugePressure>(Field::gauge);
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
  if (entry.kind == EntryKind::into_oven && named) {
    add_once(load.blanks, entry.blank);
    if (!load.first_in) load.first_in = entry.at;
  } else if (entry.kind == EntryKind::core_temperature && named) {
    if (const auto seen = entry.get<Temperature>(Field::temperature)) load.core.emplace_back(entry.at, *seen);
  } else if (entry.kind == EntryKind::out_of_oven && entry.blank &&
             std::ranges::find(load.blanks, *entry.blank) != load.blanks.end()) {
    load.last_out = entry.at;
  }
  return load;
}

ResinState after(ResinState resin, const Entry& entry) {
  if (entry.text(Field::resin) != resin.name) return resin;
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
      return std::nullopt;
    case EntryKind::target_reached:
      if (!bath.under_vacuum()) return bath_refusal(bath, "is not under vacuum");
      return std::nullopt;
    case EntryKind::bubbling_ended:
      if (!bath.under_vacuum()) return bath_refusal(bath, "is not under vacuum");
      if (!bath.target_reached) return bath_refusal(bath, "has not reached its vacuum");
      return std::nullopt;
    case EntryKind::released:
      if (!bath.under_vacuum()) return bath_refusal(bath, "is not under vacuum");
      return std::nullopt;
    case EntryKind::out_of_bath:
    case EntryKind::drained:
      if (bath.under_vacuum()) return bath_refusal(bath, "is under vacuum");
      return std::nullopt;
    default:
      return std::nullopt;
  }
}

std::optional<Refusal> refusal(const LoadState& load, const Entry& entry) {
  const auto refused = [&](std::string_view what) {
    return Refusal{Refused::load_not_so, fmt::format("load {} {}", load.name, what)};
  };
  if (entry.kind == EntryKind::into_oven && load.last_out) {
    return refused("was taken out already; another filling of the oven has a name of its own");
  }
  if (entry.kind == EntryKind::core_temperature && load.blanks.empty()) return refused("holds no blanks");
  return std::nullopt;
}

std::optional<Refusal> refusal(const ResinState& resin, const Entry& entry) {
  const auto refused = [&](std::string_view what) {
    return Refusal{Refused::resin_not_so, fmt::format("resin {} {}", resin.name, what)};
  };
  if (entry.kind == EntryKind::resin_opened) {
    if (resin.opened) return refused("was opened already");
    return std::nullopt;
  }
  if (!resin.opened) return refused("was never opened: enter that first");
  if (resin.in_bottle && entry.kind == EntryKind::resin_activated &&
      resin.activated_volume + volume_of(entry) > *resin.in_bottle + 0.05 * *resin.in_bottle) {
    return refused("does not hold that much");
  }
  return std::nullopt;
}

}  // namespace blankwright
