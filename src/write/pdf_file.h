#pragma once

#include <fmt/format.h>

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "write/deflated.h"

namespace blankwright {

/// An object of a PDF file. Printed it is what other objects name it by: "12 0 R".
struct PdfObject {
  std::size_t number = 0;
};

/// A PDF file as it is written, object after object (ISO 32000-1, 7.5).
class PdfFile {
 public:
  /// An object that others name before it is written; set() must follow.
  PdfObject reserved();
  /// `body` as in ISO 32000-1, 7.3: "<</Type /Catalog>>".
  void set(PdfObject object, std::string_view body);
  PdfObject add(std::string_view body);
  /// `entries`: what its dictionary says besides length and filter.
  PdfObject add_stream(std::string_view bytes, Deflate effort, std::string_view entries = {});
  /// The whole file. Every reserved object has been set (BW_EXPECT).
  std::string finished(PdfObject catalog, PdfObject info) &&;

 private:
  std::string bytes_ = "%PDF-1.7\n%\xE2\xE3\xCF\xD3\n";  // bytes beyond ASCII tell that the file is no text (7.5.2)
  std::vector<std::size_t> places_;                      // of the objects from number 1 on; 0 where not written yet
};

/// A literal string (ISO 32000-1, 7.3.4.2). `bytes` hold no line ends.
std::string pdf_string(std::string_view bytes);

/// A text string (ISO 32000-1, 7.9.2.2): as it is where ASCII, else UTF-16 with a byte order mark. `text` as in
/// DocumentInfo.
std::string pdf_text(std::string_view text);

}  // namespace blankwright

template <>
struct fmt::formatter<blankwright::PdfObject> {
  constexpr auto parse(fmt::format_parse_context& context) { return context.begin(); }
  auto format(blankwright::PdfObject object, fmt::format_context& context) const {
    return fmt::format_to(context.out(), "{} 0 R", object.number);
  }
};
