#pragma once

#include <string>
#include <string_view>

#include "commands/commands.h"
#include "commands/paper_in_hand.h"

namespace blankwright {

/// What a compile prints of an order, and how, as far as it cannot be seen from texts and entries.
struct PaperRecord {
  bool tags = true;
  bool replace = false;     ///< `--replace`
  std::string used_places;  ///< as `--used-places` has them
  std::string pages{all};   ///< of the traveller: those words, or as `--pages` names them

  static constexpr std::string_view all = "all", none = "none", changed = "changed";
  bool is_part() const { return pages != all && pages != none && pages != changed; }
  bool operator==(const PaperRecord&) const = default;
};
/// `in_hand`: what was printed before, where only a part of the paper is asked for; otherwise null.
PaperRecord paper_record(const CompileFlags& flags, const PaperInHand* in_hand);
/// The flags that print the same again; what is asked for besides narrows it.
CompileFlags flags_of(const PaperRecord& record, CompileFlags asked);

/// As a line that is kept behind the plan of a print (register/print_rows.h); nothing where all is printed.
std::string kept_record(const PaperRecord& record);
/// Reads it back from such a plan; all where there is no such line.
PaperRecord read_record(std::string_view plan);

}  // namespace blankwright
