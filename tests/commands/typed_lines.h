#pragma once

#include <functional>
#include <streambuf>
#include <string>
#include <utility>
#include <vector>

namespace blankwright {

/// Lines that are typed, with something that happens elsewhere before some of them.
class TypedLines : public std::streambuf {
 public:
  struct Line {
    std::string text;
    std::function<void()> before{};
  };
  explicit TypedLines(std::vector<Line> lines) : lines_{std::move(lines)} {}

 protected:
  int_type underflow() override {
    if (next_ == lines_.size()) return traits_type::eof();
    Line& line = lines_.at(next_++);
    if (line.before) line.before();
    setg(line.text.data(), line.text.data(), line.text.data() + line.text.size());
    return traits_type::to_int_type(line.text.front());
  }

 private:
  std::vector<Line> lines_;
  std::size_t next_ = 0;
};

}  // namespace blankwright
