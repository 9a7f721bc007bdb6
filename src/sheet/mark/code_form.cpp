#include "sheet/mark/code_form.h"

#include "diagnose/failure.h"

namespace blankwright {
namespace {

constexpr int side_of(int version) { return 17 + 4 * version; }  // ISO/IEC 18004, 5.3.1
constexpr int largest_version = 10;                              // of an address: 57 modules

}  // namespace

std::string code_text(const Template& t, const BlankId& id) {
  return t.code_base ? t.code_base->value + id.shown() : id.encoded();
}

std::vector<CodeForm> code_forms(const Template& t) {
  if (!t.code_base) return {{QrLevel::high, 2}, {QrLevel::high, 1}};
  std::vector<CodeForm> forms;
  for (const QrLevel level : {QrLevel::high, QrLevel::quartile, QrLevel::medium}) {
    const auto symbol =
        qr_symbol({.text = code_text(t, BlankId::nth(0)), .level = level, .most_version = largest_version});
    if (symbol) forms.push_back({level, symbol->version});
  }
  return forms;
}

std::optional<CodePlace> placed_code(std::span<const CodeForm> forms, const Box& room) {
  for (const CodeForm& form : forms) {
    if (const auto place = placed_qr(side_of(form.version), room)) return CodePlace{form, *place};
  }
  return std::nullopt;
}

Matrix code_matrix(const Template& t, const BlankId& id, const CodePlace& where) {
  auto symbol = qr_symbol({.text = code_text(t, id),
                           .level = where.form.level,
                           .least_version = where.form.version,
                           .most_version = where.form.version});
  BW_EXPECT(symbol.has_value());  // every ID is as long as the one that the form was found with
  return {where.place.at, where.place.module, symbol->side, std::move(symbol->black)};
}

}  // namespace blankwright
