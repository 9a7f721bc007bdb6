#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace blankwright {

/// How many characters have to be put in, left out or exchanged to turn `a` into `b`; a–z and A–Z count as alike.
/// Works on bytes: meant for keys and names in ASCII. Source: Levenshtein, Soviet Physics Doklady 10 (1966) 707.
std::size_t edit_distance(std::string_view a, std::string_view b);

/// The names that somebody may have meant by `typed`: at most `most` of them, the nearest first, alike ones in the
/// order given. Empty when none is near: a third of the letters wrong, and two at least, still counts as near.
std::vector<std::string> nearest_names(std::string_view typed, std::span<const std::string> known, std::size_t most);

}  // namespace blankwright
