#pragma once

// Marks and pages that the tests of the PDF are made of; places in millimetres.

#include <string>
#include <vector>

#include "sheet/mark/qr.h"
#include "temporary_folder.h"
#include "write/pdf.h"

namespace blankwright {

inline const PdfFonts& fonts() {
  static const std::string folder = std::string{BLANKWRIGHT_SOURCE_DIR} + "/fonts/BlankwrightSans-";
  static const PdfFonts both{bytes_of(folder + "Regular.ttf"), bytes_of(folder + "Bold.ttf")};
  return both;
}

inline const Paper a4{"A4", 210 * mm, 297 * mm};
inline const Paper letter{"Letter", 8.5 * inch, 11 * inch};

inline Item text(double x, double y, const std::string& words, Face face = Face::regular, Length size = 5 * mm) {
  return {Text{.at = {x * mm, y * mm}, .words = words, .face = face, .size = size, .turn = {}}, Role::field};
}

inline Item stroke(double x1, double y1, double x2, double y2, Length width, Dash dash = Dash::solid) {
  return {Stroke{.paths = {{{x1 * mm, y1 * mm}, {x2 * mm, y2 * mm}}}, .width = width, .dash = dash}, Role::rule};
}

inline Path rectangle(double x, double y, double width, double height) {
  return {{x * mm, y * mm},
          {(x + width) * mm, y * mm},
          {(x + width) * mm, (y + height) * mm},
          {x * mm, (y + height) * mm}};
}

inline std::string pdf(const Page& page, const DocumentInfo& info = {}) { return pdf_of({&page, 1}, info, fonts()); }

/// A sheet of tags as the layout makes them: code, four lines, border.
inline Page tag_sheet(const std::vector<std::string>& ids) {
  Page page{.paper = a4, .items = {}, .label = "Tags"};
  for (std::size_t n = 0; n < ids.size(); ++n) {
    const double x = 70.0 * static_cast<double>(n % 3), y = 0.5 + 37.0 * static_cast<double>(n / 3);
    const QrSymbol symbol = qr_symbol({.text = ids.at(n), .least_version = 2}).value();
    const QrPlacing placing = placed_qr(symbol.side, {(x + 3) * mm, (y + 3) * mm, 28 * mm, 31 * mm}).value();
    page.items.push_back(
        {Stroke{.paths = {rectangle(x + 1, y + 1, 68, 35)}, .width = 0.25 * mm, .dash = Dash::tear, .closed = true},
         Role::rule});
    page.items.push_back({Matrix{placing.at, placing.module, symbol.side, symbol.black}, Role::code});
    page.items.push_back(text(x + 33, y + 10, ids.at(n), Face::bold));
    for (const double line : {17.0, 23.0, 29.0})
      page.items.push_back(text(x + 33, y + line, "spalted beech", Face::regular, 3 * mm));
  }
  return page;
}

inline std::vector<std::string> ids_of_a_sheet() {
  std::vector<std::string> ids;
  for (char last = 'A'; last < 'A' + 24; ++last) ids.push_back(std::string{"K7T4X5"} + last);
  return ids;
}

}  // namespace blankwright
