#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>

#include "diagnose/place.h"

namespace blankwright {

/// Labels of figures in place of the English ones, by the figure's path in plan.json; planning knows which there are.
struct LabelTable {
  std::map<std::string, Given<std::string>, std::less<>> labels;

  /// The label of the figure with that path, which is called so in English.
  std::string of(std::string_view path, std::string_view english) const {
    const auto own = labels.find(path);
    return own == labels.end() ? std::string{english} : own->second.value;
  }
};

}  // namespace blankwright
