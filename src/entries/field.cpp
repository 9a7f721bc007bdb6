#include "entries/field.h"

#include <algorithm>
#include <array>
#include <cstddef>

#include "entries/outcome.h"

namespace blankwright {
namespace {

constexpr std::array<std::string_view, 2> roles{"piece", "witness"};
constexpr std::array<std::string_view, 2> yes_or_no{"yes", "no"};

constexpr GaugePressure air{};  // where a vacuum gauge shows nothing

constexpr FieldFacts name(Field field, std::string_view called, std::string_view says) {
  return {field, called, {}, {}, {}, TextForm::name, says};
}
constexpr FieldFacts any_text(Field field, std::string_view called, std::string_view says) {
  return {field, called, {}, {}, {}, TextForm::any, says};
}
constexpr FieldFacts choice(Field field, std::string_view called, std::span<const std::string_view> words,
                            std::string_view says) {
  return {field, called, {}, {}, words, TextForm::any, says};
}
/// From `least` to `most`: wide enough for every blank, board and bath of this trade, narrow enough that a unit that
/// lost a letter (45 m for 45 mm) or a figure that ran together falls outside. Common practice, no source.
template <class Q>
constexpr FieldFacts figure(Field field, std::string_view called, Q least, Q most, std::string_view such_as,
                            std::string_view says) {
  return {field, called, KindOf<Q>::kind, range_of(least, most), {}, TextForm::any, says, such_as};
}

using F = Field;
constexpr std::array fields{
    name(F::order, "order", "an order's id"),
    name(F::bath, "bath", "one filling of the vessel, as the shop names it"),
    name(F::load, "load", "one filling of the oven, as the shop names it"),
    name(F::board, "board", "a board, as the shop names it"),
    name(F::resin, "resin", "a lot of resin, as the shop names it"),
    any_text(F::vessel, "vessel", "the vessel that the bath is in, by its name or how that begins"),
    any_text(F::oven, "oven", "the oven that the load is in, likewise"),
    any_text(F::operation, "operation", "of the routing, by its name or how that begins"),
    FieldFacts{F::in_blank, "in_blank", {}, {}, {}, TextForm::blank_id, "the blank in whose middle it was measured"},
    any_text(F::species, "species", "the wood's species"),
    any_text(F::dye, "dye", "the dye in the resin"),
    figure(F::mass, "mass", 0.1 * gram, 100 * kilogram, "153 g", "what the scale shows, tag and wire on it"),
    figure(F::tare, "tare", 0 * gram, 10 * kilogram, "3 g", "of this, tag and wire"),
    figure(F::width, "width", 1 * mm, 1 * metre, "45 mm", "across, between faces 1 and 3"),
    figure(F::depth, "depth", 1 * mm, 1 * metre, "45 mm", "across, between faces 2 and 4"),
    figure(F::length, "length", 1 * mm, 3 * metre, "130 mm", "along the grain"),
    figure(F::moisture, "moisture", 0 * percent, 400 * percent, "9 %", "of the oven-dry mass"),
    figure(F::volume, "volume", 0 * litre, 1000 * litre, "1.5 l", "of resin"),
    figure(F::gauge, "gauge", air - 105 * kilopascal, air, "90 kPa", "what the vacuum gauge reads"),
    figure(F::temperature, "temperature", celsius(-40), celsius(300), "85.5 °C",
           "in the core of a blank, or of the oven's air"),
    figure(F::force, "force", 0 * newton, 200 * kilonewton, "4.2 kN",
           "at which the stud came out or the wood gave way"),
    figure(F::face_1, "face_1", 0 * mm, 1 * metre, "22.4 mm", "rod's centre to face 1, at the seat"),
    figure(F::face_2, "face_2", 0 * mm, 1 * metre, "22.6 mm", "rod's centre to face 2, at the seat"),
    figure(F::face_3, "face_3", 0 * mm, 1 * metre, "22.6 mm", "rod's centre to face 3, at the seat"),
    figure(F::face_4, "face_4", 0 * mm, 1 * metre, "22.4 mm", "rod's centre to face 4, at the seat"),
    figure(F::lean_1, "lean_1", -100 * mm, 100 * mm, "0.2 mm", "rod's lean towards face 1 over that length"),
    figure(F::lean_2, "lean_2", -100 * mm, 100 * mm, "-0.1 mm", "rod's lean towards face 2 over that length"),
    figure(F::over, "over", 1 * mm, 2 * metre, "100 mm", "length of the rod over which it leans"),
    figure(F::diameter, "diameter", 0.5 * mm, 200 * mm, "8.5 mm", "of the bore"),
    figure(F::projection, "projection", 0 * mm, 500 * mm, "14 mm", "of the stud from the seat"),
    figure(F::squareness, "squareness", 0 * mm, 50 * mm, "0.05 mm", "of the seat: largest gap under a square"),
    choice(F::role, "role", roles, "a piece, or a witness that is only cut open"),
    choice(F::filled, "filled", yes_or_no, "resin to the middle, seen on the cut: of its bath"),
    choice(F::hard, "hard", yes_or_no, "hard to the middle, felt on the cut: of its load"),
    choice(F::verdict, "verdict", graded_names, "what becomes of the blank"),
    choice(F::result, "result", outcome_names, "of the inspection"),
    choice(F::thread, "thread", outcome_names, "the thread gauge's answer"),
    any_text(F::reason, "reason", "why"),
    any_text(F::remark, "remark", "anything worth keeping"),
};
static_assert(std::ranges::all_of(fields,
                                  [](const FieldFacts& f) { return !f.kind || f.range.least < f.range.most; }),
              "every figure has a range");

}  // namespace

std::span<const FieldFacts> field_list() { return fields; }

const FieldFacts& facts_of(Field field) { return fields.at(static_cast<std::size_t>(field)); }

const FieldFacts* find_field(std::string_view name) {
  const auto* const found = std::ranges::find(fields, name, &FieldFacts::name);
  return found == fields.end() ? nullptr : found;
}

}  // namespace blankwright
