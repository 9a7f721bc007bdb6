#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "entries/blank_id.h"
#include "read/template.h"
#include "sheet/mark/qr.h"

namespace blankwright {

/// How the codes of a template are made. All of them say equally much, so that one form fits every ID.
struct CodeForm {
  QrLevel level = QrLevel::high;
  int version = 1;
};

/// Where a code stands on paper.
struct CodePlace {
  CodeForm form;
  QrPlacing place;
};

/// What the code of a blank says: its ID, or the template's address with the ID, grouped, behind it.
std::string code_text(const Template& t, const BlankId& id);

/// The forms that a template's codes may have, the one that bears the most damage first: for a bare ID version 2 and
/// version 1, both at level H; for an address the smallest version at level H, Q and M. None where an address is too
/// long even for that.
std::vector<CodeForm> code_forms(const Template& t);

/// The first of the forms that finds room, with modules of at least four printer dots.
std::optional<CodePlace> placed_code(std::span<const CodeForm> forms, const Box& room);

/// The symbol of a blank's code at its place.
Matrix code_matrix(const Template& t, const BlankId& id, const CodePlace& place);

}  // namespace blankwright
