#pragma once

#include <optional>
#include <string>
#include <vector>

#include "commands/at_register.h"
#include "write/answer_text.h"

namespace blankwright {

/// A question being answered.
struct Asked {
  AtRegister& at;
  const std::string& name;  ///< of what is asked about; empty where that is the whole shop
  Instant now;
  std::string mass(const std::optional<Mass>& value) const;
  std::string length(Length value) const;
  std::string when(const std::optional<Instant>& value) const;
};

/// None, with a word in `wrong`, where what was named is not there.
using Answered = std::optional<Answer>;

/// A table of blanks, a row each.
Answer table_of(const Asked& asked, const std::vector<KnownBlank>& blanks);
/// The rows of blanks that were named in entries.
std::vector<KnownBlank> rows_of(Asked& asked, const std::vector<BlankId>& ids);
std::string percent_text(double part);

Answered about_blank(Asked& asked, std::string& wrong);
Answered about_order(Asked& asked, std::string& wrong);
Answered about_board(Asked& asked, std::string& wrong);

Answered about_bath(Asked& asked, std::string& wrong);
Answered about_load(Asked& asked, std::string& wrong);
Answered about_resin(Asked& asked, std::string& wrong);

Answered about_stock(Asked& asked, std::string& wrong);
Answered about_under_way(Asked& asked, std::string& wrong);
Answered about_yield(Asked& asked, std::string& wrong);
Answered about_uptake(Asked& asked, std::string& wrong);
Answered about_axis(Asked& asked, std::string& wrong);

}  // namespace blankwright
