#pragma once

#include <string>
#include <vector>

#include "read/shape.h"

namespace blankwright {

/// A JSON Schema (draft 2020-12) of a file with these keys. Dates are TOML dates, which tools hand on as text.
std::string schema_json(const std::string& title, const std::vector<KeyInfo>& keys);

/// The keys as a Markdown table, a row a key, tables below their own headings.
std::string key_table(const std::vector<KeyInfo>& keys);

}  // namespace blankwright
