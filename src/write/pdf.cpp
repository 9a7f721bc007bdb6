#include "write/pdf.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>
#include <vector>

#include "diagnose/failure.h"
#include "write/pdf_content.h"
#include "write/pdf_file.h"
#include "write/pdf_fonts.h"
#include "write/pdf_shared.h"

namespace blankwright {
namespace {

using Objects = std::vector<PdfObject>;

/// Labels are made by the thousand, and little is won by compressing codes any better.
bool has_codes(const Page& page) {
  return std::ranges::any_of(page.items, [](const Item& item) { return std::holds_alternative<Matrix>(item.mark); });
}

/// The content of each page, in several streams where it shares some with other pages: they go on in each other's
/// state (ISO 32000-1, 7.8.2).
std::vector<Objects> added_contents(PdfFile& file, std::span<const Page> pages, UsedCharacters& used,
                                    UsedImages& images) {
  std::vector<Objects> contents(pages.size());
  if (std::ranges::any_of(pages, has_codes)) {  // thousands of pages that have nothing in common
    for (std::size_t p = 0; p < pages.size(); ++p) {
      const Deflate effort = has_codes(pages[p]) ? Deflate::quick : Deflate::thorough;
      contents.at(p) = {file.add_stream(pdf_content(pages[p], used, images), effort)};
    }
    return contents;
  }
  const TakenApart apart = taken_apart(pages);
  for (const SharedMarks& group : apart.shared) {
    const std::string content = "q\n" + pdf_content(group.marks, used, images) + "Q\n";
    const PdfObject stream = file.add_stream(content, Deflate::thorough);
    for (const std::size_t page : group.pages) contents.at(page).push_back(stream);
  }
  for (std::size_t p = 0; p < pages.size(); ++p) {
    contents.at(p).push_back(file.add_stream(pdf_content(apart.rest.at(p), used, images), Deflate::thorough));
  }
  return contents;
}

/// A picture of eight bits a pixel (ISO 32000-1, 8.9.5).
PdfObject added_image(PdfFile& file, const GreyPixels& pixels) {
  const std::string bytes{pixels.grey.begin(), pixels.grey.end()};
  return file.add_stream(
      bytes, Deflate::thorough,
      fmt::format("/Type /XObject /Subtype /Image /Width {} /Height {} /ColorSpace /DeviceGray /BitsPerComponent 8",
                  pixels.width, pixels.height));
}

/// What the contents of all pages name. Every page may name all of it, so that its content need not know which comes
/// first: few documents have more than two fonts and a picture.
PdfObject added_resources(PdfFile& file, const PdfFonts& fonts, const UsedCharacters& used,
                          const UsedImages& images) {
  std::string of_fonts, of_images;
  const auto add = [&](Face face, const std::string& bytes, std::string_view tag) {
    const std::u16string characters = used.in(face);
    if (characters.empty()) return;
    of_fonts += fmt::format("/{} {} ", resource_name(face), embedded_font(file, bytes, tag, characters));
  };
  add(Face::regular, fonts.regular, "BWREGU");
  add(Face::bold, fonts.bold, "BWBOLD");
  for (std::size_t i = 0; i < images.all().size(); ++i) {
    of_images += fmt::format("/{} {} ", image_name(i), added_image(file, *images.all().at(i)));
  }
  return file.add(fmt::format("<</Font <<{}>> /XObject <<{}>>>>", of_fonts, of_images));
}

std::string points(Length length) { return fmt::format("{:.4f}", length / (inch / 72)); }

/// A link without a line round it (ISO 32000-1, 12.5.6.5); nothing where it leads to a label that no page has.
std::string link_entries(const Link& link, std::span<const Page> pages, const Objects& objects) {
  if (link.to.find("://") != std::string::npos) return fmt::format("/A <</S /URI /URI {}>>", pdf_string(link.to));
  const auto found = std::ranges::find(pages, link.to, &Page::label);
  if (found == pages.end()) return {};
  return fmt::format("/Dest [{} /Fit]", objects.at(static_cast<std::size_t>(found - pages.begin())));
}

Objects added_links(PdfFile& file, const Page& page, std::span<const Page> pages, const Objects& objects) {
  Objects added;
  const Length height = page.paper.height;
  for (const Link& link : page.links) {
    const std::string where = link_entries(link, pages, objects);
    if (where.empty()) continue;
    added.push_back(file.add(fmt::format("<</Type /Annot /Subtype /Link /Rect [{} {} {} {}] /Border [0 0 0] {}>>",
                                         points(link.box.x), points(height - link.box.bottom()),
                                         points(link.box.right()), points(height - link.box.y), where)));
  }
  return added;
}

/// The pages and the tree that holds them, which is flat: Poppler and MuPDF read 2,000 pages in 0.2 s all the same.
PdfObject added_pages(PdfFile& file, std::span<const Page> pages, const Objects& objects,
                      const std::vector<Objects>& contents, PdfObject resources) {
  const PdfObject tree = file.reserved();
  for (std::size_t p = 0; p < pages.size(); ++p) {
    const Paper& paper = pages[p].paper;
    for (const Length side : {paper.width, paper.height}) {
      BW_EXPECT(std::isfinite(side / mm) && side >= 2 * mm && side <= 5 * metre);
    }
    const Objects links = added_links(file, pages[p], pages, objects);
    file.set(objects.at(p),
             fmt::format("<</Type /Page /Parent {} /MediaBox [0 0 {} {}] /Contents [{}] /Annots [{}]>>", tree,
                         points(paper.width), points(paper.height), fmt::join(contents.at(p), " "),
                         fmt::join(links, " ")));
  }
  file.set(tree, fmt::format("<</Type /Pages /Count {} /Resources {} /Kids [{}]>>", objects.size(), resources,
                             fmt::join(objects, " ")));
  return tree;
}

/// Pages with the same label in a row.
struct Group {
  std::size_t first, size;
  std::string label;
};

std::vector<Group> groups_of(std::span<const Page> pages) {
  std::vector<Group> groups;
  for (std::size_t p = 0; p < pages.size(); ++p) {
    if (p == 0 || pages[p].label != pages[p - 1].label) groups.push_back({p, 0, pages[p].label});
    ++groups.back().size;
  }
  return groups;
}

/// "Tags 1", "Tags 2" for a group of several pages, "Turner's sheet" for one (ISO 32000-1, 12.4.2).
std::string page_labels(const std::vector<Group>& groups) {
  std::string out;
  for (const Group& group : groups) {
    const bool numbered = group.label.empty() || group.size > 1;
    out += fmt::format("{} <<{}", group.first, numbered ? "/S /D " : "");
    if (!group.label.empty()) out += "/P " + pdf_text(numbered ? group.label + " " : group.label);
    out += ">> ";
  }
  return fmt::format("<</Nums [{}]>>", out);
}

/// A bookmark to the first page of each group with a label (ISO 32000-1, 12.3.3); nothing where there is none.
std::string added_bookmarks(PdfFile& file, std::vector<Group> groups, const Objects& pages) {
  std::erase_if(groups, [](const Group& group) { return group.label.empty(); });
  if (groups.empty()) return {};
  const PdfObject outline = file.reserved();
  Objects marks;
  for (std::size_t i = 0; i < groups.size(); ++i) marks.push_back(file.reserved());
  for (std::size_t i = 0; i < groups.size(); ++i) {
    std::string beside;
    if (i > 0) beside += fmt::format("/Prev {} ", marks.at(i - 1));
    if (i + 1 < marks.size()) beside += fmt::format("/Next {} ", marks.at(i + 1));
    file.set(marks.at(i), fmt::format("<</Title {} /Parent {} {}/Dest [{} /Fit]>>", pdf_text(groups.at(i).label),
                                      outline, beside, pages.at(groups.at(i).first)));
  }
  file.set(outline, fmt::format("<</Type /Outlines /First {} /Last {} /Count {}>>", marks.front(), marks.back(),
                                marks.size()));
  return fmt::format("/Outlines {} ", outline);
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

PdfObject added_info(PdfFile& file, const DocumentInfo& info) {
  std::string entries =
      fmt::format("/Producer (Blankwright) /Creator (Blankwright) /CreationDate ({0}) /ModDate ({0})",
                  pdf_date(info.made_at_unix));
  const auto add = [&](std::string_view key, const std::string& text) {
    if (!text.empty()) entries += fmt::format(" /{} {}", key, pdf_text(text));
  };
  add("Title", info.title);
  add("Author", info.author);
  add("Subject", info.subject);
  return file.add("<<" + entries + ">>");
}

}  // namespace

std::string pdf_of(std::span<const Page> pages, const DocumentInfo& info, const PdfFonts& fonts) {
  BW_EXPECT(!pages.empty());
  PdfFile file;
  Objects objects;  // of the pages, which links name before they are written
  for (std::size_t p = 0; p < pages.size(); ++p) objects.push_back(file.reserved());
  UsedCharacters used;
  UsedImages images;
  const std::vector<Objects> contents = added_contents(file, pages, used, images);
  const PdfObject tree = added_pages(file, pages, objects, contents, added_resources(file, fonts, used, images));
  const std::vector<Group> groups = groups_of(pages);
  std::string catalog = fmt::format("/Type /Catalog /Pages {} {}/PageLabels {}", tree,
                                    added_bookmarks(file, groups, objects), page_labels(groups));
  if (!info.language.empty()) catalog += " /Lang " + pdf_text(info.language);
  if (info.true_to_size) catalog += " /ViewerPreferences <</PrintScaling /None>>";
  const PdfObject root = file.add("<<" + catalog + ">>");
  return std::move(file).finished(root, added_info(file, info));
}

}  // namespace blankwright
