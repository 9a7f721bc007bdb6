#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>

#include "diagnose/sentence.h"

namespace blankwright {

/// Sentences of the catalogue in one language, by their codes; those that it has not are the English.
struct SentenceTable {
  std::map<std::string, std::string, std::less<>> texts;

  std::string_view of(const SentenceRow& row) const {
    const auto own = texts.find(row.name);
    return own == texts.end() ? row.words : std::string_view{own->second};
  }
};

}  // namespace blankwright
