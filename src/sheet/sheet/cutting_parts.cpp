#include "sheet/sheet/cutting_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "sheet/frame/table.h"
#include "sheet/paper/limits.h"

namespace blankwright {
namespace {

constexpr TextStyle setting_text{.size = Lettering::machine, .face = Face::bold, .least = Lettering::machine};
constexpr TextStyle setting_head{.size = Lettering::hand, .face = Face::bold, .least = Lettering::hand};
constexpr TextStyle kind_style{.size = Lettering::machine, .least = Lettering::machine};
constexpr Length alike = 0.005 * mm;

/// Does the piece on the saw end at `other` before `cut` is made? Cuts across part the strips that are crosscut.
bool leaves_end_for(const Cut& other, const Cut& cut) {
  if (other.board != cut.board || other.number >= cut.number || other.until > cut.at + alike) return false;
  switch (cut.kind) {
    case Cut::Kind::across:
      return other.kind == Cut::Kind::across;
    case Cut::Kind::rip:  // of one panel
      return other.kind == Cut::Kind::rip && abs(other.from - cut.from) < alike;
    case Cut::Kind::resaw:
      return other.kind == Cut::Kind::resaw && other.strip == cut.strip;
    case Cut::Kind::crosscut:
      return other.kind == Cut::Kind::across || (other.kind == Cut::Kind::crosscut && other.strip == cut.strip);
  }
  return false;
}

Length stop_of(const CuttingPlan& plan, const Cut& cut) {
  Length end;  // of the board
  for (const Cut& other : plan.cuts) {
    if (leaves_end_for(other, cut)) end = std::max(end, other.until);
  }
  return cut.at - end;
}

Word datum(Cut::Kind kind) {
  switch (kind) {
    case Cut::Kind::across:
    case Cut::Kind::crosscut:
      return Word::cut_from_left_end;
    case Cut::Kind::rip:
      return Word::cut_from_near_edge;
    case Cut::Kind::resaw:
      return Word::cut_from_lower_face;
  }
  return Word::cut_from_left_end;
}

/// "7–9, 12".
std::string numbers_of(const StopSetting& setting) {
  std::string out;
  for (std::size_t i = 0; i < setting.cuts.size();) {
    std::size_t end = i + 1;
    while (end < setting.cuts.size() && setting.cuts[end]->number == setting.cuts[end - 1]->number + 1) ++end;
    out += fmt::format("{}{}", out.empty() ? "" : ", ", setting.cuts[i]->number);
    if (end > i + 1) out += fmt::format("–{}", setting.cuts[end - 1]->number);
    i = end;
  }
  return out;
}

/// "Crosscut, strip 1, 2".
std::string what(const WordTable& w, const StopSetting& setting) {
  std::map<int, bool> strips;
  for (const Cut* cut : setting.cuts) strips[cut->strip] = true;
  strips.erase(0);
  std::string out = w[kind_word(setting.kind)];
  for (const auto& [strip, there] : strips) {
    out += out == w[kind_word(setting.kind)] ? fmt::format(", {} {}", w[Word::cutting_strip], strip)
                                             : fmt::format(", {}", strip);
  }
  return out;
}

/// "148, 280 from the left end": where the blade begins to take wood, each place once.
std::string place_list(const Dossier& d, const StopSetting& setting) {
  const Printing how = size_printing(d, Fineness::sawn);
  std::vector<std::string> all;
  for (const Cut* cut : setting.cuts) {
    std::string place = shown(d, rule_number(settable(d, cut->at), how));
    if (std::ranges::find(all, place) == all.end()) all.push_back(std::move(place));
  }
  std::string out;
  for (const std::string& place : all) out += (out.empty() ? "" : " · ") + place;
  return fmt::format("{} {}", out, d.sheet_template.words[datum(setting.kind)]);
}

Row setting_row(const Dossier& d, const CuttingPlan& plan, const StopSetting& setting) {
  const Printing how = size_printing(d, Fineness::sawn);
  TextStyle stop = setting_text;
  stop.size = Lettering::figure;
  stop.align = Align::right;
  return {{Cell{{{numbers_of(setting), setting_text}}}, Cell{{{what(d.sheet_template.words, setting), kind_style}}},
           Cell{{{plan.boards.at(setting.board).name, kind_style}}},
           Cell{{{shown(d, rule_number(settable(d, setting.stop), how)), stop}}},
           Cell{{{place_list(d, setting), kind_style}}}, Cell{}},
          10 * mm};
}

}  // namespace

Word kind_word(Cut::Kind kind) {
  switch (kind) {
    case Cut::Kind::across:
      return Word::cut_across;
    case Cut::Kind::rip:
      return Word::cut_rip;
    case Cut::Kind::resaw:
      return Word::cut_resaw;
    case Cut::Kind::crosscut:
      return Word::cut_crosscut;
  }
  return Word::cut_across;
}

std::string kind_text(const WordTable& w, const Cut& cut) {
  return cut.strip == 0 ? w[kind_word(cut.kind)]
                        : fmt::format("{}, {} {}", w[kind_word(cut.kind)], w[Word::cutting_strip], cut.strip);
}

std::vector<StopSetting> stop_settings(const CuttingPlan& plan) {
  std::vector<StopSetting> out;
  for (const Cut& cut : plan.cuts) {
    const Length stop = stop_of(plan, cut);
    auto found = std::ranges::find_if(out, [&](const StopSetting& s) {
      return s.board == cut.board && s.kind == cut.kind && abs(s.stop - stop) < alike;
    });
    if (found == out.end()) found = out.insert(out.end(), {cut.board, cut.kind, stop, {}});
    found->cuts.push_back(&cut);
  }
  return out;
}

void put_cuts(Flow& flow, const CuttingPlan& plan, const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const auto head = [&](const std::string& words) { return Cell{{{words, setting_head}}}; };
  Table table;
  table.columns = {{28 * mm}, {34 * mm, 1}, {14 * mm, 1}, {26 * mm}, {56 * mm, 2}, {14 * mm}};
  const std::string& unit = d.sheet_template.spelling[column_unit<Length>(d.shop.units.value)];
  table.head = {{head(w[Word::cut_numbers]), head(w[Word::cut_kind]), head(w[Word::cutting_board]),
                 head(fmt::format("{} ({})", w[Word::cut_stop], unit)),
                 head(fmt::format("{} ({})", w[Word::cut_places], unit)), head(w[Word::cut_done])},
                6 * mm};
  for (const StopSetting& setting : stop_settings(plan)) table.rows.push_back(setting_row(d, plan, setting));
  put_table(flow, table);
}

}  // namespace blankwright
