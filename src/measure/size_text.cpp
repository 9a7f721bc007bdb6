#include "measure/size_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>

#include "measure/digit.h"
#include "measure/utf8.h"

namespace blankwright {
namespace {

constexpr std::size_t longest_text = 80;

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

/// What a character beyond ASCII stands for in a size. Names and numbers: the Unicode Character Database.
constexpr std::array<std::pair<char32_t, std::string_view>, 34> plain_forms{{
    {U'\u00a0', " "},   {U'\u2009', " "},   {U'\u202f', " "},  // no-break, thin, narrow no-break space
    {U'\u2010', "-"},   {U'\u2011', "-"},   {U'\u2012', "-"},    {U'\u2013', "-"},   {U'\u2014', "-"},
    {U'\u2212', "-"},   {U'\u00d7', "x"},   {U'\u2715', "x"},    {U'\u2044', "/"},   {U'\u2215', "/"},
    {U'\u2033', "\""},  {U'\u201d', "\""},  {U'\u00bc', "1/4"},  {U'\u00bd', "1/2"}, {U'\u00be', "3/4"},
    {U'\u2150', "1/7"}, {U'\u2151', "1/9"}, {U'\u2152', "1/10"}, {U'\u2153', "1/3"}, {U'\u2154', "2/3"},
    {U'\u2155', "1/5"}, {U'\u2156', "2/5"}, {U'\u2157', "3/5"},  {U'\u2158', "4/5"}, {U'\u2159', "1/6"},
    {U'\u215a', "5/6"}, {U'\u215b', "1/8"}, {U'\u215c', "3/8"},  {U'\u215d', "5/8"}, {U'\u215e', "7/8"},
    {U'\u215f', "1/"},
}};

void add_plain(std::string& out, std::string_view piece) {
  if (piece == " ") {
    if (!out.empty() && out.back() != ' ') out += ' ';
    return;
  }
  const bool fraction = piece.find('/') != std::string_view::npos && piece.size() > 1;
  if (fraction && !out.empty() && is_digit(out.back())) out += ' ';
  out += piece;
}

}  // namespace

tl::expected<std::string, std::string> plain_size_text(std::string_view text) {
  if (text.size() > longest_text) return tl::unexpected{std::string{"longer than any size is written"}};
  std::string out;
  for (const char32_t point : code_points(text)) {
    if (point == U'\t') {
      add_plain(out, " ");
    } else if (point >= U' ' && point <= U'~') {
      add_plain(out, std::string(1, static_cast<char>(point)));
    } else {
      const auto form =
          std::find_if(plain_forms.begin(), plain_forms.end(), [point](const auto& f) { return f.first == point; });
      if (form == plain_forms.end()) return tl::unexpected{std::string{"a character that no size is written with"}};
      add_plain(out, form->second);
    }
  }
  if (out.ends_with(' ')) out.pop_back();
  return out;
}

bool SizeScan::next_is_digit() const { return is_digit(next()); }

bool SizeScan::take(char wanted) {
  if (next() != wanted || wanted == '\0') return false;
  rest_.remove_prefix(1);
  return true;
}

bool SizeScan::take_word(std::string_view upper_case) {
  if (rest_.size() < upper_case.size()) return false;
  const bool same = ascii_lower(rest_.substr(0, upper_case.size())) == ascii_lower(upper_case);
  const bool runs_on = rest_.size() > upper_case.size() && is_letter(rest_[upper_case.size()]);
  if (!same || runs_on) return false;
  rest_.remove_prefix(upper_case.size());
  return true;
}

void SizeScan::skip_spaces() {
  while (take(' ')) {
  }
}

void SizeScan::skip_separator() {
  skip_spaces();
  take('-');
  skip_spaces();
}

std::optional<int> SizeScan::whole() {
  std::size_t digits = 0;
  while (digits < rest_.size() && is_digit(rest_[digits])) ++digits;
  if (digits == 0 || digits > 6) return std::nullopt;
  int value = 0;
  std::from_chars(rest_.data(), rest_.data() + digits, value);
  rest_.remove_prefix(digits);
  return value;
}

std::optional<WrittenNumber> SizeScan::number() {
  std::string written;
  int decimals = -1;
  std::size_t at = 0;
  for (; at < rest_.size(); ++at) {
    const char c = rest_[at];
    const bool point = (c == '.' || c == ',') && decimals < 0 && at + 1 < rest_.size() && is_digit(rest_[at + 1]);
    if (!is_digit(c) && !point) break;
    if (point || decimals >= 0) ++decimals;
    written += point ? '.' : c;
  }
  if (at == 0 || at > 9) return std::nullopt;
  if (written.front() == '.') written.insert(0, 1, '0');
  WrittenNumber result{0, std::max(decimals, 0)};
  std::from_chars(written.data(), written.data() + written.size(), result.value, std::chars_format::fixed);
  rest_.remove_prefix(at);
  return result;
}

std::string_view SizeScan::token() {
  std::size_t length = 0;
  while (length < rest_.size() && (is_digit(rest_[length]) || is_letter(rest_[length]))) ++length;
  const std::string_view taken = rest_.substr(0, length);
  rest_.remove_prefix(length);
  return taken;
}

}  // namespace blankwright
