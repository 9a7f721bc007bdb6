#include "measure/printable.h"

#include "measure/utf8.h"

namespace blankwright {
namespace {

bool is_harmless(char32_t c) {
  const auto between = [c](char32_t first, char32_t last) { return first <= c && c <= last; };
  return !(c < 0x20 || between(0x7F, 0x9F) || c == 0x061C || between(0x200B, 0x200F) || between(0x2028, 0x202E) ||
           between(0x2060, 0x2069) || c == 0xFEFF);
}

}  // namespace

std::string harmless(std::u32string_view text) {
  std::string out;
  for (const char32_t c : text) out += c == U'\t' ? " " : is_harmless(c) ? to_utf8(c) : "?";
  return out;
}

std::string harmless(std::string_view text) { return harmless(std::u32string_view{code_points(text)}); }

}  // namespace blankwright
