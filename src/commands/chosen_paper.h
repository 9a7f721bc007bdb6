#pragma once

#include <optional>
#include <string>
#include <vector>

#include "commands/commands.h"
#include "commands/paper_in_hand.h"

namespace blankwright {

/// What of an order's paper is written, into which files, and what is told of it.
struct ChosenPaper {
  std::string traveller = "traveller";     ///< name of its file
  std::vector<TravellerPage> sheets;       ///< of the whole traveller
  std::optional<std::vector<bool>> pages;  ///< those of them that are written; all where it is none
  std::string tags = "tags";               ///< likewise; empty: no tags
  std::vector<BlankId> tagged;             ///< blanks that get none
  std::string told;                        ///< in lines
};

/// All of it where `in_hand` is null; otherwise what `--pages` or `--changed` asks for, by what was printed before. A
/// part never takes the whole traveller's file: "traveller-turner", "traveller-changed", "tags-new".
ChosenPaper chosen_paper(const Dossier& dossier, const CompileFlags& flags, const PaperInHand* in_hand);

/// Does all that `--changed` would look at say in hand what it says in the dossier?
bool is_in_hand(const Dossier& dossier, const CompileFlags& flags, const PaperInHand& in_hand);

}  // namespace blankwright
