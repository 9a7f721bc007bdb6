#pragma once

#include <ostream>
#include <streambuf>
#include <string>

namespace blankwright {

/// What stands between the program and a terminal: it passes text on line by line, and nothing but harmless() text,
/// so that no name, path or remark from outside can steer the terminal, whichever message it stands in.
class HarmlessBuffer : public std::streambuf {
 public:
  /// Those of a table may end in a carriage return too, as those of CSV do (RFC 4180).
  enum class Lines { of_words, of_tables };
  HarmlessBuffer(std::ostream& to, Lines lines) : to_{to}, lines_{lines} {}
  ~HarmlessBuffer() override { pass_on(); }
  HarmlessBuffer(const HarmlessBuffer&) = delete;
  HarmlessBuffer& operator=(const HarmlessBuffer&) = delete;
  /// Passes words of ours on that do steer it.
  void pass_as_is(std::string_view text);

 protected:
  int_type overflow(int_type c) override;
  std::streamsize xsputn(const char* text, std::streamsize count) override;
  int sync() override;

 private:
  void pass_on();
  std::ostream& to_;
  Lines lines_;
  std::string line_;  // that is not whole yet
};

/// Words of ours that steer the terminal, with colours or a bell; what they hold from outside is harmless() already.
struct AsIs {
  std::string text;
};
std::ostream& operator<<(std::ostream& out, const AsIs& words);

}  // namespace blankwright
