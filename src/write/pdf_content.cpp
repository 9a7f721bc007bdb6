#include "write/pdf_content.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <optional>
#include <variant>
#include <vector>

#include "diagnose/failure.h"
#include "measure/utf8.h"
#include "write/dashes.h"

namespace blankwright {
namespace {

constexpr double points_in_a_millimetre = 72 / 25.4;

/// Millimetres to 0.001 (an 80th of a 300 dpi dot).
constexpr int place_decimals = 3;
/// Numbers that are multiplied by what stands inside them: the size of a module, a direction.
constexpr int scale_decimals = 6;

void add_whole(std::string& out, std::uint64_t number) {
  const fmt::format_int digits{number};
  out.append(digits.data(), digits.size());
}

/// A number in the fewest digits, with at most `decimals` (0 to 6) of them after the point, and a space.
void add_number(std::string& out, double value, int decimals) {
  constexpr std::array<std::uint32_t, 7> powers{1, 10, 100, 1000, 10'000, 100'000, 1'000'000};
  constexpr double limit = 32'767;  // old readers know no larger numbers (PDF Reference 1.3, appendix C)
  BW_EXPECT(std::isfinite(value) && std::abs(value) <= limit);
  const std::uint32_t one = powers.at(static_cast<std::size_t>(decimals));
  const std::int64_t parts = std::llround(value * one);
  const std::uint64_t size = static_cast<std::uint64_t>(std::abs(parts));
  if (parts < 0) out += '-';
  const std::uint64_t before_point = size / one;
  std::uint64_t after_point = size % one;
  if (before_point != 0 || after_point == 0) add_whole(out, before_point);
  if (after_point != 0) {
    out += '.';
    for (std::uint32_t place = one / 10; after_point != 0; place /= 10) {
      out += static_cast<char>('0' + after_point / place);
      after_point %= place;
    }
  }
  out += ' ';
}

void add_length(std::string& out, Length length) { add_number(out, length / mm, place_decimals); }

void add_spot(std::string& out, Spot spot) {
  add_length(out, spot.x);
  add_length(out, spot.y);
}

/// A literal string (ISO 32000-1, 7.3.4.2), most significant byte first: what the fonts that pdf_fonts.h makes take.
void add_string(std::string& out, std::u16string_view text) {
  const auto add = [&](char byte) {
    if (byte == '\r') {  // bare, a reader would take it for a line feed
      out += "\\r";
      return;
    }
    if (byte == '(' || byte == ')' || byte == '\\') out += '\\';
    out += byte;
  };
  out += '(';
  for (const char16_t unit : text) {
    add(static_cast<char>(unit >> 8));
    add(static_cast<char>(unit & 0xFF));
  }
  out += ')';
}

/// Writes the operators, and leaves out those that would set what is set already.
class ContentWriter {
 public:
  ContentWriter(UsedCharacters& used, UsedImages& images) : used_{used}, images_{images} {}

  void operator()(const Text& text);
  void operator()(const Stroke& stroke);
  void operator()(const Fill& fill);
  void operator()(const Ellipse& ellipse);
  void operator()(const Matrix& matrix);
  void operator()(const Image& image);

  std::string finished() && {
    end_text();
    return std::move(out_);
  }
  void begin(const Paper& paper);

 private:
  void begin_text();
  void end_text();
  void set_fill_ink(Ink ink);
  void set_font(Face face, Length size);
  void set_line(Length width, Dash dash);
  void add_path(const Path& path, Spot from);
  void move_origin(Spot to);

  std::string out_;
  UsedCharacters& used_;
  UsedImages& images_;
  bool in_text_ = false;
  Ink ink_ = Ink::black;  // what a page begins with
  Length line_width_{};
  Dash dash_ = Dash::solid;
  std::optional<Face> face_;
  Length size_{};
};

void ContentWriter::begin(const Paper& paper) {
  add_number(out_, points_in_a_millimetre, scale_decimals);
  out_ += "0 0 ";
  add_number(out_, -points_in_a_millimetre, scale_decimals);
  out_ += "0 ";
  add_number(out_, paper.height / mm * points_in_a_millimetre, place_decimals + 1);
  out_ += "cm\n1 j\n";  // round joins
}

void ContentWriter::begin_text() {
  if (!in_text_) out_ += "BT\n";
  in_text_ = true;
}

void ContentWriter::end_text() {
  if (in_text_) out_ += "ET\n";
  in_text_ = false;
}

void ContentWriter::set_fill_ink(Ink ink) {
  if (ink_ == ink) return;
  add_number(out_, light_of(ink), 1);
  out_ += "g\n";
  ink_ = ink;
}

void ContentWriter::set_font(Face face, Length size) {
  if (face_ == face && size_ == size) return;
  face_ = face;
  size_ = size;
  out_ += '/';
  out_ += resource_name(face);
  out_ += ' ';
  add_length(out_, size);
  out_ += "Tf\n";
}

void ContentWriter::set_line(Length width, Dash dash) {
  const bool new_width = line_width_ != width;
  const bool new_dash = dash_ != dash || (new_width && dash != Dash::solid);
  if (new_width) {
    add_length(out_, width);
    out_ += "w\n";
  }
  if (new_dash) {
    out_ += '[';
    for (const Length length : dash_lengths(dash, width)) add_length(out_, length);
    if (out_.back() == ' ') out_.pop_back();
    out_ += "]0 d\n";
  }
  line_width_ = width;
  dash_ = dash;
}

/// Up to the next "Q".
void ContentWriter::move_origin(Spot to) {
  out_ += "q 1 0 0 1 ";
  add_spot(out_, to);
  out_ += "cm ";
}

void ContentWriter::add_path(const Path& path, Spot from) {
  BW_EXPECT(path.size() >= 2);
  const char* step = "m ";
  for (const Spot& corner : path) {
    add_spot(out_, {corner.x - from.x, corner.y - from.y});
    out_ += step;
    step = "l ";
  }
}

void ContentWriter::operator()(const Text& text) {
  if (text.words.empty()) return;
  BW_EXPECT(text.size > Length{});
  begin_text();
  set_fill_ink(Ink::black);
  set_font(text.face, text.size);
  const std::u16string words = utf16_of(text.words);
  for (const char16_t character : words) used_.add(text.face, character);
  const double across = std::cos(text.turn / radian);
  const double up = std::sin(text.turn / radian);
  const double width = letter_width(text.face);
  for (const double number : {width * across, -width * up, -up, -across}) add_number(out_, number, scale_decimals);
  add_spot(out_, text.at);
  out_ += "Tm";
  add_string(out_, words);
  out_ += "Tj\n";
}

void ContentWriter::operator()(const Stroke& stroke) {
  if (stroke.paths.empty()) return;
  BW_EXPECT(stroke.width > Length{});
  end_text();
  set_line(stroke.width, stroke.dash);
  // Where much is drawn it is told from its own beginning: the same again elsewhere takes hardly any room.
  std::size_t corners = 0;
  for (const Path& path : stroke.paths) corners += path.size();
  const bool moved = corners > 6;
  const Spot origin = moved ? stroke.paths.front().front() : Spot{};
  if (moved) move_origin(origin);
  for (const Path& path : stroke.paths) {
    add_path(path, origin);
    if (stroke.closed) out_ += "h ";
  }
  out_ += moved ? "S Q\n" : "S\n";
}

void ContentWriter::operator()(const Fill& fill) {
  if (fill.paths.empty()) return;
  end_text();
  set_fill_ink(fill.ink);
  for (const Path& path : fill.paths) add_path(path, {});
  out_ += "f\n";
}

/// In four Bézier curves, which leave the ellipse by less than 0.02 % of its radius.
void ContentWriter::operator()(const Ellipse& ellipse) {
  // From the middle of a quarter's tangent; the value of the least error both ways is common knowledge, no source.
  constexpr double reach = 0.551915;
  end_text();
  const bool filled = ellipse.width == Length{};
  if (filled) {
    set_fill_ink(Ink::black);
  } else {
    set_line(ellipse.width, ellipse.dash);
  }
  const Length a = ellipse.box.width / 2, b = ellipse.box.height / 2;
  move_origin({ellipse.box.x + a, ellipse.box.y + b});
  const auto add = [&](double right, double below) { add_spot(out_, {right * a, below * b}); };
  add(1, 0);
  out_ += "m ";
  double x = 1, y = 0;
  for (int quarter = 0; quarter < 4; ++quarter) {
    const double next_x = -y, next_y = x;
    add(x + reach * next_x, y + reach * next_y);
    add(next_x + reach * x, next_y + reach * y);
    add(next_x, next_y);
    out_ += "c ";
    x = next_x;
    y = next_y;
  }
  out_ += filled ? "f Q\n" : "s Q\n";
}

/// A rectangle of black modules.
struct ModuleBlock {
  std::size_t x, y, width, height;
};

/// The black modules as few rectangles: runs along rows, and those of equal place and width that follow each other
/// down the rows as one. Fewer edges also leave no seams between them.
std::vector<ModuleBlock> blocks_of(const Matrix& matrix) {
  const std::size_t side = static_cast<std::size_t>(matrix.side);
  std::vector<ModuleBlock> done;
  std::vector<ModuleBlock> open;  // that reach down to the row before, from left to right
  std::vector<ModuleBlock> row;
  for (std::size_t y = 0; y < side; ++y) {
    const auto black = matrix.black.begin() + static_cast<std::ptrdiff_t>(y * side);
    row.clear();
    std::size_t above = 0;
    for (std::size_t x = 0; x < side; ++x) {
      if (!black[static_cast<std::ptrdiff_t>(x)]) continue;
      ModuleBlock run{x, y, 0, 1};
      while (x < side && black[static_cast<std::ptrdiff_t>(x)]) ++x;
      run.width = x - run.x;
      for (; above < open.size() && open[above].x < run.x; ++above) done.push_back(open[above]);
      if (above < open.size() && open[above].x == run.x && open[above].width == run.width) {
        run.y = open[above].y;
        run.height = open[above].height + 1;
        ++above;
      }
      row.push_back(run);
    }
    done.insert(done.end(), open.begin() + static_cast<std::ptrdiff_t>(above), open.end());
    std::swap(open, row);
  }
  done.insert(done.end(), open.begin(), open.end());
  return done;
}

/// Written beside `out` and added at once, since most of a page of tags is blocks.
void add_block(std::string& out, const ModuleBlock& block) {
  std::array<char, 96> line;  // four numbers of 20 digits at most
  char* end = line.data();
  for (const std::size_t number : {block.x, block.y, block.width, block.height}) {
    end = std::to_chars(end, line.data() + line.size(), number).ptr;
    *end++ = ' ';
  }
  out.append(line.data(), end);
  out += "re\n";
}

void ContentWriter::operator()(const Matrix& matrix) {
  BW_EXPECT(matrix.side > 0 && matrix.module > Length{});
  const std::size_t side = static_cast<std::size_t>(matrix.side);
  BW_EXPECT(matrix.black.size() == side * side);
  end_text();
  set_fill_ink(Ink::black);
  out_ += "q ";
  add_number(out_, matrix.module / mm, scale_decimals);
  out_ += "0 0 ";
  add_number(out_, matrix.module / mm, scale_decimals);
  add_number(out_, matrix.at.x / mm, place_decimals + 1);
  add_number(out_, matrix.at.y / mm, place_decimals + 1);
  out_ += "cm\n";
  for (const ModuleBlock& block : blocks_of(matrix)) add_block(out_, block);
  out_ += "f Q\n";
}

void ContentWriter::operator()(const Image& image) {
  BW_EXPECT(image.pixels != nullptr && image.box.width > Length{} && image.box.height > Length{});
  end_text();
  out_ += "q ";
  add_length(out_, image.box.width);
  out_ += "0 0 ";
  add_length(out_, -image.box.height);  // a picture's rows run downwards, and so do the page's
  add_length(out_, image.box.x);
  add_length(out_, image.box.bottom());
  out_ += "cm /" + image_name(images_.add(image.pixels)) + " Do Q\n";
}

}  // namespace

void UsedCharacters::add(Face face, char16_t character) {
  Used& used = used_.at(static_cast<std::size_t>(letters_of(face)));
  if (used.seen[character]) return;
  used.seen[character] = true;
  used.characters += character;
}

std::u16string UsedCharacters::in(Face face) const {
  std::u16string characters = used_.at(static_cast<std::size_t>(face)).characters;
  std::sort(characters.begin(), characters.end());
  return characters;
}

std::size_t UsedImages::add(const std::shared_ptr<const GreyPixels>& pixels) {
  const auto found = std::find(images_.begin(), images_.end(), pixels);
  if (found != images_.end()) return static_cast<std::size_t>(found - images_.begin());
  images_.push_back(pixels);
  return images_.size() - 1;
}

std::string image_name(std::size_t number) { return fmt::format("P{}", number); }

std::u16string utf16_of(std::string_view text) {
  std::u16string units;
  for (const char32_t character : code_points(text)) {
    const bool control = character < 0x20 || (character >= 0x7F && character < 0xA0);
    BW_EXPECT(!control && character < 0xFFFD);  // U+FFFD stands for bytes that are not UTF-8
    units += static_cast<char16_t>(character);
  }
  return units;
}

std::string pdf_content(const Page& page, UsedCharacters& used, UsedImages& images) {
  ContentWriter writer{used, images};
  writer.begin(page.paper);
  for (const Item& item : page.items) std::visit(writer, item.mark);
  return std::move(writer).finished();
}

}  // namespace blankwright
