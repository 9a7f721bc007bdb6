#pragma once

#include "test_dossier.h"
#include "write/pdf.h"

namespace blankwright {

/// The template that comes with the program, on that paper: "A4" or "Letter".
inline Template template_for_test(const std::string& paper) {
  Diagnostics out;
  const auto source = [](const char* name, const std::string& text) {
    return std::make_shared<const SourceText>(SourceText{name, text});
  };
  const auto standard =
      read_template(source("standard.toml", project_file("templates/standard.toml")), Template{}, out);
  if (!standard) throw std::runtime_error{rendered(out)};
  const auto own = read_template(source("own.toml", "format = 1\npaper = \"" + paper + "\"\n"), *standard, out);
  if (!own) throw std::runtime_error{rendered(out)};
  return *own;
}

inline const PdfFonts& font_files_for_test() {
  static const PdfFonts fonts{project_file("fonts/BlankwrightSans-Regular.ttf"),
                              project_file("fonts/BlankwrightSans-Bold.ttf")};
  return fonts;
}

}  // namespace blankwright
