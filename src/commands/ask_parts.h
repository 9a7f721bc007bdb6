#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "commands/at_register.h"
#include "write/answer_text.h"

namespace blankwright {

class Gates;

/// A question being answered.
struct Asked {
  AtRegister& at;
  const std::string& name;  ///< of what is asked about; empty where that is the whole shop
  Instant now;
  Instant day;  ///< a moment of the day that is asked about
  const Surroundings& around;
  std::string mass(const std::optional<Mass>& value) const;
  std::string length(Length value) const;
  std::string when(const std::optional<Instant>& value) const;
};

/// None, with a word in `wrong`, where what was named is not there.
using Answered = std::optional<Answer>;

/// The entries that tell of blanks in a table.
using EntryOfBlank = std::map<BlankId, EntryNumber>;

/// A table of blanks, a row each: ID, order that it is meant for, whether it is a witness, stage and place, then the
/// columns named (board, bath, load, dry, wet, cured, since), then the blanks' entries where there are any.
Answer table_of(const Asked& asked, const std::vector<KnownBlank>& blanks, std::span<const std::string_view> columns,
                const EntryOfBlank& entries = {});
/// What a table of blanks anywhere in the shop tells of them.
std::span<const std::string_view> all_columns();
/// The rows of blanks that were named in entries.
std::vector<KnownBlank> rows_of(Asked& asked, const std::vector<BlankId>& ids);
/// The last entry of a kind that each blank has among those.
EntryOfBlank entries_of_kind(std::span<const Entry* const> entries, EntryKind kind);

/// Client, item and due date of an order, by its job as it was last compiled; nothing where that cannot be read any
/// more.
void tell_client(Asked& asked, const std::string& order, Answer& answer);
/// The same in a line an order, for the orders that blanks are meant for.
void tell_clients(Asked& asked, std::span<const KnownBlank> blanks, Answer& answer);

/// Entries with what they say and whether they hold, a row each.
Answer history(Asked& asked, Gates& gates, const std::vector<Entry>& entries);

std::string percent_text(double part);

Answered about_blank(Asked& asked, std::string& wrong);
Answered about_order(Asked& asked, std::string& wrong);
Answered about_board(Asked& asked, std::string& wrong);
Answered about_page(Asked& asked, std::string& wrong);

Answered about_bath(Asked& asked, std::string& wrong);
Answered about_load(Asked& asked, std::string& wrong);
Answered about_resin(Asked& asked, std::string& wrong);

Answered about_daybook(Asked& asked, std::string& wrong);
Answered about_material(Asked& asked, std::string& wrong);
Answered about_stock(Asked& asked, std::string& wrong);
Answered about_under_way(Asked& asked, std::string& wrong);
Answered about_yield(Asked& asked, std::string& wrong);
Answered about_uptake(Asked& asked, std::string& wrong);
Answered about_axis(Asked& asked, std::string& wrong);

}  // namespace blankwright
