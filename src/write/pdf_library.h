#pragma once

// libharu's document, with its failures thrown. For pdf*.cpp only: the one place that sees the library.

#include <hpdf.h>
#include <hpdf_doc.h>

#include <memory>
#include <string>
#include <string_view>

namespace blankwright {

struct FreeHaruDocument {
  void operator()(HPDF_Doc document) const { HPDF_Free(document); }
};
using HaruDocument = std::unique_ptr<_HPDF_Doc_Rec, FreeHaruDocument>;

/// An empty document. What fails in it is thrown as WorldError; after that it can only be freed.
HaruDocument new_haru_document();

[[noreturn]] void haru_failed(HPDF_STATUS code);

/// For the library's inner functions, which report failures without calling the document's error handler.
inline void must(HPDF_STATUS status) {
  if (status != HPDF_OK) haru_failed(status);
}
template <class Object>
Object* must(Object* object) {
  if (object == nullptr) haru_failed(HPDF_FAILD_TO_ALLOC_MEM);
  return object;
}

struct FreeHaruStream {
  void operator()(HPDF_Stream stream) const { HPDF_Stream_Free(stream); }
};
using HaruStream = std::unique_ptr<_HPDF_Stream_Rec, FreeHaruStream>;

/// A stream that adds what the library writes to `out`, which must outlive it; a stream of the library's own copies
/// it byte by byte, three times.
HaruStream stream_into(std::string& out, HPDF_MMgr memory);

/// Gives a dictionary's empty stream bytes that are deflated already. The library is told to leave them as they are,
/// and the dictionary says what they are.
void set_deflated(HPDF_Dict dictionary, std::string_view bytes);

/// Puts a text string into a dictionary, which owns it: plain where ASCII, else UTF-16 with a byte order mark
/// (ISO 32000-1, 7.9.2.2). `text` as in DocumentInfo.
void add_haru_text(HPDF_Dict dictionary, const char* key, std::string_view text);

}  // namespace blankwright
