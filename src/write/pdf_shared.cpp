#include "write/pdf_shared.h"

#include <algorithm>
#include <map>
#include <optional>
#include <unordered_map>
#include <utility>
#include <variant>

namespace blankwright {
namespace {

/// Less than this, as content, is not worth a stream of its own.
constexpr std::size_t least_shared = 400;

void take_in(std::optional<Box>& all, const Box& box) {
  if (!all) {
    all = box;
    return;
  }
  const Length right = std::max(all->right(), box.right()), bottom = std::max(all->bottom(), box.bottom());
  const Length x = std::min(all->x, box.x), y = std::min(all->y, box.y);
  all = Box{x, y, right - x, bottom - y};
}

Box grown(const Box& box, Length by) { return {box.x - by, box.y - by, box.width + 2 * by, box.height + 2 * by}; }

/// What a mark reaches at most.
struct Reach {
  std::optional<Box> operator()(const Text& text) const {  // no letter is wider than its em, whichever way it runs
    const Length far = static_cast<double>(text.words.size() + 1) * text.size;
    return grown({text.at.x, text.at.y, {}, {}}, far);
  }
  std::optional<Box> operator()(const Stroke& stroke) const { return of(stroke.paths, stroke.width); }
  std::optional<Box> operator()(const Fill& fill) const { return of(fill.paths, {}); }
  std::optional<Box> operator()(const Ellipse& ellipse) const { return grown(ellipse.box, ellipse.width); }
  std::optional<Box> operator()(const Matrix& matrix) const {
    const Length side = matrix.side * matrix.module;
    return Box{matrix.at.x, matrix.at.y, side, side};
  }
  std::optional<Box> operator()(const Image& image) const { return image.box; }

 private:
  static std::optional<Box> of(const std::vector<Path>& paths, Length width) {
    std::optional<Box> all;
    for (const Path& path : paths) {
      for (const Spot& spot : path) take_in(all, grown({spot.x, spot.y, {}, {}}, width));
    }
    return all;
  }
};

/// Covers what lies below it, so that the order matters there.
bool covers(const Item& item) {
  const auto* fill = std::get_if<Fill>(&item.mark);
  return (fill != nullptr && fill->ink != Ink::black) || std::holds_alternative<Image>(item.mark);
}

bool touch(const Box& a, const Box& b) {
  return a.x <= b.right() && b.x <= a.right() && a.y <= b.bottom() && b.y <= a.bottom();
}

bool may_be_shared(const Item& item) {
  return std::holds_alternative<Text>(item.mark) || std::holds_alternative<Stroke>(item.mark) ||
         std::holds_alternative<Ellipse>(item.mark);
}

/// A mark by itself, as content: the same text means the same mark on the same paper.
std::string content_of(const Paper& paper, const Item& item) {
  UsedCharacters used;
  UsedImages images;
  return pdf_content({paper, {item}}, used, images);
}

struct UsedItem {
  std::vector<std::size_t> pages;  ///< a page twice where it stands on it twice
  std::size_t size = 0;            ///< of its content
};

using Pages = std::vector<std::size_t>;

bool on_several_once(const Pages& pages) {
  return pages.size() > 1 && std::ranges::adjacent_find(pages) == pages.end();
}

}  // namespace

TakenApart taken_apart(std::span<const Page> pages) {
  std::unordered_map<std::string, UsedItem> standing;
  std::vector<std::vector<const UsedItem*>> of_item(pages.size());  // none for what is not shared
  for (std::size_t p = 0; p < pages.size(); ++p) {
    of_item.at(p).resize(pages[p].items.size());
    std::vector<Box> covered;
    for (std::size_t i = 0; i < pages[p].items.size(); ++i) {
      const Item& item = pages[p].items.at(i);
      const std::optional<Box> reach = std::visit(Reach{}, item.mark);
      if (!reach) continue;
      const bool on_top = std::ranges::any_of(covered, [&](const Box& box) { return touch(box, *reach); });
      if (covers(item)) covered.push_back(grown(*reach, 1 * mm));
      if (on_top || !may_be_shared(item)) continue;
      std::string content = content_of(pages[p].paper, item);
      const std::size_t size = content.size();
      UsedItem& here = standing[std::move(content)];
      here.pages.push_back(p);
      here.size = size;
      of_item.at(p).at(i) = &here;
    }
  }

  std::map<Pages, std::size_t> sizes;  // of all that stands on the same pages
  for (const auto& [content, marks] : standing) {
    if (on_several_once(marks.pages)) sizes[marks.pages] += marks.size;
  }
  TakenApart out;
  std::map<Pages, std::size_t> number;  // in `shared`
  for (std::size_t p = 0; p < pages.size(); ++p) {
    out.rest.push_back({.paper = pages[p].paper});
    for (std::size_t i = 0; i < pages[p].items.size(); ++i) {
      const Item& item = pages[p].items.at(i);
      const UsedItem* marks = of_item.at(p).at(i);
      const bool shared = marks != nullptr && on_several_once(marks->pages) && sizes.at(marks->pages) >= least_shared;
      if (!shared) {
        out.rest.back().items.push_back(item);
        continue;
      }
      const auto [place, is_new] = number.try_emplace(marks->pages, out.shared.size());
      if (is_new) out.shared.push_back({{.paper = pages[p].paper}, marks->pages});
      SharedMarks& group = out.shared.at(place->second);
      if (group.pages.front() == p) group.marks.items.push_back(item);
    }
  }
  return out;
}

}  // namespace blankwright
