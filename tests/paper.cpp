#include "paper.h"

#include <fmt/format.h>
#include <sys/wait.h>
#include <zbar.h>  // before ZXing, whose macros upset it

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <stdexcept>
#include <string_view>

#define ZX_USE_UTF8 1  // Result::text() in UTF-8: ZXing 1.4
#include <ZXing/ReadBarcode.h>

#include "temporary_folder.h"

#if __has_include(<ZXing/ReaderOptions.h>)  // ZXing 2.3, where the older name is deprecated
using ReaderOptions = ZXing::ReaderOptions;
#else
using ReaderOptions = ZXing::DecodeHints;
#endif

namespace blankwright {

ToolRun run_tool(const std::string& command) {
  const TemporaryFolder folder;
  FILE* pipe = ::popen(("(" + command + ") 2> " + shell_quoted(folder / "err")).c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error{"cannot run " + command};
  ToolRun run;
  std::array<char, 4096> buffer{};
  for (std::size_t got = 0; (got = std::fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) {
    run.out.append(buffer.data(), got);
  }
  const int status = ::pclose(pipe);
  run.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  run.err = bytes_of(folder / "err");
  return run;
}

std::string shell_quoted(const std::string& text) {
  std::string quoted = "'";
  for (const char letter : text) quoted += letter == '\'' ? std::string{"'\\''"} : std::string{letter};
  return quoted + "'";
}

std::uint8_t Picture::at(int x, int y) const {
  if (x < 0 || x >= width || y < 0 || y >= height) throw std::out_of_range{"outside the picture"};
  return grey.at(static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x));
}

Picture Picture::part(const Box& box) const {
  const Length dot = inch / dots_per_inch;
  const auto dots = [&](Length length, int most) {
    return std::clamp(static_cast<int>(std::lround(length / dot)), 0, most);
  };
  const int left = dots(box.x, width), top = dots(box.y, height);
  Picture part{.width = dots(box.right(), width) - left,
               .height = dots(box.bottom(), height) - top,
               .grey = {},
               .dots_per_inch = dots_per_inch};
  part.grey.reserve(static_cast<std::size_t>(part.width) * static_cast<std::size_t>(part.height));
  for (int y = 0; y < part.height; ++y) {
    for (int x = 0; x < part.width; ++x) part.grey.push_back(at(left + x, top + y));
  }
  return part;
}

Picture read_pgm(std::string_view bytes, std::string_view* rest) {
  // "P5 width height 255" with one white space after each, then the rows.
  std::size_t at = 2;
  const auto number = [&] {
    while (at < bytes.size() && bytes.at(at) <= ' ') ++at;
    int value = 0;
    const char* const begin = bytes.data() + at;
    const auto [end, fault] = std::from_chars(begin, bytes.data() + bytes.size(), value);
    if (fault != std::errc{}) throw std::runtime_error{"not a PGM picture"};
    at += static_cast<std::size_t>(end - begin);
    return value;
  };
  if (!bytes.starts_with("P5")) throw std::runtime_error{"not a PGM picture"};
  Picture picture;
  picture.width = number();
  picture.height = number();
  if (number() != 255) throw std::runtime_error{"not an 8 bit picture"};
  std::string_view rows = bytes.substr(at + 1);
  const auto size = static_cast<std::size_t>(picture.width) * static_cast<std::size_t>(picture.height);
  if (rest != nullptr && rows.size() >= size) {
    *rest = rows.substr(size);
    rows = rows.substr(0, size);
  }
  picture.grey.assign(rows.begin(), rows.end());
  if (picture.grey.size() != size) {
    throw std::runtime_error{"a PGM picture cut short"};
  }
  return picture;
}

std::vector<Picture> all_printed(const std::string& file, int dots_per_inch) {
  const auto run = run_tool(fmt::format("pdftoppm -gray -r {} {}", dots_per_inch, shell_quoted(file)));
  if (run.status != 0) throw std::runtime_error{run.err};
  std::vector<Picture> pages;
  for (std::string_view rest = run.out; !rest.empty();) {
    pages.push_back(read_pgm(rest, &rest));
    pages.back().dots_per_inch = dots_per_inch;
  }
  return pages;
}

Picture printed(const std::string& pdf, int page, int dots_per_inch) { return printed(pdf, page, dots_per_inch, {}); }

Picture printed(const std::string& pdf, int page, int dots_per_inch, const Dots& part) {
  const TemporaryFolder folder;
  put_bytes(folder / "paper.pdf", pdf);
  // pdftoppm takes a width or height of 0 for the whole page.
  const ToolRun run =
      run_tool(fmt::format("pdftoppm -gray -singlefile -r {} -f {} -l {} -x {} -y {} -W {} -H {} {} {}",
                           dots_per_inch, page, page, part.left, part.top, part.width, part.height,
                           shell_quoted(folder / "paper.pdf"), shell_quoted(folder / "paper")));
  if (run.status != 0 || !run.err.empty()) throw std::runtime_error{"pdftoppm: " + run.err};
  Picture picture = read_pgm(bytes_of(folder / "paper.pgm"));
  picture.dots_per_inch = dots_per_inch;
  return picture;
}

std::string copied_text(const std::string& pdf) {
  const TemporaryFolder folder;
  put_bytes(folder / "paper.pdf", pdf);
  const ToolRun run = run_tool("pdftotext -enc UTF-8 " + shell_quoted(folder / "paper.pdf") + " -");
  if (run.status != 0 || !run.err.empty()) throw std::runtime_error{"pdftotext: " + run.err};
  return run.out;
}

std::vector<std::string> read_by_zxing(const Picture& picture) {
  ReaderOptions options;
  options.setFormats(ZXing::BarcodeFormat::QRCode);
  const ZXing::ImageView view{picture.grey.data(), picture.width, picture.height, ZXing::ImageFormat::Lum};
  std::vector<std::string> texts;
  for (const auto& code : ZXing::ReadBarcodes(view, options)) texts.push_back(code.text());
  std::sort(texts.begin(), texts.end());
  return texts;
}

std::vector<std::string> read_by_zbar(const Picture& picture) {
  zbar::ImageScanner scanner;
  scanner.set_config(zbar::ZBAR_NONE, zbar::ZBAR_CFG_ENABLE, 0);
  scanner.set_config(zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_ENABLE, 1);
  zbar::Image image{static_cast<unsigned>(picture.width), static_cast<unsigned>(picture.height), "Y800",
                    picture.grey.data(), static_cast<unsigned long>(picture.grey.size())};
  scanner.scan(image);
  std::vector<std::string> texts;
  for (auto symbol = image.symbol_begin(); symbol != image.symbol_end(); ++symbol) {
    texts.push_back(symbol->get_data());
  }
  std::sort(texts.begin(), texts.end());
  return texts;
}

}  // namespace blankwright
