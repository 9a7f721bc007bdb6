#include "write/pdf.h"

#include <fmt/format.h>
#include <hpdf_pages.h>
#include <zlib.h>

#include <chrono>
#include <cmath>
#include <new>
#include <vector>

#include "diagnose/failure.h"
#include "write/pdf_content.h"
#include "write/pdf_fonts.h"
#include "write/pdf_library.h"

namespace blankwright {
namespace {

/// zlib's format at its third level: at the library's own, the sixth, a page of tags takes twice the time to come out
/// a tenth smaller.
std::string deflated(const std::string& content) {
  constexpr int level = 3;
  uLongf size = compressBound(static_cast<uLong>(content.size()));
  std::string out(size, '\0');
  const int status =
      compress2(reinterpret_cast<Bytef*>(out.data()), &size, reinterpret_cast<const Bytef*>(content.data()),
                static_cast<uLong>(content.size()), level);
  if (status != Z_OK) throw std::bad_alloc{};  // the bound leaves no other way to fail
  out.resize(size);
  return out;
}

/// The page's content, compressed here: the library is told to leave it as it is, and the dictionary says what it is.
void add_content(HPDF_Page page, const std::string& content) {
  const HPDF_PageAttr attributes = static_cast<HPDF_PageAttr>(page->attr);
  const std::string bytes = deflated(content);
  must(HPDF_Stream_Write(attributes->stream, reinterpret_cast<const HPDF_BYTE*>(bytes.data()),
                         static_cast<HPDF_UINT>(bytes.size())));
  attributes->contents->filter = HPDF_STREAM_FILTER_NONE;
  attributes->contents->write_fn = [](HPDF_Dict, HPDF_Stream into) -> HPDF_STATUS {
    return HPDF_Stream_WriteStr(into, "/Filter /FlateDecode\012");
  };
}

HPDF_Page added_page(HPDF_Doc document, const Paper& paper) {
  for (const Length side : {paper.width, paper.height}) {
    BW_EXPECT(std::isfinite(side / mm) && side >= 2 * mm && side <= 5 * metre);
  }
  const auto points = [](Length side) { return static_cast<HPDF_REAL>(side / (inch / 72)); };
  HPDF_Page page = must(HPDF_AddPage(document));
  must(HPDF_Page_SetWidth(page, points(paper.width)));
  must(HPDF_Page_SetHeight(page, points(paper.height)));
  return page;
}

std::vector<HPDF_Page> added_pages(HPDF_Doc document, std::span<const Page> pages, UsedCharacters& used) {
  // A flat tree ends at 32,767 pages, and readers are slow long before.
  constexpr HPDF_UINT pages_in_a_branch = 100;
  if (pages.size() > pages_in_a_branch) must(HPDF_SetPagesConfiguration(document, pages_in_a_branch));
  std::vector<HPDF_Page> added;
  added.reserve(pages.size());
  for (const Page& page : pages) {
    added.push_back(added_page(document, page.paper));
    add_content(added.back(), pdf_content(page, used));
  }
  return added;
}

/// Every page names its fonts alike, so that its content need not know which comes first.
void add_font_resource(HPDF_Page page, const char* name, HPDF_Font font) {
  HPDF_PageAttr attributes = static_cast<HPDF_PageAttr>(page->attr);
  if (attributes->fonts == nullptr) {
    HPDF_Dict resources = static_cast<HPDF_Dict>(must(HPDF_Dict_GetItem(page, "Resources", HPDF_OCLASS_DICT)));
    attributes->fonts = must(HPDF_Dict_New(page->mmgr));
    must(HPDF_Dict_Add(resources, "Font", attributes->fonts));
  }
  must(HPDF_Dict_Add(attributes->fonts, name, font));
}

void add_fonts(HPDF_Doc document, std::span<const HPDF_Page> pages, const PdfFonts& fonts,
               const UsedCharacters& used) {
  const std::u16string regular = used.in(Face::regular);
  const std::u16string bold = used.in(Face::bold);
  if (regular.empty() && bold.empty()) return;
  const HPDF_Encoder encoder = encoder_of(document, regular + bold);
  const auto add = [&](Face face, const std::string& bytes, const char* tag, const std::u16string& characters) {
    if (characters.empty()) return;
    const HPDF_Font font = embedded_font(document, encoder, bytes, tag, characters);
    for (const HPDF_Page page : pages) add_font_resource(page, resource_name(face), font);
  };
  add(Face::regular, fonts.regular, "BWREGU", regular);
  add(Face::bold, fonts.bold, "BWBOLD", bold);
}

void add_bookmark(HPDF_Doc document, HPDF_Page page, const std::string& label) {
  HPDF_Outline outline = must(HPDF_CreateOutline(document, nullptr, "", nullptr));
  add_haru_text(outline, "Title", label);
  must(HPDF_Outline_SetDestination(outline, must(HPDF_Page_CreateDestination(page))));
}

/// "Tags 1", "Tags 2" for a group of several pages, "Turner's sheet" for one (ISO 32000-1, 12.4.2).
void add_page_label(HPDF_Doc document, std::size_t first, const std::string& label, std::size_t group_size) {
  HPDF_Dict page_label = must(HPDF_Dict_New(document->mmgr));
  must(HPDF_Catalog_AddPageLabel(document->catalog, static_cast<HPDF_UINT>(first), page_label));
  const bool numbered = label.empty() || group_size > 1;
  if (numbered) must(HPDF_Dict_AddName(page_label, "S", "D"));
  if (!label.empty()) add_haru_text(page_label, "P", numbered ? label + " " : label);
}

void add_groups(HPDF_Doc document, std::span<const Page> pages, std::span<const HPDF_Page> added) {
  for (std::size_t first = 0, end = 0; first < pages.size(); first = end) {
    const std::string& label = pages[first].label;
    while (end < pages.size() && pages[end].label == label) ++end;
    add_page_label(document, first, label, end - first);
    if (!label.empty()) add_bookmark(document, added[first], label);
  }
}

/// ISO 32000-1, 7.9.4, in UTC.
std::string pdf_date(std::int64_t unix_seconds) {
  using namespace std::chrono;
  constexpr std::int64_t year_0 = -62'167'219'200, year_10000 = 253'402'300'800;
  BW_EXPECT(unix_seconds >= year_0 && unix_seconds < year_10000);
  const sys_seconds moment{seconds{unix_seconds}};
  const sys_days midnight = floor<days>(moment);
  const year_month_day date{midnight};
  const hh_mm_ss time{moment - midnight};
  return fmt::format("D:{:04}{:02}{:02}{:02}{:02}{:02}Z", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), time.hours().count(),
                     time.minutes().count(), time.seconds().count());
}

void add_info(HPDF_Doc document, const DocumentInfo& info) {
  HPDF_Dict dictionary = must(document->info);
  const std::string date = pdf_date(info.made_at_unix);
  add_haru_text(dictionary, "Producer", "Blankwright");
  add_haru_text(dictionary, "Creator", "Blankwright");
  add_haru_text(dictionary, "CreationDate", date);
  add_haru_text(dictionary, "ModDate", date);
  if (!info.title.empty()) add_haru_text(dictionary, "Title", info.title);
  if (!info.author.empty()) add_haru_text(dictionary, "Author", info.author);
  if (!info.subject.empty()) add_haru_text(dictionary, "Subject", info.subject);
  if (!info.language.empty()) add_haru_text(document->catalog, "Lang", info.language);
  if (!info.true_to_size) return;
  HPDF_Dict preferences = must(HPDF_Dict_New(document->mmgr));
  must(HPDF_Dict_Add(document->catalog, "ViewerPreferences", preferences));
  must(HPDF_Dict_AddName(preferences, "PrintScaling", "None"));
}

std::string bytes_of(HPDF_Doc document) {
  // Not HPDF_SaveToFile, which does not notice a full disk.
  must(HPDF_SaveToStream(document));
  must(HPDF_ResetStream(document));
  std::string bytes(HPDF_GetStreamSize(document), '\0');
  HPDF_UINT32 size = static_cast<HPDF_UINT32>(bytes.size());
  must(HPDF_ReadFromStream(document, reinterpret_cast<HPDF_BYTE*>(bytes.data()), &size));
  BW_EXPECT(size == bytes.size());
  return bytes;
}

}  // namespace

std::string pdf_of(std::span<const Page> pages, const DocumentInfo& info, const PdfFonts& fonts) {
  BW_EXPECT(!pages.empty());
  const HaruDocument document = new_haru_document();
  document->pdf_version = HPDF_VER_17;
  must(HPDF_SetCompressionMode(document.get(), HPDF_COMP_ALL));
  add_info(document.get(), info);
  UsedCharacters used;
  const std::vector<HPDF_Page> added = added_pages(document.get(), pages, used);
  add_fonts(document.get(), added, fonts, used);
  add_groups(document.get(), pages, added);
  return bytes_of(document.get());
}

}  // namespace blankwright
