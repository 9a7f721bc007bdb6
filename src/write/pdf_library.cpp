#include "write/pdf_library.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "diagnose/failure.h"
#include "write/pdf_content.h"

namespace blankwright {
namespace {

/// Throwing through the library's frames is safe: it holds nothing that is not freed with the document.
void on_haru_error(HPDF_STATUS code, HPDF_STATUS /*detail*/, void* /*user*/) { haru_failed(code); }

HPDF_STATUS append(HPDF_Stream stream, const HPDF_BYTE* bytes, HPDF_UINT size) {
  static_cast<std::string*>(stream->attr)->append(reinterpret_cast<const char*>(bytes), size);
  return HPDF_OK;
}

HPDF_STATUS write_filter(HPDF_Dict /*dictionary*/, HPDF_Stream into) {
  return HPDF_Stream_WriteStr(into, "/Filter /FlateDecode\012");
}

}  // namespace

void haru_failed(HPDF_STATUS code) { throw WorldError{"PDF", fmt::format("libharu reports error 0x{:04X}", code)}; }

HaruDocument new_haru_document() { return HaruDocument{must(HPDF_New(on_haru_error, nullptr))}; }

HaruStream stream_into(std::string& out, HPDF_MMgr memory) {
  return HaruStream{must(HPDF_CallbackWriter_New(memory, append, &out))};
}

void set_deflated(HPDF_Dict dictionary, std::string_view bytes) {
  must(HPDF_Stream_Write(dictionary->stream, reinterpret_cast<const HPDF_BYTE*>(bytes.data()),
                         static_cast<HPDF_UINT>(bytes.size())));
  dictionary->filter = HPDF_STREAM_FILTER_NONE;
  dictionary->write_fn = write_filter;
}

void add_haru_text(HPDF_Dict dictionary, const char* key, std::string_view text) {
  const std::u16string units = utf16_of(text);
  const HPDF_MMgr memory = dictionary->mmgr;
  if (std::all_of(units.begin(), units.end(), [](char16_t unit) { return unit < 0x80; })) {
    must(HPDF_Dict_Add(dictionary, key, must(HPDF_String_New(memory, std::string{text}.c_str(), nullptr))));
    return;
  }
  std::vector<HPDF_BYTE> bytes{0xFE, 0xFF};
  for (const char16_t unit : units) {
    bytes.push_back(static_cast<HPDF_BYTE>(unit >> 8));
    bytes.push_back(static_cast<HPDF_BYTE>(unit & 0xFF));
  }
  const HPDF_Binary binary = must(HPDF_Binary_New(memory, bytes.data(), static_cast<HPDF_UINT>(bytes.size())));
  must(HPDF_Dict_Add(dictionary, key, binary));
}

}  // namespace blankwright
