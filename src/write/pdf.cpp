#include "write/pdf.h"

#include <fmt/format.h>
#include <hpdf_pages.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>
#include <vector>

#include "diagnose/failure.h"
#include "write/deflated.h"
#include "write/pdf_content.h"
#include "write/pdf_fonts.h"
#include "write/pdf_library.h"
#include "write/pdf_shared.h"

namespace blankwright {
namespace {

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

/// Labels are made by the thousand, and little is won by compressing codes any better.
bool has_codes(const Page& page) {
  return std::ranges::any_of(page.items, [](const Item& item) { return std::holds_alternative<Matrix>(item.mark); });
}

/// Puts shared marks before what pages have of their own: a page's content may be several streams (ISO 32000-1,
/// 7.8.2), which go on in each other's state.
void add_shared(HPDF_Doc document, std::span<const SharedMarks> shared, std::span<const HPDF_Page> pages,
                UsedCharacters& used, UsedImages& images) {
  std::vector<std::vector<HPDF_Dict>> before(pages.size());
  for (const SharedMarks& group : shared) {
    HPDF_Dict stream = must(HPDF_DictStream_New(document->mmgr, document->xref));
    set_deflated(stream, deflated("q\n" + pdf_content(group.marks, used, images) + "Q\n", Deflate::thorough));
    for (const std::size_t page : group.pages) before.at(page).push_back(stream);
  }
  for (std::size_t p = 0; p < pages.size(); ++p) {
    if (before.at(p).empty()) continue;
    HPDF_Array streams = must(HPDF_Array_New(document->mmgr));
    for (HPDF_Dict stream : before.at(p)) must(HPDF_Array_Add(streams, stream));
    must(HPDF_Array_Add(streams, static_cast<HPDF_PageAttr>(pages[p]->attr)->contents));
    must(HPDF_Dict_Add(pages[p], "Contents", streams));
  }
}

std::vector<HPDF_Page> added_pages(HPDF_Doc document, std::span<const Page> pages, UsedCharacters& used,
                                   UsedImages& images) {
  // A flat tree ends at 32,767 pages, and readers are slow long before.
  constexpr HPDF_UINT pages_in_a_branch = 100;
  if (pages.size() > pages_in_a_branch) must(HPDF_SetPagesConfiguration(document, pages_in_a_branch));
  std::vector<HPDF_Page> added;
  added.reserve(pages.size());
  const auto add = [&](const Page& page) {
    added.push_back(added_page(document, page.paper));
    const HPDF_PageAttr attributes = static_cast<HPDF_PageAttr>(added.back()->attr);
    const Deflate effort = has_codes(page) ? Deflate::quick : Deflate::thorough;
    set_deflated(attributes->contents, deflated(pdf_content(page, used, images), effort));
  };
  if (std::ranges::any_of(pages, has_codes)) {  // thousands of pages that have nothing in common
    std::ranges::for_each(pages, add);
    return added;
  }
  const TakenApart apart = taken_apart(pages);
  std::ranges::for_each(apart.rest, add);
  add_shared(document, apart.shared, added, used, images);
  return added;
}

/// Every page names its fonts alike, so that its content need not know which comes first.
void add_font_resource(HPDF_Page page, const char* name, HPDF_Dict font) {
  HPDF_PageAttr attributes = static_cast<HPDF_PageAttr>(page->attr);
  if (attributes->fonts == nullptr) {
    HPDF_Dict resources = static_cast<HPDF_Dict>(must(HPDF_Dict_GetItem(page, "Resources", HPDF_OCLASS_DICT)));
    attributes->fonts = must(HPDF_Dict_New(page->mmgr));
    must(HPDF_Dict_Add(resources, "Font", attributes->fonts));
  }
  must(HPDF_Dict_Add(attributes->fonts, name, font));
}

/// With all ten digits where there is one: they change from order to order, and without that hardly two orders could
/// share a font.
std::u16string with_all_digits(std::u16string characters) {
  constexpr std::u16string_view digits = u"0123456789";
  if (characters.find_first_of(digits) != std::u16string::npos) characters += digits;
  std::sort(characters.begin(), characters.end());
  characters.erase(std::unique(characters.begin(), characters.end()), characters.end());
  return characters;
}

void add_fonts(HPDF_Doc document, std::span<const HPDF_Page> pages, const PdfFonts& fonts,
               const UsedCharacters& used) {
  const auto add = [&](Face face, const std::string& bytes, const char* tag) {
    const std::u16string characters = used.in(face);
    if (characters.empty()) return;
    const HPDF_Dict font = embedded_font(document, bytes, tag, with_all_digits(characters));
    for (const HPDF_Page page : pages) add_font_resource(page, resource_name(face), font);
  };
  add(Face::regular, fonts.regular, "BWREGU");
  add(Face::bold, fonts.bold, "BWBOLD");
}

/// A picture of eight bits a pixel (ISO 32000-1, 8.9.5).
HPDF_Dict added_image(HPDF_Doc document, const GreyPixels& pixels) {
  HPDF_Dict image = must(HPDF_DictStream_New(document->mmgr, document->xref));
  must(HPDF_Dict_AddName(image, "Type", "XObject"));
  must(HPDF_Dict_AddName(image, "Subtype", "Image"));
  must(HPDF_Dict_AddNumber(image, "Width", pixels.width));
  must(HPDF_Dict_AddNumber(image, "Height", pixels.height));
  must(HPDF_Dict_AddName(image, "ColorSpace", "DeviceGray"));
  must(HPDF_Dict_AddNumber(image, "BitsPerComponent", 8));
  const std::string bytes{pixels.grey.begin(), pixels.grey.end()};
  set_deflated(image, deflated(bytes, Deflate::thorough));
  return image;
}

/// Every page names all of the document's pictures: few documents have more than one.
void add_images(HPDF_Doc document, std::span<const HPDF_Page> pages, const UsedImages& images) {
  if (images.all().empty()) return;
  std::vector<HPDF_Dict> added;
  for (const auto& pixels : images.all()) added.push_back(added_image(document, *pixels));
  for (const HPDF_Page page : pages) {
    HPDF_Dict resources = static_cast<HPDF_Dict>(must(HPDF_Dict_GetItem(page, "Resources", HPDF_OCLASS_DICT)));
    HPDF_Dict names = must(HPDF_Dict_New(page->mmgr));
    must(HPDF_Dict_Add(resources, "XObject", names));
    for (std::size_t i = 0; i < added.size(); ++i) must(HPDF_Dict_Add(names, image_name(i).c_str(), added.at(i)));
  }
}

/// The first page of a label, which a link names.
HPDF_Page page_labelled(std::span<const Page> pages, std::span<const HPDF_Page> added, const std::string& label) {
  const auto found = std::find_if(pages.begin(), pages.end(), [&](const Page& p) { return p.label == label; });
  return found == pages.end() ? nullptr : added[static_cast<std::size_t>(found - pages.begin())];
}

/// Links without a line round them; one to a label that no page has is left out.
void add_links(std::span<const Page> pages, std::span<const HPDF_Page> added) {
  const auto points = [](Length length) { return static_cast<HPDF_REAL>(length / (inch / 72)); };
  std::map<std::string, HPDF_Destination> places;  // of labels that were led to already
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const Length height = pages[i].paper.height;
    for (const Link& link : pages[i].links) {
      const HPDF_Rect box{points(link.box.x), points(height - link.box.bottom()), points(link.box.right()),
                          points(height - link.box.y)};
      HPDF_Annotation annotation = nullptr;
      if (link.to.find("://") != std::string::npos) {
        annotation = must(HPDF_Page_CreateURILinkAnnot(added[i], box, link.to.c_str()));
      } else if (HPDF_Page to = page_labelled(pages, added, link.to)) {
        HPDF_Destination& place = places[link.to];
        if (place == nullptr) place = must(HPDF_Page_CreateDestination(to));
        annotation = must(HPDF_Page_CreateLinkAnnot(added[i], box, place));
      }
      if (annotation != nullptr) must(HPDF_LinkAnnot_SetBorderStyle(annotation, 0, 0, 0));
    }
  }
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
  std::string bytes;
  document->stream = stream_into(bytes, document->mmgr).release();
  // Not HPDF_SaveToFile, which does not notice a full disk.
  must(HPDF_SaveToStream(document));
  return bytes;
}

}  // namespace

std::string pdf_of(std::span<const Page> pages, const DocumentInfo& info, const PdfFonts& fonts) {
  BW_EXPECT(!pages.empty());
  const HaruDocument document = new_haru_document();
  document->pdf_version = HPDF_VER_17;
  add_info(document.get(), info);
  UsedCharacters used;
  UsedImages images;
  const std::vector<HPDF_Page> added = added_pages(document.get(), pages, used, images);
  add_fonts(document.get(), added, fonts, used);
  add_images(document.get(), added, images);
  add_links(pages, added);
  add_groups(document.get(), pages, added);
  return bytes_of(document.get());
}

}  // namespace blankwright
