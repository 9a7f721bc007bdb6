#pragma once

#include <optional>
#include <span>
#include <string_view>

#include "entries/field.h"

namespace blankwright {

/// What an entry says has happened.
enum class EntryKind {
  issued,
  board,
  sawn,
  measured,
  weighed,
  moisture,
  into_drying,
  out_of_drying,
  sealed,
  opened,
  resin_opened,
  resin_activated,
  poured,
  strained_back,
  discarded,
  into_bath,
  vacuum_on,
  target_reached,
  bubbling_ended,
  released,
  out_of_bath,
  drained,
  into_oven,
  core_temperature,
  oven_temperature,
  out_of_oven,
  graded,
  filled,
  squared,
  bored,
  glued,
  stud_measured,
  turned,
  inspected,
  promised,
  sent,
  witness_cut,
  stud_pulled,
  scrapped,
  withdrawn,
  done,
  corrected,
};

struct FieldUse {
  Field field;
  bool needed;
  std::optional<Range> range{};  ///< where a kind's figures lie otherwise than the field's usually do
};
/// The field as that kind uses it.
FieldFacts facts_of(const FieldUse& use);

struct KindFacts {
  EntryKind kind;
  std::string_view name;  ///< in commands, CSV, register and export
  /// What the sheet of action codes prints and a scanner types: an X, two symbols, and a third by which every two
  /// codes differ in at least two places; symbols that no keyboard layout moves. Four are never a blank's ID, which
  /// has seven. Empty for what nobody enters at the bench.
  std::string_view code;
  bool of_blank;                     ///< is said of a blank
  std::span<const FieldUse> fields;  ///< what it says besides, the needed ones first
  std::string_view says;             ///< in help: "it went into a bath"
};

/// What the bench takes for "the last entry back". Made like the codes of the kinds, and none of them.
inline constexpr std::string_view undo_code = "XNDT";

/// All kinds, in the order of EntryKind. The one list behind command, CSV, bench, printed codes and help.
std::span<const KindFacts> kind_list();
const KindFacts& facts_of(EntryKind kind);
inline std::string_view name_of(EntryKind kind) { return facts_of(kind).name; }
/// The kind of that name, if there is one.
const KindFacts* find_kind(std::string_view name);
/// The kind with that action code, if there is one. Case does not matter.
const KindFacts* find_code(std::string_view code);

}  // namespace blankwright
