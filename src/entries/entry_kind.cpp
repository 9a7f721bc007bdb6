#include "entries/entry_kind.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>

namespace blankwright {
namespace {

using F = Field;
constexpr std::array issued{FieldUse{F::order, true}, FieldUse{F::role, false}};
constexpr Range board_length = range_of(1 * mm, 10 * metre);
constexpr std::array board{
    FieldUse{F::board, true},  FieldUse{F::species, false}, FieldUse{F::length, false, board_length},
    FieldUse{F::width, false}, FieldUse{F::depth, false},   FieldUse{F::remark, false}};
constexpr std::array sawn{FieldUse{F::board, true}, FieldUse{F::remark, false}};
constexpr std::array sizes{FieldUse{F::width, true}, FieldUse{F::depth, true}, FieldUse{F::length, false},
                           FieldUse{F::remark, false}};
constexpr std::array weighed{FieldUse{F::mass, true}, FieldUse{F::tare, false}, FieldUse{F::remark, false}};
constexpr std::array moisture{FieldUse{F::moisture, true}, FieldUse{F::remark, false}};
constexpr std::array resin_opened{FieldUse{F::resin, true}, FieldUse{F::volume, false}, FieldUse{F::remark, false}};
constexpr std::array resin_activated{FieldUse{F::resin, true}, FieldUse{F::volume, true}, FieldUse{F::dye, false},
                                     FieldUse{F::remark, false}};
constexpr std::array poured{FieldUse{F::bath, true}, FieldUse{F::resin, true}, FieldUse{F::volume, true},
                            FieldUse{F::remark, false}};
constexpr std::array strained_back{FieldUse{F::resin, true}, FieldUse{F::volume, true}, FieldUse{F::bath, false},
                                   FieldUse{F::remark, false}};
constexpr std::array discarded{FieldUse{F::resin, true}, FieldUse{F::volume, true}, FieldUse{F::reason, false},
                               FieldUse{F::remark, false}};
constexpr std::array of_bath{FieldUse{F::bath, true}, FieldUse{F::remark, false}};
constexpr std::array into_bath{FieldUse{F::bath, true}, FieldUse{F::vessel, false}, FieldUse{F::remark, false}};
constexpr std::array bath_gauge{FieldUse{F::bath, true}, FieldUse{F::gauge, false}, FieldUse{F::remark, false}};
constexpr std::array load{FieldUse{F::load, true}, FieldUse{F::oven, false}, FieldUse{F::remark, false}};
constexpr std::array temperature{FieldUse{F::load, true}, FieldUse{F::temperature, true}, FieldUse{F::remark, false}};
constexpr std::array core{FieldUse{F::load, true}, FieldUse{F::temperature, true}, FieldUse{F::in_blank, false},
                          FieldUse{F::remark, false}};
constexpr std::array plain{FieldUse{F::remark, false}};
constexpr std::array graded{FieldUse{F::verdict, true}, FieldUse{F::reason, false}, FieldUse{F::remark, false}};
constexpr std::array axis{FieldUse{F::face_1, true}, FieldUse{F::face_2, true},    FieldUse{F::face_3, true},
                          FieldUse{F::face_4, true}, FieldUse{F::lean_1, true},    FieldUse{F::lean_2, true},
                          FieldUse{F::over, true},   FieldUse{F::diameter, false}, FieldUse{F::length, false},
                          FieldUse{F::remark, false}};
constexpr std::array inspected{FieldUse{F::result, true},      FieldUse{F::squareness, false},
                               FieldUse{F::projection, false}, FieldUse{F::thread, false},
                               FieldUse{F::reason, false},     FieldUse{F::remark, false}};
constexpr std::array promised{FieldUse{F::order, true}, FieldUse{F::remark, false}};
/// `result`: the one answer of before the other two were told apart; see answers_as_before().
constexpr std::array witness_cut{FieldUse{F::filled, true}, FieldUse{F::hard, true}, FieldUse{F::result, false},
                                 FieldUse{F::reason, false}, FieldUse{F::remark, false}};
constexpr std::array stud_pulled{FieldUse{F::force, true}, FieldUse{F::remark, false}};
constexpr std::array done{FieldUse{F::operation, true}, FieldUse{F::remark, false}};
constexpr std::array reason{FieldUse{F::reason, true}};

constexpr std::array kinds{
    KindFacts{EntryKind::issued, "issued", "", true, issued, "ID given to an order"},
    KindFacts{EntryKind::board, "board", "", false, board, "board came in"},
    KindFacts{EntryKind::sawn, "sawn", "XSNT", true, sawn, "sawn from a board"},
    KindFacts{EntryKind::measured, "measured", "XFSR", true, sizes, "sides measured"},
    KindFacts{EntryKind::weighed, "weighed", "XKGB", true, weighed, "weighed on the scale"},
    KindFacts{EntryKind::moisture, "moisture", "XHTX", true, moisture, "moisture measured"},
    KindFacts{EntryKind::into_drying, "into-drying", "XDRK", true, load, "into the oven to dry"},
    KindFacts{EntryKind::out_of_drying, "out-of-drying", "XDVV", true, plain, "out of the oven, dried"},
    KindFacts{EntryKind::sealed, "sealed", "XSVK", true, plain, "sealed against the room's air"},
    KindFacts{EntryKind::opened, "opened", "XPNR", true, plain, "unsealed"},
    KindFacts{EntryKind::resin_opened, "resin-opened", "XRNS", false, resin_opened, "lot of resin opened"},
    KindFacts{EntryKind::resin_activated, "resin-activated", "XRCT", false, resin_activated,
              "resin of a lot activated"},
    KindFacts{EntryKind::poured, "poured", "XPRX", false, poured, "resin poured into a bath"},
    KindFacts{EntryKind::strained_back, "strained-back", "XSTH", false, strained_back,
              "resin back through the strainer"},
    KindFacts{EntryKind::discarded, "discarded", "XDSP", false, discarded, "resin discarded"},
    KindFacts{EntryKind::into_bath, "into-bath", "XNBN", true, into_bath, "into a bath"},
    KindFacts{EntryKind::vacuum_on, "vacuum-on", "XVCB", false, of_bath, "pump started"},
    KindFacts{EntryKind::target_reached, "target-reached", "XTGH", false, bath_gauge, "gauge has reached its target"},
    KindFacts{EntryKind::bubbling_ended, "bubbling-ended", "XBBB", false, of_bath, "bubbling down"},
    KindFacts{EntryKind::released, "released", "XRDX", false, of_bath, "vacuum released; soak begun"},
    KindFacts{EntryKind::out_of_bath, "out-of-bath", "XTBT", true, plain, "out of the resin"},
    KindFacts{EntryKind::drained, "drained", "XDNF", true, plain, "drained and wiped"},
    KindFacts{EntryKind::into_oven, "into-oven", "XNVG", true, load, "into the oven to cure"},
    KindFacts{EntryKind::core_temperature, "core-temperature", "XCRJ", false, core, "core temperature measured"},
    KindFacts{EntryKind::oven_temperature, "oven-temperature", "XVTK", false, temperature,
              "true air temperature read"},
    KindFacts{EntryKind::out_of_oven, "out-of-oven", "XTVN", true, plain, "out of the oven, cured"},
    KindFacts{EntryKind::graded, "graded", "XGRP", true, graded, "looked at for cracks, voids, soft zones"},
    KindFacts{EntryKind::filled, "filled", "XFDK", true, plain, "voids filled"},
    KindFacts{EntryKind::squared, "squared", "XSKR", true, sizes, "two faces and both ends trued"},
    KindFacts{EntryKind::bored, "bored", "XBRH", true, axis, "bored, rod measured"},
    KindFacts{EntryKind::glued, "glued", "XGDN", true, plain, "stud glued in"},
    KindFacts{EntryKind::stud_measured, "stud-measured", "XSDB", true, axis, "stud set, its axis measured"},
    KindFacts{EntryKind::turned, "turned", "XTNV", true, plain, "turned to its form"},
    KindFacts{EntryKind::inspected, "inspected", "XNSB", true, inspected, "finished piece inspected"},
    KindFacts{EntryKind::promised, "promised", "XPSC", true, promised, "now meant for that order"},
    KindFacts{EntryKind::sent, "sent", "XTXR", true, plain, "left the shop"},
    KindFacts{EntryKind::witness_cut, "witness-cut", "XCTR", true, witness_cut, "cut open"},
    KindFacts{EntryKind::stud_pulled, "stud-pulled", "XPDV", true, stud_pulled, "stud pulled out"},
    KindFacts{EntryKind::scrapped, "scrapped", "XCPG", true, reason, "taken out for good"},
    KindFacts{EntryKind::withdrawn, "withdrawn", "XTKS", true, plain, "not needed, never sawn"},
    KindFacts{EntryKind::done, "done", "XDXB", true, done, "operation of the routing done"},
    KindFacts{EntryKind::corrected, "corrected", "", false, reason, "an earlier entry was wrong"},
};

}  // namespace

FieldFacts facts_of(const FieldUse& use) {
  FieldFacts facts = facts_of(use.field);
  facts.range = use.range.value_or(facts.range);
  return facts;
}

std::span<const KindFacts> kind_list() { return kinds; }

const KindFacts& facts_of(EntryKind kind) { return kinds.at(static_cast<std::size_t>(kind)); }

const KindFacts* find_kind(std::string_view name) {
  const auto* const found = std::ranges::find(kinds, name, &KindFacts::name);
  return found == kinds.end() ? nullptr : found;
}

const KindFacts* find_code(std::string_view code) {
  if (code.empty()) return nullptr;
  std::string upper{code};
  for (char& c : upper) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
  const auto* const found = std::ranges::find(kinds, std::string_view{upper}, &KindFacts::code);
  return found == kinds.end() ? nullptr : found;
}

}  // namespace blankwright
