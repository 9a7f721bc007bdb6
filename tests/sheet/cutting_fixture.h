#pragma once

// An order of which only what cutting plan and stamping list are made from is worked out. Boards, clients and items
// are invented.

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "plan/wood/cutting.h"
#include "table_pages_fixture.h"

namespace blankwright {

/// What a test varies.
struct Sawing {
  CuttingInput input;
  bool inches = false, letter = false, draft = false;
  int margin = 12;  // mm
  int witnesses = 1;
  bool boards = true;  ///< false: the wood is still to be bought
};

inline Board board(std::string name, double length, double width, double thickness,
                   std::vector<BoardArea> defects = {}) {
  return {std::move(name), length * mm, width * mm, thickness * mm, std::move(defects)};
}

inline BoardArea area(double from, double to, double near, double far) {
  return {from * mm, to * mm, near * mm, far * mm};
}

/// Two boards with a knot, blanks 46 × 46 × 128 mm.
inline CuttingInput two_boards(int count = 18) {
  return {.boards = {board("T4", 820, 165, 52, {area(300, 355, 0, 165), area(610, 660, 0, 60)}),
                     board("T7", 560, 120, 52)},
          .section = 46 * mm,
          .length = 128 * mm,
          .count = count,
          .witness = true,
          .kerf = 3 * mm,
          .end_trim = 20 * mm};
}

/// Keeps what a dossier refers to.
class SawnOrder {
 public:
  explicit SawnOrder(const Sawing& sawing) : draft_{sawing.draft} {
    const table_pages::Job job{.inches = sawing.inches, .letter = sawing.letter, .margin = sawing.margin};
    Diagnostics out;
    const auto source = [](const std::string& name, const std::string& text) {
      return std::make_shared<SourceText>(SourceText{name, text});
    };
    auto words = read_template(source("standard.toml", table_pages::bytes_of_file("/templates/standard.toml")),
                               Template{}, out);
    if (words) words = read_template(source("own.toml", table_pages::template_text(job)), *words, out);
    auto order = read_order(source("job.toml", table_pages::job_text(job)), out);
    auto shop = read_shop(source("shop.toml", table_pages::shop_text(job)), out);
    INFO(rendered(out));
    REQUIRE((words && order && shop));
    words_ = std::move(*words);
    order_ = std::move(*order);
    shop_ = std::move(*shop);
    plan_.start.pieces = sawing.input.count;
    plan_.witnesses = sawing.witnesses;
    plan_.process.resin = &resin_;
    if (sawing.boards) plan_.cutting = cutting_plan(sawing.input);
    for (int n = 0; n < plan_.blanks() && !draft_; ++n)
      blanks_.push_back(BlankId::nth(static_cast<std::uint32_t>(n)));
  }

  const CuttingPlan& cutting() const { return *plan_.cutting; }
  Dossier dossier() const {
    return {order_, shop_, plan_, times_, words_, blanks_, draft_, at_, "Blankwright 0.1.0", {}, {}};
  }

 private:
  bool draft_;
  Instant at_{std::chrono::sys_days{std::chrono::year{2027} / 5 / 3} + std::chrono::hours{7}};
  Template words_;
  Order order_;
  Shop shop_;
  ResinFacts resin_;
  OrderPlan plan_{.species = "European beech", .form = {{{0 * mm, 26 * mm}, {108 * mm, 24 * mm}}, false}};
  OrderTimes times_;
  std::vector<BlankId> blanks_;
};

inline double capitals_of(const Text& text) {
  return table_pages::shared_fonts().cap_height(text.face, text.size) / mm;
}

inline Box box_of(const Path& path) {
  Box box{path.front().x, path.front().y, {}, {}};
  for (const Spot& spot : path) {
    box.x = std::min(box.x, spot.x);
    box.y = std::min(box.y, spot.y);
  }
  for (const Spot& spot : path) {
    box.width = std::max(box.width, spot.x - box.x);
    box.height = std::max(box.height, spot.y - box.y);
  }
  return box;
}

/// The closed rectangles of a page that are drawn in lines of that width.
inline std::vector<Box> rectangles_of(const Page& page, Length width) {
  std::vector<Box> out;
  for (const Item& item : page.items) {
    const auto* stroke = std::get_if<Stroke>(&item.mark);
    if (stroke == nullptr || !stroke->closed || stroke->width != width || stroke->paths.front().size() != 4) continue;
    out.push_back(box_of(stroke->paths.front()));
  }
  return out;
}

/// Words lie inside the margins and clear of each other, and no line or black runs through them; what was cleared in
/// white under them does not count.
inline void check_words(const Page& page, Length margin) {
  const Length slack = 0.02 * mm;
  struct Written {
    std::string words;
    Box box;
  };
  std::vector<Written> texts;
  const auto over = [&](const Box& a, const Box& b) {
    return a.x + slack <= b.right() && b.x + slack <= a.right() && a.y + slack <= b.bottom() &&
           b.y + slack <= a.bottom();
  };
  std::vector<Box> black;
  for (const Item& item : page.items) {
    if (const auto* stroke = std::get_if<Stroke>(&item.mark)) {
      for (Path path : stroke->paths) {
        if (stroke->closed) path.push_back(path.front());
        for (std::size_t i = 1; i < path.size(); ++i) {
          const Spot a = path.at(i - 1), b = path.at(i);
          if (a.x != b.x && a.y != b.y) {  // a slanting line, in short pieces
            for (int n = 0; n < 20; ++n) {
              const double s = n / 20.0;
              black.push_back({a.x + s * (b.x - a.x), a.y + s * (b.y - a.y), 0 * mm, 0 * mm});
            }
            continue;
          }
          black.push_back(box_of({a, b}));
        }
      }
    } else if (const auto* fill = std::get_if<Fill>(&item.mark)) {
      const Box box = box_of(fill->paths.front());
      if (fill->ink == Ink::black) black.push_back(box);
      if (fill->ink == Ink::white) texts.push_back({"", box});
    } else if (const auto* text = std::get_if<Text>(&item.mark)) {
      const Box ink = table_pages::ink(*text);
      CAPTURE(text->words);
      CHECK(ink.x >= margin - slack);
      CHECK(ink.y >= margin - slack);
      CHECK(ink.right() <= page.paper.width - margin + slack);
      CHECK(ink.bottom() <= page.paper.height - margin + slack);
      texts.push_back({text->words, ink});
    }
  }
  for (std::size_t i = 0; i < texts.size(); ++i) {
    const auto& [words, box] = texts.at(i);
    if (words.empty()) continue;
    const Box letters{box.x, box.y, box.width, box.height * 0.75};  // without what hangs below the baseline
    const bool cleared = std::any_of(texts.begin(), texts.end(), [&](const Written& other) {
      return other.words.empty() && other.box.x <= letters.x && other.box.right() >= letters.right() &&
             other.box.y <= letters.y && other.box.bottom() >= letters.bottom();
    });
    for (std::size_t j = i + 1; j < texts.size(); ++j) {
      if (!texts.at(j).words.empty() && over(box, texts.at(j).box))
        FAIL_CHECK("\"" << words << "\" lies over \"" << texts.at(j).words << "\"");
    }
    const bool crossed = std::any_of(black.begin(), black.end(), [&](const Box& b) { return over(b, letters); });
    if (crossed && !cleared) FAIL_CHECK("something runs through \"" << words << "\"");
  }
}

}  // namespace blankwright
