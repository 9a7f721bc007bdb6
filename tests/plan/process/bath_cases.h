#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include <doctest/doctest.h>

#include "plan/process/bath.h"
#include "planning.h"
#include "random_numbers.h"

namespace blankwright {

inline VesselFacts pot(Length diameter, Length height) {
  VesselFacts v;
  v.name = given(std::string{"Pot"});
  v.diameter = given(diameter);
  v.height = given(height);
  v.usable_height = given(height);
  return v;
}

inline VesselFacts trough(Length width, Length depth, Length height) {
  VesselFacts v = pot(width, height);
  v.shape = given(VesselShape::rectangular);
  v.diameter.reset();
  v.width = given(width);
  v.depth = given(depth);
  return v;
}

/// What one bath is made of; `input` refers to its neighbours.
struct BathCase {
  VesselFacts vessel;
  BathFacts facts;
  ResinFacts resin;
  std::vector<BathBlanks> blanks;
  Volume on_hand{};

  BathInput input() const {
    return {.vessel = vessel, .facts = facts, .resin = resin, .blanks = blanks, .on_hand = on_hand};
  }
  std::optional<Bath> filled() const {
    const auto worked = bath(input());
    return worked ? std::optional{worked->value} : std::nullopt;
  }
  int count() const {
    int n = 0;
    for (const BathBlanks& b : blanks) n += b.count;
    return n;
  }
  Volume solids() const {
    Volume sum{};
    for (const BathBlanks& b : blanks) sum += b.count * (b.section * b.section * b.length);
    return sum;
  }
};

inline BathBlanks random_blanks(RandomNumbers& random, Density resin) {
  BathBlanks b;
  b.count = random.whole(1, 9);
  b.section = random.between(15, 60) * mm;
  b.length = random.between(40, 220) * mm;
  const Volume volume = b.section * b.section * b.length;
  b.dry_mass = random.between(0.2, 1.2) * (gram / cm3) * volume;
  b.resin_high = random.between(0, 0.8) * (resin * volume);
  b.resin_low = random.share() * b.resin_high;
  return b;
}

/// Any bath, sensible or not: kinds of blanks, vessel, gaps, filler, rod.
inline BathCase random_bath(RandomNumbers& random) {
  BathCase c;
  const Length height = random.between(100, 700) * mm;
  c.vessel = random.yes() ? pot(random.between(60, 400) * mm, height)
                          : trough(random.between(60, 500) * mm, random.between(60, 500) * mm, height);
  if (random.yes()) c.vessel.usable_height->value = random.between(0.4, 1) * height;
  if (random.yes()) c.vessel.piercing = given(random.between(2, 40) * mm);
  c.facts.cover = given(random.between(0, 40) * mm);
  c.facts.gap = given(random.between(0, 12) * mm);
  c.facts.ballast_density = given(random.between(2200, 8000) * kilogram_per_m3);
  c.facts.ballast_reserve = given(random.between(0, 100) * percent);
  if (random.yes()) c.facts.filler = given(random.between(0, 6) * litre);
  c.resin.density = given(random.between(850, 1250) * kilogram_per_m3);
  c.resin.activator = given(random.between(0, 5) * percent);
  c.resin.film = given(random.between(0, 0.4) * mm);
  const int kinds = random.whole(1, 3);
  for (int i = 0; i < kinds; ++i) c.blanks.push_back(random_blanks(random, c.resin.density.value));
  if (random.yes()) c.on_hand = random.between(0, 8) * litre;
  return c;
}

}  // namespace blankwright
