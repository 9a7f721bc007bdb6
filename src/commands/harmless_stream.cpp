#include "commands/harmless_stream.h"

#include "measure/printable.h"

namespace blankwright {

void HarmlessBuffer::pass_on() {
  std::string_view rest = line_;
  while (!rest.empty()) {
    std::string_view line = rest.substr(0, rest.find('\n'));
    rest.remove_prefix(line.size());
    std::string_view end;
    if (rest.starts_with('\n')) {
      const bool is_table = lines_ == Lines::of_tables && line.ends_with('\r');
      end = is_table ? "\r\n" : "\n";
      if (is_table) line.remove_suffix(1);
      rest.remove_prefix(1);
    }
    to_ << harmless(line) << end;
  }
  line_.clear();
}

void HarmlessBuffer::pass_as_is(std::string_view text) {
  pass_on();
  to_ << text;
}

HarmlessBuffer::int_type HarmlessBuffer::overflow(int_type c) {
  if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
  const char character = traits_type::to_char_type(c);
  return xsputn(&character, 1) == 1 ? c : traits_type::eof();
}

std::streamsize HarmlessBuffer::xsputn(const char* text, std::streamsize count) {
  line_.append(text, static_cast<std::size_t>(count));
  if (line_.find('\n', line_.size() - static_cast<std::size_t>(count)) != std::string::npos) pass_on();
  return to_ ? count : 0;
}

int HarmlessBuffer::sync() {
  pass_on();
  to_.flush();
  return to_ ? 0 : -1;
}

std::ostream& operator<<(std::ostream& out, const AsIs& words) {
  if (auto* buffer = dynamic_cast<HarmlessBuffer*>(out.rdbuf())) {
    buffer->pass_as_is(words.text);
    return out;
  }
  return out << words.text;
}

}  // namespace blankwright
