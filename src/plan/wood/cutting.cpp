#include "plan/wood/cutting.h"

#include <algorithm>
#include <iterator>
#include <numeric>
#include <utility>

#include "diagnose/failure.h"
#include "measure/quantity_text.h"
#include "plan/wood/cutting_layout.h"

namespace blankwright {
namespace {

/// Into how many layers of the section a board is resawn.
int layers_in(Length thickness, const CuttingInput& in) {
  int n = 0;
  while (fits(thickness, (n + 1) * in.section + n * in.kerf)) ++n;
  return n;
}

int blanks_on(const std::vector<LaidPanel>& panels) {
  return std::accumulate(panels.begin(), panels.end(), 0,
                         [](int n, const LaidPanel& panel) { return n + blanks_in(panel); });
}

/// Leaves out strips that are not needed for so many blanks: those with fewest first, of equal ones the last.
void keep_fullest(std::vector<LaidPanel>& panels, int needed) {
  for (int spare = blanks_on(panels) - needed; spare > 0;) {
    LaidPanel* panel = nullptr;
    std::size_t least = 0;
    for (LaidPanel& here : panels) {
      for (std::size_t i = 0; i < here.size(); ++i) {
        if (panel == nullptr || here.at(i).starts.size() <= panel->at(least).starts.size()) {
          panel = &here;
          least = i;
        }
      }
    }
    spare -= static_cast<int>(panel->at(least).starts.size());
    if (spare < 0) break;
    panel->erase(panel->begin() + static_cast<std::ptrdiff_t>(least));
  }
  std::erase_if(panels, [](const LaidPanel& panel) { return panel.empty(); });
}

/// Leaves out the last blanks of the last strips.
void keep_first(std::vector<LaidPanel>& panels, int needed) {
  for (int spare = blanks_on(panels) - needed; spare > 0; --spare) {
    LaidPanel& panel = panels.back();
    panel.back().starts.pop_back();
    if (panel.back().starts.empty()) panel.pop_back();
    if (panel.empty()) panels.pop_back();
  }
}

/// What is sawn out of one board.
struct SawnBoard {
  std::size_t index = 0;  ///< among the boards given
  int layers = 0;
  std::vector<LaidPanel> panels;
  int blanks = 0;  ///< that are needed; of the last place perhaps not all layers
};

SawnBoard sawn_board(const CuttingInput& in, std::size_t index, int needed) {
  const Board& board = in.boards.at(index);
  SawnBoard out{index, layers_in(board.thickness, in), {}, 0};
  if (out.layers == 0 || needed == 0) return out;
  const int places = (needed + out.layers - 1) / out.layers;
  out.panels = board_layout(board, in, places);
  keep_fullest(out.panels, places);
  keep_first(out.panels, places);
  out.blanks = std::min(needed, out.layers * blanks_on(out.panels));
  return out;
}

/// The boards in the order in which they are taken to the saw.
std::vector<std::size_t> board_order(const CuttingInput& in, int wanted) {
  std::vector<std::size_t> out(in.boards.size());
  std::iota(out.begin(), out.end(), std::size_t{0});
  if (!in.matched) return out;
  std::vector<int> yield;
  for (const std::size_t index : out) yield.push_back(sawn_board(in, index, wanted).blanks);
  std::ranges::stable_sort(out, std::ranges::greater{}, [&](std::size_t index) { return yield.at(index); });
  return out;
}

void add_blanks(const SawnBoard& sawn, CuttingPlan& plan) {
  int strip = 0;
  for (const LaidPanel& panel : sawn.panels) {
    for (const LaidStrip& laid : panel) {
      ++strip;
      int position = 0;
      for (const Length from : laid.starts) {
        ++position;
        for (int layer = 1; layer <= sawn.layers && plan.missing() > 0; ++layer) {
          const BoardArea area{from, from + plan.length, laid.near, laid.near + plan.section};
          plan.blanks.push_back({sawn.index, area, strip, position, layer});
        }
      }
    }
  }
}

/// Frees pieces one after another from a length of wood, from its beginning to its end.
class Cutter {
 public:
  /// `cut` names what all the cuts have in common; of the wood, what lies between `begin` and `end` is there.
  Cutter(Cut cut, Length begin, Length end, Length kerf, std::vector<Cut>& out)
      : cut_{cut}, begin_{begin}, end_{end}, kerf_{kerf}, out_{out} {}

  /// Frees the piece between the two: at its beginning, then at its end, where it has no edge yet.
  void free(Length from, Length to) {
    if (!fits(begin_, from)) add(std::max(begin_, from - kerf_), from);
    if (!fits(to, end_)) add(to, std::min(end_, to + kerf_));
    begin_ = to + kerf_;
  }

 private:
  void add(Length at, Length until) {
    cut_.number = static_cast<int>(out_.size()) + 1;
    cut_.at = at;
    cut_.until = until;
    out_.push_back(cut_);
  }

  Cut cut_;
  Length begin_, end_, kerf_;
  std::vector<Cut>& out_;
};

/// A panel when it has been cut off: from its first blank to its last.
Length panel_from(const LaidPanel& panel) {
  return std::ranges::min(panel, {}, [](const LaidStrip& s) { return s.starts.front(); }).starts.front();
}
Length panel_to(const LaidPanel& panel, Length length) {
  return std::ranges::max(panel, {}, [](const LaidStrip& s) { return s.starts.back(); }).starts.back() + length;
}

void add_across_and_rips(const SawnBoard& sawn, const CuttingInput& in, std::vector<Cut>& out) {
  const Board& board = in.boards.at(sawn.index);
  Cut across{.kind = Cut::Kind::across, .board = sawn.index, .from = 0 * mm, .to = board.width};
  Cutter parting{across, 0 * mm, board.length, in.kerf, out};
  for (const LaidPanel& panel : sawn.panels) parting.free(panel_from(panel), panel_to(panel, in.length));
  for (const LaidPanel& panel : sawn.panels) {
    Cut rip{.kind = Cut::Kind::rip, .board = sawn.index, .from = panel_from(panel), .to = panel_to(panel, in.length)};
    Cutter ripping{rip, 0 * mm, board.width, in.kerf, out};
    for (const LaidStrip& strip : panel) ripping.free(strip.near, strip.near + in.section);
  }
}

void add_resaws(const SawnBoard& sawn, const CuttingInput& in, std::vector<Cut>& out) {
  Cut cut{.kind = Cut::Kind::resaw, .board = sawn.index};
  int needed = sawn.blanks;
  for (const LaidPanel& panel : sawn.panels) {
    cut.from = panel_from(panel);
    cut.to = panel_to(panel, in.length);
    for (const LaidStrip& strip : panel) {
      ++cut.strip;
      Cutter resawing{cut, 0 * mm, in.boards.at(sawn.index).thickness, in.kerf, out};
      for (int layer = 0; layer < std::min(sawn.layers, needed); ++layer) {
        const Length lower = layer * (in.section + in.kerf);
        resawing.free(lower, lower + in.section);
      }
      needed -= sawn.layers * static_cast<int>(strip.starts.size());
    }
  }
}

void add_crosscuts(const SawnBoard& sawn, const CuttingInput& in, std::vector<Cut>& out) {
  Cut cut{.kind = Cut::Kind::crosscut, .board = sawn.index};
  for (const LaidPanel& panel : sawn.panels) {
    for (const LaidStrip& strip : panel) {
      ++cut.strip;
      cut.from = strip.near;
      cut.to = strip.near + in.section;
      Cutter crosscutting{cut, panel_from(panel), panel_to(panel, in.length), in.kerf, out};
      for (const Length start : strip.starts) crosscutting.free(start, start + in.length);
    }
  }
}

/// The blank nearest to the middle of its strip, of three or more at places of their own; else the middle one.
std::optional<std::size_t> middle_blank(const std::vector<CutBlank>& blanks) {
  if (blanks.empty()) return std::nullopt;
  const auto differs = [](const CutBlank& a, const CutBlank& b) { return a.board != b.board || a.strip != b.strip; };
  for (auto first = blanks.begin(); first != blanks.end();) {
    const auto last = std::find_if(first, blanks.end(), [&](const CutBlank& b) { return differs(*first, b); });
    if (std::prev(last)->position >= 3) {
      const Length ends = first->area.from + std::prev(last)->area.to;
      const auto off = [&](const CutBlank& b) { return abs(b.area.from + b.area.to - ends); };
      auto middle = first;
      for (auto here = first; here != last; ++here) {
        if (!fits(off(*here), off(*middle))) middle = here;  // nearer by more than arithmetic errs
      }
      return static_cast<std::size_t>(middle - blanks.begin());
    }
    first = last;
  }
  return blanks.size() / 2;
}

}  // namespace

CuttingPlan cutting_plan(const CuttingInput& in) {
  BW_EXPECT(in.section > 0 * mm && in.length > 0 * mm && in.kerf >= 0 * mm && in.end_trim >= 0 * mm && in.count >= 0);
  CuttingPlan plan{in.boards, in.section, in.length, {}, {}, {}, in.count + (in.witness ? 1 : 0)};
  for (const std::size_t index : board_order(in, plan.wanted)) {
    const SawnBoard sawn = sawn_board(in, index, plan.missing());
    add_blanks(sawn, plan);
    add_across_and_rips(sawn, in, plan.cuts);
    add_resaws(sawn, in, plan.cuts);
    add_crosscuts(sawn, in, plan.cuts);
  }
  if (in.witness) plan.witness = middle_blank(plan.blanks);
  return plan;
}

}  // namespace blankwright
