#include "measure/utf8.h"

#include <fmt/format.h>
#include <utf8proc.h>

#include <cstdint>
#include <cstdlib>
#include <memory>
#include <new>
#include <optional>

#include "measure/characters.h"

namespace blankwright {
namespace {

constexpr char32_t replacement = 0xFFFD;

struct Decoded {
  char32_t code_point;
  std::size_t bytes;
};

/// The code point at the head of `text`, which is not empty; nothing where it is not well-formed.
std::optional<Decoded> decode_first(std::string_view text) {
  const auto* bytes = reinterpret_cast<const utf8proc_uint8_t*>(text.data());
  utf8proc_int32_t code_point = -1;
  const auto used = utf8proc_iterate(bytes, static_cast<utf8proc_ssize_t>(text.size()), &code_point);
  if (used <= 0 || code_point < 0) return std::nullopt;
  return Decoded{static_cast<char32_t>(code_point), static_cast<std::size_t>(used)};
}

const utf8proc_property_t& property(char32_t code_point) {
  return *utf8proc_get_property(static_cast<utf8proc_int32_t>(code_point));
}

bool is_mark(char32_t code_point) {
  const auto category = property(code_point).category;
  return category == UTF8PROC_CATEGORY_MN || category == UTF8PROC_CATEGORY_MC || category == UTF8PROC_CATEGORY_ME;
}

bool is_right_to_left(char32_t code_point) {
  switch (property(code_point).bidi_class) {
    case UTF8PROC_BIDI_CLASS_R:
    case UTF8PROC_BIDI_CLASS_AL:
    case UTF8PROC_BIDI_CLASS_AN:
    case UTF8PROC_BIDI_CLASS_RLE:
    case UTF8PROC_BIDI_CLASS_RLO:
    case UTF8PROC_BIDI_CLASS_RLI:
      return true;
    default:
      return false;
  }
}

TextFaultKind fault_kind(char32_t unsupported) {
  if (property(unsupported).category == UTF8PROC_CATEGORY_CC) return TextFaultKind::control_character;
  if (is_mark(unsupported)) return TextFaultKind::loose_combining_mark;
  if (is_right_to_left(unsupported)) return TextFaultKind::right_to_left;
  return TextFaultKind::unsupported_character;
}

/// NFC of a short, well-formed text.
std::string composed(std::string_view text) {
  if (text.size() == 1) return std::string{text};  // ASCII, the common case, is its own composition
  utf8proc_uint8_t* result = nullptr;
  const auto size =
      utf8proc_map(reinterpret_cast<const utf8proc_uint8_t*>(text.data()), static_cast<utf8proc_ssize_t>(text.size()),
                   &result, static_cast<utf8proc_option_t>(UTF8PROC_STABLE | UTF8PROC_COMPOSE));
  const std::unique_ptr<utf8proc_uint8_t, decltype(&std::free)> owner{result, &std::free};
  if (size < 0) throw std::bad_alloc{};  // the only way to fail that is left: text and options are valid
  return std::string{reinterpret_cast<const char*>(result), static_cast<std::size_t>(size)};
}

/// The bytes of one character and the marks that follow it. No canonical decomposition has more than four code
/// points, so a longer pile of marks holds a fault in its first eight; what follows is left off, for composing takes
/// time that grows with the square of the pile. Whatever stands at the head is taken, even a mark.
std::string_view cluster_at(std::string_view text, std::size_t first_bytes) {
  std::size_t end = first_bytes;
  for (int taken = 1; taken < 8 && end < text.size(); ++taken) {
    const auto next = decode_first(text.substr(end));
    if (!next || !is_mark(next->code_point)) break;
    end += next->bytes;
  }
  return text.substr(0, end);
}

/// The first unsupported character of a composed cluster, placed within `given`: at the same character there (the
/// last of equal marks, since composing takes the first), or, where composing made it, at the cluster's head.
std::optional<TextFault> first_fault(std::string_view given, std::string_view composed_cluster) {
  for (const char32_t c : code_points(composed_cluster)) {
    if (is_supported(c)) continue;
    const std::size_t place = given.rfind(to_utf8(c));
    return TextFault{fault_kind(c), c, place == std::string_view::npos ? 0 : place};
  }
  return std::nullopt;
}

}  // namespace

// Cluster by cluster, so that a fault can be placed in the text as given. Composition across clusters exists only for
// characters that are not supported anyway (Hangul, some Indic vowels): what is accepted is the NFC of the whole.
tl::expected<std::string, TextFault> normalised(std::string_view given, Lines lines) {
  std::string result;
  result.reserve(given.size());
  for (std::size_t at = 0; at < given.size();) {
    const std::string_view rest = given.substr(at);
    const auto first = decode_first(rest);
    if (!first) {
      const auto byte = static_cast<unsigned char>(rest.front());
      return tl::unexpected{TextFault{TextFaultKind::not_utf8, byte, at}};
    }
    if (first->code_point == U'\n' && lines == Lines::several) {
      result += '\n';
      ++at;
      continue;
    }
    const std::string_view cluster = cluster_at(rest, first->bytes);
    const std::string text = composed(cluster);
    if (auto fault = first_fault(cluster, text)) {
      fault->offset += at;
      return tl::unexpected{*fault};
    }
    result += text;
    at += cluster.size();
  }
  return result;
}

std::optional<std::size_t> invalid_utf8_at(std::string_view bytes) {
  for (std::size_t at = 0; at < bytes.size();) {
    const auto decoded = decode_first(bytes.substr(at));
    if (!decoded) return at;
    at += decoded->bytes;
  }
  return std::nullopt;
}

std::string in_words(const TextFault& fault) {
  const auto number = static_cast<std::uint32_t>(fault.code_point);
  switch (fault.kind) {
    case TextFaultKind::not_utf8:
      return fmt::format("byte 0x{:02X} is not UTF-8", number);
    case TextFaultKind::control_character:
      return fmt::format("control character U+{:04X} cannot be printed", number);
    case TextFaultKind::loose_combining_mark:
      return fmt::format("combining mark U+{:04X} fits no character before it", number);
    case TextFaultKind::right_to_left:
      return fmt::format("character U+{:04X} belongs to right-to-left writing, which cannot be printed", number);
    case TextFaultKind::unsupported_character:
      break;
  }
  const auto category = property(fault.code_point).category;
  const bool visible = category >= UTF8PROC_CATEGORY_LU && category <= UTF8PROC_CATEGORY_SO;
  const std::string shown = visible ? fmt::format(" '{}'", to_utf8(fault.code_point)) : "";
  return fmt::format("character U+{:04X}{} is not among those that can be printed", number, shown);
}

std::u32string code_points(std::string_view utf8) {
  std::u32string result;
  while (!utf8.empty()) {
    const Decoded next = decode_first(utf8).value_or(Decoded{replacement, 1});
    result += next.code_point;
    utf8.remove_prefix(next.bytes);
  }
  return result;
}

std::size_t code_point_count(std::string_view utf8) { return code_points(utf8).size(); }

std::string to_utf8(char32_t code_point) {
  const auto value = static_cast<utf8proc_int32_t>(code_point);
  utf8proc_uint8_t bytes[4];
  const auto size = utf8proc_encode_char(utf8proc_codepoint_valid(value) ? value : 0xFFFD, bytes);
  return std::string{reinterpret_cast<const char*>(bytes), static_cast<std::size_t>(size)};
}

bool is_small_letter(char32_t code_point) { return property(code_point).category == UTF8PROC_CATEGORY_LL; }

std::string ascii_lower(std::string_view text) {
  std::string result{text};
  for (char& c : result) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return result;
}

}  // namespace blankwright
