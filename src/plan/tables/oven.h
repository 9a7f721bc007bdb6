#pragma once

namespace blankwright {

/// How well an oven's air warms what lies in it, radiation included, W/(m² K).
struct FilmCoefficient {
  double likely, cautious;
};

/// Still air 10, cautiously 5; moved by a fan 20, cautiously 15. Common practice, no source: of household ovens 5 to
/// 10 and 15 to 30. They lie within the ranges of Incropera et al., table 1.1: free convection of gases 2 to 25,
/// forced 25 to 250 (from memory), a fan oven at its lower end. The spread matters more than any property of the
/// wood: a measured core time goes before it.
FilmCoefficient film_coefficient(bool fan);

}  // namespace blankwright
