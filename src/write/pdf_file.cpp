#include "write/pdf_file.h"

#include <algorithm>
#include <utility>

#include "diagnose/failure.h"
#include "write/pdf_content.h"

namespace blankwright {

PdfObject PdfFile::reserved() {
  places_.push_back(0);
  return {places_.size()};
}

void PdfFile::set(PdfObject object, std::string_view body) {
  std::size_t& place = places_.at(object.number - 1);
  BW_EXPECT(place == 0);
  place = bytes_.size();
  bytes_ += fmt::format("{} 0 obj\n", object.number);
  bytes_ += body;
  bytes_ += "\nendobj\n";
}

PdfObject PdfFile::add(std::string_view body) {
  const PdfObject object = reserved();
  set(object, body);
  return object;
}

PdfObject PdfFile::add_stream(std::string_view bytes, Deflate effort, std::string_view entries) {
  const std::string content = deflated(bytes, effort);
  return add(
      fmt::format("<</Length {} /Filter /FlateDecode {}>>\nstream\n{}\nendstream", content.size(), entries, content));
}

std::string PdfFile::finished(PdfObject catalog, PdfObject info) && {
  const std::size_t table = bytes_.size();
  bytes_ += fmt::format("xref\n0 {}\n0000000000 65535 f \n", places_.size() + 1);
  for (const std::size_t place : places_) {
    BW_EXPECT(place != 0);
    bytes_ += fmt::format("{:010} 00000 n \n", place);
  }
  bytes_ += fmt::format("trailer\n<</Size {} /Root {} /Info {}>>\nstartxref\n{}\n%%EOF\n", places_.size() + 1,
                        catalog, info, table);
  return std::move(bytes_);
}

std::string pdf_string(std::string_view bytes) {
  std::string out = "(";
  for (const char byte : bytes) {
    if (byte == '(' || byte == ')' || byte == '\\') out += '\\';
    out += byte;
  }
  return out + ')';
}

std::string pdf_text(std::string_view text) {
  const std::u16string units = utf16_of(text);
  if (std::ranges::all_of(units, [](char16_t unit) { return unit < 0x80; })) return pdf_string(text);
  std::string out = "<FEFF";
  for (const char16_t unit : units) out += fmt::format("{:04X}", static_cast<unsigned>(unit));
  return out + '>';
}

}  // namespace blankwright
