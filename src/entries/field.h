#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "measure/quantity_text.h"

namespace blankwright {

/// What an entry can say besides its kind, its blank, its time and its person. The order is that of columns.
enum class Field {
  order,
  bath,
  load,
  board,
  resin,
  vessel,
  oven,
  operation,
  in_blank,
  species,
  dye,
  mass,
  tare,
  width,
  depth,
  length,
  moisture,
  volume,
  gauge,
  temperature,
  force,
  face_1,
  face_2,
  face_3,
  face_4,
  lean_1,
  lean_2,
  over,
  diameter,
  projection,
  squareness,
  role,
  filled,
  hard,
  verdict,
  result,
  thread,
  reason,
  remark,
};

/// What a figure can be, in SI units of its kind (kelvin for a temperature, 0.08 for 8 %).
struct Range {
  double least = 0, most = 0;
  constexpr bool holds(double si) const { return si >= least && si <= most; }  ///< never a NaN
};

template <class Q>
constexpr Range range_of(Q least, Q most) {
  return {KindOf<Q>::to_si(least), KindOf<Q>::to_si(most)};
}

/// What a text can be.
enum class TextForm {
  any,       ///< a line
  name,      ///< of a thing (bath, load, …): 1 to 40 of A-Z a-z 0-9 . _ -
  blank_id,  ///< kept as BlankId::encoded()
};

struct FieldFacts {
  Field field;
  std::string_view name;                    ///< in commands, CSV, register and export
  std::optional<Kind> kind;                 ///< of a quantity; none for a text
  Range range;                              ///< of a quantity; a figure outside is refused wherever it comes from
  std::span<const std::string_view> words;  ///< the only texts that it may hold; empty: any
  TextForm form;                            ///< of a text without such words
  std::string_view says;                    ///< in help
  std::string_view such_as{};               ///< of a quantity: one that could be typed
};

/// A text that stands beside the fields of an entry: who enters it, why it was overridden.
constexpr FieldFacts text_beside_fields(std::string_view name) {
  return {Field::remark, name, {}, {}, {}, TextForm::any, {}};
}

/// All fields, in the order of Field. The one list behind command, CSV, bench, export and the register's columns.
std::span<const FieldFacts> field_list();
const FieldFacts& facts_of(Field field);
/// The field of that name, if there is one.
const FieldFacts* find_field(std::string_view name);

}  // namespace blankwright
