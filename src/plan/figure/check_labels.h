#pragma once

#include "diagnose/diagnostics.h"
#include "read/labels.h"

namespace blankwright {

/// Refuses labels of what is no figure.
void check_labels(const LabelTable& labels, Diagnostics& out);

}  // namespace blankwright
