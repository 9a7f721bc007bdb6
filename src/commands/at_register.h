#pragma once

#include <optional>
#include <string>

#include "commands/inputs.h"
#include "commands/surroundings.h"
#include "register/register.h"

namespace blankwright {

/// The shop and its register, for commands that work on blanks and need no job file.
struct AtRegister {
  RegisterPlace register_place;
  ShopInputs inputs;
  Register known;
  UnitSystem units() const { return inputs.shop.units.value; }
  const Zone& zone() const { return inputs.shop.zone.value; }
};

/// What time it is for what is entered into that register.
Instant now_at(Register& known, const Surroundings& around);

/// Is a register's series the one that the shop file names, if it names one? Says so where it is not.
bool is_named_series(const BlankId& series, const Shop& shop, Diagnostics& out);

enum class OpenTo { read, write };

/// Opens the register beside the shop file, "shop.toml" in the present folder unless `shop` names another one. What
/// is wrong with the shop file, or that there is no register yet, is told; then there is none.
std::optional<AtRegister> at_register(const std::string& shop, Surroundings& around, OpenTo what);

/// The moment that `--at` names (see read_moment()), or now; none, with a word, where it names none.
std::optional<Instant> moment_asked(const std::string& at, const Zone& zone, NamedFrom::Days days,
                                    Surroundings& around);
/// What `--at` takes, for help; `days` is which day a weekday's name means.
std::string moment_help(NamedFrom::Days days);

}  // namespace blankwright
