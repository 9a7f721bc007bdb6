#pragma once

// What a test needs to look at paper: run a tool on a PDF, see the picture that a printer would make, read its codes.
// Needs the commands qpdf, pdfinfo, pdffonts, pdftotext, pdftoppm, mutool (Debian: qpdf, poppler-utils,
// mupdf-tools).

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "measure/quantity.h"
#include "sheet/mark/page.h"

namespace blankwright {

struct ToolRun {
  int status = 0;
  std::string out;
  std::string err;
};

/// Runs a command line of the shell to its end.
ToolRun run_tool(const std::string& command);

/// Text in single quotes for the shell.
std::string shell_quoted(const std::string& text);

/// A grey picture, 0 black to 255 white, row by row.
struct Picture {
  int width = 0, height = 0;
  std::vector<std::uint8_t> grey;
  int dots_per_inch = 300;

  std::uint8_t at(int x, int y) const;  ///< checked
  /// The part inside a box of the page.
  Picture part(const Box& box) const;
};

/// A binary PGM picture (P5, 8 bits). Where `rest` is given, what follows the picture is left in it; else nothing may
/// follow.
Picture read_pgm(std::string_view bytes, std::string_view* rest = nullptr);

/// A page as pdftoppm draws it; dots that an edge runs through are grey, so that 128 parts black from white at half a
/// dot. `page` counts from 1.
Picture printed(const std::string& pdf, int page = 1, int dots_per_inch = 300);

/// A part of such a picture, in dots: takes less time than the page where much more is white.
struct Dots {
  int left = 0, top = 0, width = 0, height = 0;
};
Picture printed(const std::string& pdf, int page, int dots_per_inch, const Dots& part);

/// All pages of a PDF file as pdftoppm draws them.
std::vector<Picture> all_printed(const std::string& file, int dots_per_inch);

/// pdftotext's words of all pages, pages parted by a form feed.
std::string copied_text(const std::string& pdf);

/// The texts of the QR symbols in a picture, as one of the two readers finds them, sorted.
std::vector<std::string> read_by_zxing(const Picture& picture);
std::vector<std::string> read_by_zbar(const Picture& picture);

}  // namespace blankwright
