#pragma once

#include <string>
#include <vector>

#include "diagnose/diagnostics.h"
#include "read/labels.h"

namespace blankwright {

/// Refuses labels of what is no figure.
void check_labels(const LabelTable& labels, Diagnostics& out);
/// Refuses texts in place of what is no source of a figure, of a standard value or of a table, whose are given.
void check_sources(const LabelTable& sources, std::vector<std::string> of_tables, Diagnostics& out);

/// Refuses names in place of what is none of those that are known.
void check_names(const LabelTable& names, const std::vector<std::string>& known, Diagnostics& out);

}  // namespace blankwright
