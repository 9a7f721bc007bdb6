#include "write/pdf_shared.h"

#include <algorithm>
#include <map>
#include <unordered_map>
#include <utility>
#include <variant>

namespace blankwright {
namespace {

/// Less than this, as content, is not worth a stream of its own.
constexpr std::size_t least_shared = 400;

/// Covers what lies below it, so that the order matters from here on.
bool covers(const Item& item) {
  const auto* fill = std::get_if<Fill>(&item.mark);
  return (fill != nullptr && fill->white) || std::holds_alternative<Image>(item.mark);
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

struct Standing {
  std::vector<std::size_t> pages;  ///< a page twice where it stands on it twice
  std::size_t size = 0;            ///< of its content
};

using Pages = std::vector<std::size_t>;

bool on_several_once(const Pages& pages) {
  return pages.size() > 1 && std::ranges::adjacent_find(pages) == pages.end();
}

}  // namespace

TakenApart taken_apart(std::span<const Page> pages) {
  std::unordered_map<std::string, Standing> standing;
  std::vector<std::vector<const Standing*>> of_item(pages.size());  // none for what is not shared
  for (std::size_t p = 0; p < pages.size(); ++p) {
    of_item.at(p).resize(pages[p].items.size());
    for (std::size_t i = 0; i < pages[p].items.size() && !covers(pages[p].items.at(i)); ++i) {
      const Item& item = pages[p].items.at(i);
      if (!may_be_shared(item)) continue;
      std::string content = content_of(pages[p].paper, item);
      const std::size_t size = content.size();
      Standing& here = standing[std::move(content)];
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
      const Standing* marks = of_item.at(p).at(i);
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
