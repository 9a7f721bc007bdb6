#include "plan/wood/cutting_layout.h"

#include <algorithm>
#include <functional>
#include <map>
#include <numeric>
#include <utility>

#include "measure/quantity_text.h"

namespace blankwright {
namespace {

/// A stretch along the grain that no blank of a strip may lie over.
struct Stretch {
  Length from, to;
  auto operator<=>(const Stretch&) const = default;
};

/// What is in the way along a strip, sorted.
using Blocked = std::vector<Stretch>;

/// A place across the board for a strip.
struct Row {
  Length near;
  std::size_t kind = 0;    ///< which Blocked lies along it
  std::size_t before = 0;  ///< so many rows lie at least a kerf nearer, strip and all
  bool adjacent = false;   ///< the last of those with nothing but the kerf between
};

/// A board with the places that come into question.
struct Places {
  const Board& board;
  const CuttingInput& in;
  Length left, right;  ///< between which blanks may lie
  std::vector<Blocked> kinds;
  std::vector<Row> rows;
};

Blocked blocked_along(const Places& p, Length near) {
  Blocked out;
  for (const BoardArea& d : p.board.defects) {
    if (!fits(d.near, near + p.in.section) && !fits(near, d.far)) out.push_back({d.from, d.to});
  }
  std::ranges::sort(out);
  return out;
}

/// Sorts, and keeps one of those that are alike. (With GCC 12's library Clang 14 compiles no std::ranges::unique.)
void sort_apart(std::vector<Length>& places) {
  std::ranges::sort(places);
  const auto alike = std::unique(places.begin(), places.end(), [](Length a, Length b) { return fits(a, b); });
  places.erase(alike, places.end());
}

std::vector<Length> row_places(const Places& p) {
  std::vector<Length> edges{0 * mm};
  for (const BoardArea& d : p.board.defects) edges.push_back(d.far);
  std::vector<Length> out;
  for (const Length edge : edges) {
    for (Length near = edge; fits(p.board.width, near + p.in.section); near += p.in.section + p.in.kerf) {
      out.push_back(near);
    }
  }
  sort_apart(out);
  return out;
}

Places places_of(const Board& board, const CuttingInput& in) {
  Places p{board, in, in.end_trim, board.length - in.end_trim, {}, {}};
  std::map<Blocked, std::size_t> kinds;
  std::size_t before = 0;
  for (const Length near : row_places(p)) {
    const Length pitch = in.section + in.kerf;
    while (before < p.rows.size() && fits(near, p.rows.at(before).near + pitch)) ++before;
    const bool adjacent = before > 0 && fits(p.rows.at(before - 1).near + pitch, near);
    const auto [kind, added] = kinds.try_emplace(blocked_along(p, near), p.kinds.size());
    if (added) p.kinds.push_back(kind->first);
    p.rows.push_back({near, kind->second, before, adjacent});
  }
  return p;
}

/// Where blanks begin when each is laid as far to the left as it goes, which no other way surpasses.
std::vector<Length> starts_along(const Blocked& blocked, const Places& p, Length from, Length to) {
  std::vector<Length> out;
  auto next = blocked.begin();
  Length at = from;
  while (fits(to, at + p.in.length)) {
    while (next != blocked.end() && fits(at, next->to)) ++next;
    if (next != blocked.end() && !fits(next->from, at + p.in.length)) {
      at = next->to;
      continue;
    }
    out.push_back(at);
    at += p.in.length + p.in.kerf;
  }
  return out;
}

/// What a layout is worth: blanks first, then the saving of cuts.
struct Worth {
  int blanks = 0;
  int saved = 0;  ///< cuts, less than zero
  auto operator<=>(const Worth&) const = default;
  friend Worth operator+(Worth a, Worth b) { return {a.blanks + b.blanks, a.saved + b.saved}; }
};

/// The best set of strips with the given row as its last.
struct UpToRow {
  Worth worth{-1, 0};        ///< nothing to be had in this row
  std::size_t previous = 0;  ///< the row before it plus one; 0: none
};

/// For each row the best that ends with it, where a strip in row r gives counts[r] blanks.
std::vector<UpToRow> best_up_to(const Places& p, const std::vector<int>& counts) {
  std::vector<UpToRow> best(p.rows.size());
  std::vector<std::size_t> leading{0};  // for each number of rows, the best one to end with, plus one
  const auto worth = [&](std::size_t row) { return row == 0 ? Worth{} : best.at(row - 1).worth; };
  for (std::size_t r = 0; r < p.rows.size(); ++r) {
    const Row& row = p.rows.at(r);
    if (counts.at(r) > 0) {
      const Worth near_rip{0, fits(0 * mm, row.near) ? 0 : -1};
      const Worth far_rip{0, fits(row.near + p.in.section, p.board.width) ? 0 : -1};
      UpToRow& here = best.at(r);
      here = {worth(leading.at(row.before)) + near_rip, leading.at(row.before)};
      if (row.adjacent && worth(row.before) > here.worth) here = {worth(row.before), row.before};
      here.worth = here.worth + Worth{counts.at(r), 0} + far_rip;
    }
    leading.push_back(best.at(r).worth > worth(leading.back()) ? r + 1 : leading.back());
  }
  return best;
}

LaidPanel best_panel(const Places& p, Length from, Length to) {
  std::vector<std::vector<Length>> starts;
  for (const Blocked& blocked : p.kinds) starts.push_back(starts_along(blocked, p, from, to));
  std::vector<int> counts;
  for (const Row& row : p.rows) counts.push_back(static_cast<int>(starts.at(row.kind).size()));
  const auto best = best_up_to(p, counts);
  LaidPanel out;
  const auto last = std::ranges::max_element(best, {}, &UpToRow::worth);
  if (last == best.end() || last->worth.blanks <= 0) return out;
  for (auto row = static_cast<std::size_t>(last - best.begin()) + 1; row > 0; row = best.at(row - 1).previous) {
    out.push_back({p.rows.at(row - 1).near, starts.at(p.rows.at(row - 1).kind)});
  }
  std::ranges::reverse(out);
  return out;
}

/// Where a panel may end, and how many blanks it gives up to there.
struct PanelEnd {
  Length at;
  int blanks;
};

/// All ends of panels from `from` at which one blank more is to be had.
class PanelEnds {
 public:
  PanelEnds(const Places& places, Length from) : p_{places} {
    for (const Blocked& blocked : p_.kinds) {
      ends_.push_back(starts_along(blocked, p_, from, p_.right));
      for (Length& end : ends_.back()) end += p_.in.length;
      all_.insert(all_.end(), ends_.back().begin(), ends_.back().end());
    }
    sort_apart(all_);
  }

  std::vector<PanelEnd> found() const {
    const std::vector<int> blanks = most_blanks();
    std::vector<PanelEnd> out;
    for (std::size_t i = 0; i < all_.size(); ++i) {
      if (out.empty() || blanks.at(i) > out.back().blanks) out.push_back({all_.at(i), blanks.at(i)});
    }
    return out;
  }

 private:
  /// For each end in `all_` how many blanks a strip of the kind has up to there.
  std::vector<int> counts_along(const std::vector<Length>& ends) const {
    std::vector<int> out;
    std::size_t n = 0;
    for (const Length end : all_) {
      while (n < ends.size() && fits(end, ends.at(n))) ++n;
      out.push_back(static_cast<int>(n));
    }
    return out;
  }

  /// The dynamic programming across the panel, for all its ends at once: this is the innermost loop of all.
  std::vector<int> most_blanks() const {
    std::vector<std::vector<int>> counts;
    for (const auto& ends : ends_) counts.push_back(counts_along(ends));
    std::vector<std::vector<int>> most{std::vector<int>(all_.size())};  // by number of rows
    std::vector<int> with_row(all_.size());
    for (const Row& row : p_.rows) {
      std::ranges::transform(most.at(row.before), counts.at(row.kind), with_row.begin(), std::plus<>{});
      most.emplace_back(all_.size());
      std::ranges::transform(with_row, most.at(most.size() - 2), most.back().begin(),
                             [](int a, int b) { return a > b ? a : b; });
    }
    return most.back();
  }

  const Places& p_;
  std::vector<std::vector<Length>> ends_;  ///< by kind
  std::vector<Length> all_;
};

/// The best panels up to a place where a further one may begin.
struct UpToPanel {
  Worth worth;
  Length last_from, last_to;  ///< of the last of them
};

using PanelStarts = std::map<Length, UpToPanel>;

/// All beginnings of panels that can be part of a best parting, from the left.
PanelStarts part(const Places& p) {
  PanelStarts starts{{p.left, {}}};
  Worth best_yet{-1, 0};
  for (auto here = starts.begin(); here != starts.end(); ++here) {
    const Worth worth = here->second.worth;
    if (worth <= best_yet) continue;  // one further to the left is as good
    best_yet = worth;
    for (const PanelEnd& end : PanelEnds{p, here->first}.found()) {
      const UpToPanel longer{worth + Worth{end.blanks, -1}, here->first, end.at};
      const auto [there, added] = starts.try_emplace(end.at + p.in.kerf, longer);
      if (!added && longer.worth > there->second.worth) there->second = longer;
    }
  }
  return starts;
}

std::vector<LaidPanel> best_panels(const Places& p) {
  const PanelStarts starts = part(p);
  auto at = std::ranges::max_element(starts, {}, [](const auto& s) { return s.second.worth; });
  std::vector<LaidPanel> out;
  while (at != starts.begin()) {
    out.push_back(best_panel(p, at->second.last_from, at->second.last_to));
    at = starts.find(at->second.last_from);
  }
  std::ranges::reverse(out);
  return out;
}

/// Steps that the search for panels may take at most, reckoned roughly and too high: a twentieth of a second or so.
constexpr std::size_t most_steps = 500'000'000;

/// Can parting the board give more, and be found out in time? Where all rows are alike it gives nothing more.
bool worth_parting(const Places& p) {
  if (p.kinds.size() < 2) return false;
  std::size_t ends = 0;
  for (const Blocked& blocked : p.kinds) ends += starts_along(blocked, p, p.left, p.right).size();
  return ends * ends / 2 * p.rows.size() <= most_steps;
}

}  // namespace

int blanks_in(const LaidPanel& panel) {
  return std::accumulate(panel.begin(), panel.end(), 0,
                         [](int n, const LaidStrip& strip) { return n + static_cast<int>(strip.starts.size()); });
}

std::vector<LaidPanel> board_layout(const Board& board, const CuttingInput& in, int enough) {
  const Places places = places_of(board, in);
  LaidPanel whole_board = best_panel(places, places.left, places.right);
  const int blanks = blanks_in(whole_board);
  if (blanks < enough && worth_parting(places)) return best_panels(places);
  if (blanks == 0) return {};
  return {std::move(whole_board)};
}

}  // namespace blankwright
