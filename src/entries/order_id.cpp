#include "entries/order_id.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>

namespace blankwright {
namespace {

constexpr std::size_t longest = 40;
constexpr std::string_view allowed = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789._-";

/// The character that begins at `at`, as it may be shown: whole in UTF-8, and nothing that moves a terminal's cursor.
std::string character_at(std::string_view text, std::size_t at) {
  const auto is_inside = [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; };
  const auto first = static_cast<unsigned char>(text.at(at));
  if (first < 0x20 || first == 0x7F) return "a control character";
  std::size_t end = at + 1;
  while (end < text.size() && is_inside(text.at(end))) ++end;
  return first == ' ' ? "a space" : fmt::format("\"{}\"", text.substr(at, end - at));
}

bool is_device(std::string_view id) {
  constexpr std::array<std::string_view, 4> devices{"con", "prn", "aux", "nul"};
  const std::string folded = folded_order_id(id);
  const std::string stem = folded.substr(0, folded.find('.'));
  if (std::ranges::find(devices, stem) != devices.end()) return true;
  return stem.size() == 4 && (stem.starts_with("com") || stem.starts_with("lpt")) && stem.at(3) >= '1' &&
         stem.at(3) <= '9';
}

}  // namespace

std::optional<OrderIdProblem> order_id_problem(std::string_view id) {
  if (id.empty()) return OrderIdProblem{OrderIdFault::empty, "the order id is empty"};
  if (const std::size_t at = id.find_first_not_of(allowed); at != std::string_view::npos) {
    return OrderIdProblem{
        OrderIdFault::character,
        fmt::format("{} in an order id, which is made of A-Z a-z 0-9 . _ -", character_at(id, at)),
    };
  }
  if (id.size() > longest) {
    return OrderIdProblem{
        OrderIdFault::too_long,
        fmt::format("this order id has {} characters, and at most {} are allowed", id.size(), longest),
    };
  }
  if (id.front() == '-') {
    return OrderIdProblem{OrderIdFault::leading_hyphen,
                          "an order id cannot begin with a hyphen, which commands take for a flag"};
  }
  if (id.back() == '.') return OrderIdProblem{OrderIdFault::trailing_dot, "an order id cannot end with a dot"};
  if (is_device(id)) {
    return OrderIdProblem{
        OrderIdFault::device_name,
        fmt::format("\"{}\" is the name of a device on some systems and cannot name an order", id),
    };
  }
  return std::nullopt;
}

std::string folded_order_id(std::string_view id) {
  std::string out{id};
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

}  // namespace blankwright
