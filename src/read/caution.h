#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/place.h"

namespace blankwright {

/// Every caution by its key in a template's [cautions], with when it is printed, in the order of the work. The
/// English is in templates/standard.toml. One list, so that enumeration and keys cannot part.
// clang-format off
#define BW_CAUTIONS(caution) \
  caution(sawing, "where blanks are sawn or squared") \
  caution(drying_oven, "where wood is dried in an oven") \
  caution(dry_before_resin, "where dried wood goes into resin") \
  caution(resin, "where resin is drawn in") \
  caution(activator, "where the resin is activated by the shop") \
  caution(vacuum_vessel, "where a vessel is evacuated") \
  caution(vacuum_pump, "where a pump draws over resin") \
  caution(curing_oven, "where resin is cured in an oven") \
  caution(exotherm, "where resin is cured in an oven") \
  caution(drilling, "always: every blank is bored") \
  caution(glue, "where stud or ferrule is glued") \
  caution(check_blank, "always: every blank is turned") \
  caution(speed, "always: every blank is turned") \
  caution(threaded_mount, "always: every blank is turned on its stud") \
  caution(dust, "always: every blank is turned") \
  caution(decayed_wood, "where the wood is spalted or punky") \
  caution(uncured, "where resin is drawn in") \
  caution(finish, "where a finish is named") \
  caution(food, "where resin is drawn in") \
  caution(untested_stud, "where no pulled witness stands behind the bond's strength")
// clang-format on

enum class Caution {
#define BW_ENUMERATOR(name, says) name,
  BW_CAUTIONS(BW_ENUMERATOR)
#undef BW_ENUMERATOR
};

struct CautionKey {
  std::string_view name, says;
};

inline constexpr auto caution_keys = std::to_array<CautionKey>({
#define BW_KEY(name, says) {#name, says},
    BW_CAUTIONS(BW_KEY)
#undef BW_KEY
});

/// The cautions of one language, and what a shop adds of its own.
struct CautionTable {
  std::array<std::string, caution_keys.size()> texts;
  std::vector<Given<std::string>> more;
  const std::string& operator[](Caution caution) const { return texts.at(static_cast<std::size_t>(caution)); }
};

}  // namespace blankwright
