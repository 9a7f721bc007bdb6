#pragma once

#include <string>
#include <vector>

#include "sheet/mark/canvas.h"
#include "sheet/paper/dossier.h"

namespace blankwright {

/// What stands on a page: a sheet, or the card of a bath or of a load.
struct PartOnPage {
  SheetKind kind{};
  int number = 0;                    ///< of the bath or the load, among those of the run from 1; 0 of what is no card
  std::vector<std::string> names{};  ///< of the bath or the load, as entries name it
  std::vector<BlankId> blanks{};     ///< on the card
};

/// A page that has been begun: its head is drawn, its body is free.
struct Sheet {
  Page page;
  Box body;                 ///< what is left between head and foot
  bool blank_back = false;  ///< nothing is printed behind it: wet resin makes paper translucent, or it is cut out
  std::vector<PartOnPage> parts{};  ///< once it is known what stands on it
  bool true_size = false;           ///< has the bars of a page that is true to size, and free room below
};

Paper paper_of(PaperSize size);

/// Is a page the first of its kind, or does it go on from the one before?
enum class PageOfKind { first, further };

/// Begins a page of the traveller: title, order, issue and the code of both, item, client, wood, quantity and due
/// date at the head, and DRAFT across it where nothing was issued. A page that goes on from the one before says so.
Sheet begin_sheet(const Dossier& dossier, const FontMetrics& fonts, Word title, PageOfKind page = PageOfKind::first);

/// The title of a part that begins below another one, with its sign.
void draw_part_title(Canvas& canvas, const Dossier& dossier, const Box& box, Word title);
inline constexpr Length part_title_height = 9 * mm;

/// What the code of a page says: the order, and behind a stroke the number of its issue.
std::string page_code(const Dossier& dossier);

/// The head of a page that belongs to the shop and to no order.
struct ShopHead {
  std::string title;
  std::string note;
  bool draft = false;  ///< DRAFT stands across the page
};
/// Begins such a page. One that goes on from the one before says so.
Sheet begin_shop_sheet(const Template& t, const FontMetrics& fonts, const ShopHead& head, PageOfKind page);

/// Adds the foot to every page of a document that has something on it: what stands at its left, and "Sheet n / N".
void number_sheets(std::vector<Page>& pages, const Template& t, const FontMetrics& fonts, const std::string& left);
/// Whose a document is, when it was planned and by what.
std::string foot_text(const Template& t, const Shop& shop, Instant at, const std::string& program);
/// Of a draft that it is one.
std::string foot_text(const Dossier& dossier);

/// By what the template multiplies all lettering.
inline double lettering_of(const Template& t) { return t.lettering.value / whole; }

/// A small caption with a value below it, in a box.
void captioned(Canvas& canvas, const Box& box, const std::string& caption, const std::string& value,
               Lettering size = Lettering::hand, Face face = Face::regular);

/// Crosses a page out, grey, so that it is not taken for what is drawn: below everything else, and in no language; in
/// words the foot says that it is a draft.
void draw_draft(Canvas& canvas);

}  // namespace blankwright
