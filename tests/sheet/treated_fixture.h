#pragma once

// An order whose blanks go through bath and oven, as texts that a user writes. Shop, client and resin are invented.

#include <fmt/format.h>

#include <string>

namespace blankwright {

/// What a test varies.
struct Treated {
  bool inches = false;
  bool treated = true;
  std::string more = {};  ///< tables besides
};

inline std::string treated_job(const Treated& t = {}) {
  return fmt::format(
      "format = 1\nid = \"SP-7\"\nclient = \"Nobody in Particular\"\nitem = \"awl handle\"\nquantity = 6\n"
      "finish = \"oil\"\n[handle]\nstations = [{{at = \"0 mm\", diameter = \"26 mm\"}}, "
      "{{at = \"60 mm\", diameter = \"34 mm\"}}, {{at = \"108 mm\", diameter = \"24 mm\"}}]\n"
      "[stud]\nthread = \"M8\"\nenters = \"14 mm\"\n[wood]\nspecies = \"European beech\"\ncondition = \"spalted\"\n"
      "moisture = \"9 %\"\nmatched = true\nvoids = \"none\"\n{}{}",
      t.treated ? "[treatment]\nresin = \"Clear Q\"\nwitness = true\n" : "", t.more);
}

inline std::string treated_shop(const Treated& t = {}) {
  return fmt::format(
      "format = 1\nname = \"Reckoning Bench\"\nzone = \"Europe/Berlin\"\nunits = \"{}\"\n[hours]\n"
      "monday = [\"08:00-17:00\"]\ntuesday = [\"08:00-17:00\"]\n[glue]\nleast_edge = \"150 %\"\n[yield]\n"
      "expected = \"17 of 20\"\n"
      "[[vessels]]\nname = \"pot\"\ndiameter = \"220 mm\"\nheight = \"400 mm\"\nusable_height = \"230 mm\"\n"
      "[[resins]]\nname = \"Clear Q\"\ndensity = \"1.04 g/cm3\"\nactivator = \"1 %\"\ncure_air = \"93 °C\"\n"
      "cure_core = \"85 °C\"\ncure_hold = \"1 h\"\nbleed_out = \"4 %\"\n"
      "[[ovens]]\nname = \"oven\"\nwidth = \"420 mm\"\ndepth = \"380 mm\"\nheight = \"300 mm\"\n"
      "calibration = [{{dial = \"80 °C\", shown = \"78 °C\"}}, {{dial = \"110 °C\", shown = \"107 °C\"}}]\n"
      "[[routing]]\nname = \"Turn\"\nwho = \"turner\"\nper_piece = \"30 min\"\n",
      t.inches ? "inch" : "metric");
}

}  // namespace blankwright
