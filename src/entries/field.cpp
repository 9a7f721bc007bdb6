#include "entries/field.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace blankwright {
namespace {

constexpr std::array<std::string_view, 2> roles{"piece", "witness"};
constexpr std::array<std::string_view, 3> verdicts{"go-on", "fill", "scrap"};
constexpr std::array<std::string_view, 2> results{"pass", "fail"};
constexpr std::array<std::string_view, 2> yes_or_no{"yes", "no"};

constexpr std::array fields{
    FieldFacts{Field::order, "order", {}, {}, true, "an order's id"},
    FieldFacts{Field::bath, "bath", {}, {}, true, "one filling of the vessel, as the shop names it"},
    FieldFacts{Field::load, "load", {}, {}, true, "one filling of the oven, as the shop names it"},
    FieldFacts{Field::board, "board", {}, {}, true, "a board, as the shop names it"},
    FieldFacts{Field::resin, "resin", {}, {}, true, "a lot of resin, as the shop names it"},
    FieldFacts{Field::species, "species", {}, {}, false, "the wood's species"},
    FieldFacts{Field::dye, "dye", {}, {}, false, "the dye in the resin"},
    FieldFacts{Field::mass, "mass", Kind::mass, {}, false, "what the scale shows, tag and wire on it"},
    FieldFacts{Field::tare, "tare", Kind::mass, {}, false, "of this, tag and wire"},
    FieldFacts{Field::width, "width", Kind::length, {}, false, "across, between faces 1 and 3"},
    FieldFacts{Field::depth, "depth", Kind::length, {}, false, "across, between faces 2 and 4"},
    FieldFacts{Field::length, "length", Kind::length, {}, false, "along the grain"},
    FieldFacts{Field::moisture, "moisture", Kind::share, {}, false, "of the oven-dry mass"},
    FieldFacts{Field::volume, "volume", Kind::volume, {}, false, "of resin"},
    FieldFacts{Field::gauge, "gauge", Kind::gauge_pressure, {}, false, "what the vacuum gauge reads"},
    FieldFacts{Field::temperature,
               "temperature",
               Kind::temperature,
               {},
               false,
               "in the core of a blank, or of the oven's air"},
    FieldFacts{Field::force, "force", Kind::force, {}, false, "at which the stud came out or the wood gave way"},
    FieldFacts{Field::face_1, "face_1", Kind::length, {}, false, "rod's centre to face 1, at the seat"},
    FieldFacts{Field::face_2, "face_2", Kind::length, {}, false, "rod's centre to face 2, at the seat"},
    FieldFacts{Field::face_3, "face_3", Kind::length, {}, false, "rod's centre to face 3, at the seat"},
    FieldFacts{Field::face_4, "face_4", Kind::length, {}, false, "rod's centre to face 4, at the seat"},
    FieldFacts{Field::lean_1, "lean_1", Kind::length, {}, false, "rod's lean towards face 1 over that length"},
    FieldFacts{Field::lean_2, "lean_2", Kind::length, {}, false, "rod's lean towards face 2 over that length"},
    FieldFacts{Field::over, "over", Kind::length, {}, false, "length of the rod over which it leans"},
    FieldFacts{Field::diameter, "diameter", Kind::length, {}, false, "of the bore"},
    FieldFacts{Field::projection, "projection", Kind::length, {}, false, "of the stud from the seat"},
    FieldFacts{Field::squareness, "squareness", Kind::length, {}, false, "of the seat: largest gap under a square"},
    FieldFacts{Field::role, "role", {}, roles, false, "a piece, or a witness that is only cut open"},
    FieldFacts{Field::filled, "filled", {}, yes_or_no, false, "resin to the middle, seen on the cut: of its bath"},
    FieldFacts{Field::hard, "hard", {}, yes_or_no, false, "hard to the middle, felt on the cut: of its load"},
    FieldFacts{Field::verdict, "verdict", {}, verdicts, false, "what becomes of the blank"},
    FieldFacts{Field::result, "result", {}, results, false, "of the inspection"},
    FieldFacts{Field::thread, "thread", {}, results, false, "the thread gauge's answer"},
    FieldFacts{Field::reason, "reason", {}, {}, false, "why"},
    FieldFacts{Field::remark, "remark", {}, {}, false, "anything worth keeping"},
};

}  // namespace

std::span<const FieldFacts> field_list() { return fields; }

const FieldFacts& facts_of(Field field) { return fields.at(static_cast<std::size_t>(field)); }

const FieldFacts* find_field(std::string_view name) {
  const auto* const found = std::ranges::find(fields, name, &FieldFacts::name);
  return found == fields.end() ? nullptr : found;
}

}  // namespace blankwright
