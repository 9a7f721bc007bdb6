#pragma once

// The sheets that are true to size, for orders that a test varies, and what it finds on them.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "sheet/mark/canvas.h"
#include "sheet/sheet/half_profile.h"
#include "sheet/sheet/sheets.h"
#include "test_dossier.h"

namespace blankwright::true_size {

/// What a test varies. Shops and clients are invented.
struct Handle {
  std::vector<std::pair<double, double>> stations;  // from the seat and diameter, in mm
  bool smooth = false, inches = false, letter = false, draft = false;
  int margin = 12;  // mm
  double bar_x = 100, bar_y = 100;
  std::string section = {};  // of a squared blank that is there already
};

inline const std::vector<std::pair<double, double>> small{{0, 26}, {40, 34}, {80, 30}, {108, 24}};

// Bore 9 mm; 1.5 mm are left on for the finish.
inline TestOrder order_of(const Handle& h) {
  std::string stations;
  for (const auto& [along, diameter] : h.stations) {
    stations += fmt::format("{{at = \"{:.3f} mm\", diameter = \"{:.3f} mm\"}},", along, diameter);
  }
  const double length = h.stations.back().first + 20;
  const std::string blank =
      h.section.empty()
          ? ""
          : fmt::format("[blank]\nsection = \"{}\"\nlength = \"{} mm\"\nstate = \"squared\"\n", h.section, length);
  const std::string job = fmt::format(
      "format = 1\nid = \"TA-0147\"\nclient = \"Osric Lamm\"\nitem = \"burnisher handle\"\nquantity = 3\n[handle]\n"
      "form = \"{}\"\nstations = [{}]\n[stud]\nthread = \"M8\"\nenters = \"14 mm\"\n[bore]\ndrill = \"9 mm\"\n"
      "[wood]\nspecies = \"European beech\"\nmoisture = \"9 %\"\n{}",
      h.smooth ? "smooth" : "straight", stations, blank);
  const std::string printer =
      h.bar_x == 100 && h.bar_y == 100
          ? ""
          : fmt::format("[printer]\nbar_x = \"{} mm\"\nbar_y = \"{} mm\"\n", h.bar_x, h.bar_y);
  const std::string shop = fmt::format(
      "format = 1\nname = \"Three Alders Handle Workshop\"\nzone = \"Europe/Vienna\"\nunits = \"{}\"\n"
      "[hours]\nmonday = [\"07:30-16:30\"]\n[allowances]\nfinish = \"1.5 mm\"\n[glue]\nleast_edge = \"100 %\"\n"
      "[yield]\nexpected = \"17 of 20\"\n{}[[routing]]\nname = \"Bore\"\nwho = \"turner\"\nfixed = \"20 min\"\n",
      h.inches ? "inch" : "metric", printer);
  return TestOrder{job, shop,
                   fmt::format("format = 1\npaper = \"{}\"\nmargin = \"{} mm\"\ntargets = \"each\"\n",
                               h.letter ? "Letter" : "A4", h.margin),
                   h.draft};
}

/// Targets, then the half-profile.
inline std::vector<Page> pages_of(const TestOrder& order) {
  std::vector<Page> pages = target_sheets(order.dossier(), fonts_for_test());
  for (Page& page : half_profile_pages(order.dossier(), fonts_for_test())) pages.push_back(std::move(page));
  return pages;
}

inline bool near(Length a, Length b, Length slack = 0.001 * mm) { return abs(a - b) <= slack; }

// -- what stands on a page
// -------------------------------------------------------------------------------------------

inline Box box_of(const std::vector<Path>& paths) {
  Spot low = paths.front().front(), high = low;
  for (const Path& path : paths) {
    for (const Spot& s : path) {
      low = {std::min(low.x, s.x), std::min(low.y, s.y)};
      high = {std::max(high.x, s.x), std::max(high.y, s.y)};
    }
  }
  return {low.x, low.y, high.x - low.x, high.y - low.y};
}

inline Box ink_of(const Text& t) {
  const Length width = fonts_for_test().width(t.words, t.face, t.size);
  const Length capitals = fonts_for_test().cap_height(t.face, t.size), under = 0.2 * capitals;
  return t.turn / degree > 45 ? Box{t.at.x - capitals, t.at.y - width, capitals + under, width}
                              : Box{t.at.x, t.at.y - capitals, width, capitals + under};
}

inline bool overlap(const Box& a, const Box& b) {
  const Length touch = 0.02 * mm;
  return a.x + touch < b.right() && b.x + touch < a.right() && a.y + touch < b.bottom() && b.y + touch < a.bottom();
}

inline bool holds(const Box& outer, const Box& in) {
  const Length line = 0.26 * mm;  // half the width of the widest one, which may stand on the margin
  return in.x >= outer.x - line && in.y >= outer.y - line && in.right() <= outer.right() + line &&
         in.bottom() <= outer.bottom() + line;
}

inline std::vector<Text> texts_on(const Page& page) {
  std::vector<Text> out;
  for (const Item& item : page.items) {
    if (const auto* text = std::get_if<Text>(&item.mark)) out.push_back(*text);
  }
  return out;
}

inline bool shows(const Page& page, const std::string& words) {
  const auto all = texts_on(page);
  return std::any_of(all.begin(), all.end(), [&](const Text& t) { return t.words.find(words) != std::string::npos; });
}

inline std::vector<Stroke> strokes_on(const Page& page) {
  std::vector<Stroke> out;
  for (const Item& item : page.items) {
    if (const auto* stroke = std::get_if<Stroke>(&item.mark)) out.push_back(*stroke);
  }
  return out;
}

/// Boxes of the rings, or of the filled dots; without those of the sign in the head.
inline std::vector<Box> rings_on(const Page& page, bool filled = false) {
  std::vector<Box> out;
  for (const Item& item : page.items) {
    const auto* ellipse = std::get_if<Ellipse>(&item.mark);
    if (ellipse == nullptr || (ellipse->width == Length{}) != filled) continue;
    const bool in_head = ellipse->box.right() < 42 * mm && ellipse->box.bottom() < 42 * mm;
    if (!in_head) out.push_back(ellipse->box);
  }
  return out;
}

/// Outlines of targets: the largest closed rectangles round rings, none inside another.
inline std::vector<Box> targets_on(const Page& page) {
  const auto rings = rings_on(page);
  std::vector<Box> out;
  for (const Stroke& s : strokes_on(page)) {
    if (!s.closed || s.paths.front().size() != 4) continue;
    const Box box = box_of(s.paths);
    const bool has_ring = std::any_of(rings.begin(), rings.end(), [&](const Box& r) { return holds(box, r); });
    if (has_ring) out.push_back(box);
  }
  std::vector<Box> outer;
  for (const Box& a : out) {
    if (std::none_of(out.begin(), out.end(), [&](const Box& b) { return !(a == b) && holds(b, a); }))
      outer.push_back(a);
  }
  return outer;
}

inline bool is_target_page(const Page& page) { return page.label.starts_with("End targets"); }

/// The last page of targets: it says what all of them mean.
inline Page last_targets(const TestOrder& order) {
  auto pages = pages_of(order);
  std::erase_if(pages, [](const Page& page) { return !is_target_page(page); });
  return pages.back();
}

inline void check_page(const Page& page, Length margin) {
  const Box room{margin, margin, page.paper.width - 2 * margin, page.paper.height - 2 * margin};
  const auto texts = texts_on(page);
  const auto targets = targets_on(page);
  for (const Stroke& s : strokes_on(page)) {
    if (!holds(room, box_of(s.paths))) FAIL_CHECK("a line runs over the margin");
  }
  for (const Box& ring : rings_on(page)) {
    if (!holds(room, ring)) FAIL_CHECK("a ring runs over the margin");
  }
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const Box a = ink_of(texts[i]);
    CAPTURE(texts[i].words);
    if (!holds(room, a)) FAIL_CHECK("runs over the margin");
    for (std::size_t k = i + 1; k < texts.size(); ++k) {
      if (overlap(a, ink_of(texts[k]))) FAIL_CHECK("overlaps \"" << texts[k].words << "\"");
    }
    for (const Box& t : targets) {
      if (overlap(t, a) && !holds(t, a)) FAIL_CHECK("is cut by a target's outline");
    }
    for (const Box& ring : rings_on(page)) {
      if (overlap(ring, a)) FAIL_CHECK("lies in a ring");
    }
  }
  for (std::size_t i = 0; i < targets.size(); ++i) {
    for (std::size_t k = i + 1; k < targets.size(); ++k) CHECK(!overlap(targets[i], targets[k]));
  }
}

/// The bars across and down: single lines, longer than 90 mm, alone in a stroke of two.
inline std::vector<Path> bars_on(const Page& page) {
  for (const Stroke& s : strokes_on(page)) {
    if (s.closed || s.paths.size() != 2 || s.dash != Dash::solid) continue;
    const Path &a = s.paths[0], &b = s.paths[1];
    if (a.size() == 2 && b.size() == 2 && a[0].y == a[1].y && b[0].x == b[1].x && a[1].x - a[0].x > 90 * mm)
      return s.paths;
  }
  return {};
}

inline std::vector<Handle> kinds() {
  std::vector<Handle> out;
  for (const bool inches : {false, true}) {
    for (const bool letter : {false, true}) {
      for (const auto& [x, y] : {std::pair{100.0, 100.0}, std::pair{99.8, 100.3}, std::pair{97.0, 103.0}}) {
        Handle h{small};
        h.inches = inches;
        h.letter = letter;
        h.bar_x = x;
        h.bar_y = y;
        out.push_back(h);
      }
    }
  }
  return out;
}

}  // namespace blankwright::true_size
