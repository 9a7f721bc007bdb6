#include "write/pdf_file.h"

#include <doctest/doctest.h>

#include <string>

#include "diagnose/failure.h"

using namespace blankwright;

TEST_CASE("every object stands where the file's table says, whatever the lengths of its streams") {
  // ISO 32000-1, 7.5.4: lines of 20 bytes, the first of them that of object 0; 7.5.5: startxref, the table's place.
  PdfFile file;
  const PdfObject catalog = file.reserved();
  for (std::size_t length = 0; length < 600; ++length) {
    std::string bytes;
    for (std::size_t i = 0; i < length; ++i) bytes += static_cast<char>(i * i % 251);
    file.add_stream(bytes, Deflate::quick);
  }
  const PdfObject info = file.add("<</Title (last)>>");
  file.set(catalog, "<</Type /Catalog>>");
  const std::string bytes = std::move(file).finished(catalog, info);

  const std::size_t start = bytes.rfind("startxref\n");
  REQUIRE(start != std::string::npos);
  const std::size_t table = std::stoul(bytes.substr(start + 10));
  const std::string head = "xref\n0 603\n";
  REQUIRE(bytes.substr(table, head.size()) == head);
  for (std::size_t number = 1; number <= 602; ++number) {
    CAPTURE(number);
    const std::string line = bytes.substr(table + head.size() + 20 * number, 20);
    CHECK(line.substr(10) == " 00000 n \n");
    const std::size_t place = std::stoul(line);
    const std::string begin = std::to_string(number) + " 0 obj\n";
    CHECK(bytes.substr(place, begin.size()) == begin);
    const std::size_t end = bytes.find("\nendobj\n", place);
    const std::size_t stream = bytes.find("stream\n", place);
    if (stream > end) continue;
    const std::size_t length = std::stoul(bytes.substr(bytes.find("/Length ", place) + 8));
    CHECK(bytes.substr(stream + 7 + length, 18) == "\nendstream\nendobj\n");
  }
  CHECK(bytes.find("/Size 603 /Root 1 0 R /Info 602 0 R") != std::string::npos);
}

TEST_CASE("an object that was announced is written, and once") {
  PdfFile file;
  const PdfObject object = file.reserved();
  CHECK_THROWS_AS(PdfFile{file}.finished(object, object), BrokenPromise);
  file.set(object, "null");
  CHECK_THROWS_AS(file.set(object, "null"), BrokenPromise);
}

TEST_CASE("text in a document is ASCII as it is, and else UTF-16 with its mark") {
  // ISO 32000-1, 7.3.4.2: brackets and the backslash are escaped; 7.9.2.2: U+FEFF first, most significant byte first.
  CHECK(pdf_text("Three Alders (2) \\ x") == "(Three Alders \\(2\\) \\\\ x)");
  CHECK(pdf_text("\u00D832 \u2192") == "<FEFF00D80033003200202192>");
  CHECK(pdf_string("https://m\u00FChle.example/(r)#") == "(https://m\u00FChle.example/\\(r\\)#)");
}
