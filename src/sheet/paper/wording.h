#pragma once

#include "diagnose/saying.h"
#include "read/template.h"

namespace blankwright {

/// What gates say in a template's words, with moments as paper has them. The template has to outlive it.
Wording wording_of(const Template& sheet_template);
Wording wording_of(const Template&& sheet_template) = delete;

}  // namespace blankwright
