#pragma once

#include <map>
#include <set>
#include <string>

#include "entries/blank_state.h"
#include "entries/process_state.h"
#include "register/register.h"

namespace blankwright {

/// The states of blanks, baths, loads and lots while entries are added: each is folded from the register once and
/// then carried on, so that the time for a table grows with its rows and not with their square.
class States {
 public:
  explicit States(Register& known) : known_{known} {}
  /// Precondition: the blank was issued.
  const BlankState& blank(const BlankId& id);
  const BathState& of(const BathState&, const std::string& name);
  const LoadState& of(const LoadState&, const std::string& name);
  const ResinState& of(const ResinState&, const std::string& name);
  /// Does an entry tell of what happened after all that is known of its blank, bath, load and lot?
  bool is_last(const Entry& entry);
  /// Carries on what an entry concerns that the register has just taken; what it stands in the middle of is folded
  /// again when it is asked for.
  void add(const Entry& entry, bool is_last);
  /// The blanks of which something was added.
  const std::map<std::string, BlankId>& changed() const { return changed_; }

 private:
  Register& known_;
  std::map<std::string, BlankState> blanks_;  // by the ID
  std::map<std::string, BathState> baths_;
  std::map<std::string, LoadState> loads_;
  std::map<std::string, ResinState> resins_;
  std::map<std::string, std::set<std::string>> baths_of_, loads_of_;  // of those above that a blank was ever in
  std::map<std::string, BlankId> changed_;
};

}  // namespace blankwright
