#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include "measure/elapsed.h"
#include "plan/figure/figure.h"
#include "sheet/frame/table.h"
#include "sheet/paper/card_figure.h"
#include "sheet/paper/hold_place.h"
#include "sheet/paper/said_times.h"
#include "sheet/sheet/card_parts.h"

namespace blankwright {
namespace {

constexpr int number_step = 10;  // operations are 10, 20, …, so that others can be put between them
constexpr TextStyle operation_text{.size = Lettering::machine, .least = Lettering::machine};
constexpr TextStyle operation_small{.size = Lettering::hand, .least = Lettering::hand};
constexpr TextStyle routing_caption{.size = Lettering::note};

TextStyle least(TextStyle style, Lettering size) {
  style.least = size;
  return style;
}
TextStyle centred(TextStyle style) {
  style.align = Align::centre;
  return style;
}

std::string day_text_of(const Dossier& d, Instant instant) {
  return weekday_text(d.sheet_template, date_of(d.shop.zone.value, instant));
}

/// What is started, and between which days.
void put_routing_facts(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const auto& delivery = d.times.delivery;
  struct Fact {
    Word caption;
    std::string value;
    double share;
  };
  const std::array facts{
      Fact{Word::start_pieces, fmt::format("{}", blank_count(d)), 0.2},
      Fact{Word::earliest_finish, day_text_of(d, d.times.planned.finish), 0.3},
      Fact{Word::due, d.order.due ? weekday_text(d.sheet_template, d.order.due->value) : w[Word::not_stated], 0.3},
      Fact{Word::late,
           delivery && delivery->late_by.count() > 0 ? late_text(d.sheet_template, delivery->late_by) : no_value,
           0.2},
  };
  const Box strip = take_strip(flow, 9 * mm);
  Canvas canvas = canvas_of(flow);
  Box box = strip;
  for (const Fact& fact : facts) {
    box.width = strip.width * fact.share;
    captioned(canvas, box, w[fact.caption], fact.value, Lettering::machine, Face::bold);
    canvas.rectangle(box);
    box.x = box.right();
  }
}

Table size_table(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const TextStyle value = centred(least(operation_text, Lettering::note));
  const auto head = [&](Word word) { return Cell{{{w[word], centred(column_head)}}}; };
  const auto size = [&](const std::string& words) { return Cell{{{words, value}}}; };
  const auto figure = [&](Figure f) { return size(shown(d, card_figure(d, d.plan.figures, f))); };
  const auto name = [&](Word word) { return Cell{{{w[word], least(operation_small, Lettering::note)}}}; };
  const bool treated = d.order.treatment.has_value();
  Row names{{Cell{{{w[Word::blank_sizes_title], column_head}}}, head(Word::state_sawn)}, 5 * mm};
  Row section{{name(Word::section), figure(Figure::blank_sawn_section)}, 6 * mm};
  Row length{{name(Word::length), figure(Figure::blank_sawn_length)}, 6 * mm};
  if (treated) {  // else nothing is dried
    names.cells.push_back(head(Word::state_dry));
    section.cells.push_back(figure(Figure::blank_dry_section));
    length.cells.push_back(figure(Figure::blank_dry_length));
  }
  names.cells.insert(names.cells.end(), {head(Word::state_squared), head(Word::state_finished)});
  section.cells.insert(section.cells.end(),
                       {figure(Figure::blank_squared_section),
                        size("Ø " + shown(d, card_figure(d, d.plan.figures, Figure::handle_largest_diameter)))});
  length.cells.insert(length.cells.end(), {figure(Figure::blank_squared_length), figure(Figure::handle_length)});
  Table table;
  table.columns = {{26 * mm}};
  table.columns.resize(names.cells.size(), {30 * mm, 1});
  table.head = std::move(names);
  table.rows = {std::move(section), std::move(length)};
  return table;
}

Row operation_head(const WordTable& w) {
  const auto cell = [&](Word word) { return Cell{{{w[word], column_head}}}; };
  return {{cell(Word::number_short), cell(Word::operation), cell(Word::routing_keep_to),
           Cell{{{w[Word::who], column_head}, {w[Word::routing_lasts], column_head}}}, cell(Word::planned_day),
           cell(Word::count_good), cell(Word::count_scrap), cell(Word::sign_off)},
          8 * mm};
}

/// "start within 1 h, at most 72 h", or "start at once": how long it may wait and run.
std::string bounds_text(const Template& t, const OperationFacts& facts) {
  const WordTable& w = t.words;
  std::string out;
  if (facts.longest_wait) {
    const Duration wait = facts.longest_wait->value;
    out = wait > Duration{} ? fmt::format("{} {}", w[Word::start_within], shown(t, at_most(wait)))
                            : w[Word::start_at_once];
  }
  if (facts.most)
    out +=
        fmt::format("{}{} {}", out.empty() ? "" : ", ", w[Word::runs_at_most], shown(t, at_most(facts.most->value)));
  return out;
}

/// The sheet that belongs to an operation; empty where it has none of its own.
std::string sheet_of(const WordTable& w, const OperationFacts& facts) {
  if (!facts.planned) return {};
  switch (facts.planned->value) {
    case PlannedWork::drying:
      return w[Word::blank_list];
    case PlannedWork::cure:  // on one page with its bath's
    case PlannedWork::vacuum:
    case PlannedWork::soak:
      return w[Word::bath_card];
    case PlannedWork::cooling:
    case PlannedWork::glue_setting:
      return {};
  }
  return {};
}

/// "Tue 4 May"; "Tue 4 – Thu 6 May" is two days. Clock times are stale at the next plan: those stand on today's
/// sheet, the week and the calendars.
std::string days_text(const Dossier& d, const PlannedOperation& planned) {
  const std::string first = date_text(d, planned.start), last = date_text(d, planned.end);
  return first == last ? first : first + " – " + last;
}

std::string rounded_text(const Dossier& d, Duration length) { return shown(d, printed(rounded_length(length))); }

/// How long it takes by the plan: of what somebody is at throughout the work without its pauses; of what is done in
/// several runs, of one; of what is over, of all of it.
std::string length_text(const Dossier& d, std::size_t n) {
  std::vector<const PlannedRun*> open;
  for (const PlannedRun& run : d.times.planned.operations.at(n).runs) {
    if (run.is != RunIs::past) open.push_back(&run);
  }
  if (open.empty()) return rounded_text(d, d.times.operations.at(n).length);
  if (d.times.routing.at(n)->hands_on.value == HandsOnWhen::throughout) {
    Duration work{};
    for (const PlannedRun* run : open) {
      for (const Interval& stretch : run->hands_on) work = work + between(stretch.from, stretch.to);
    }
    return rounded_text(d, work);
  }
  const std::string length = rounded_text(d, between(open.front()->at.from, open.front()->at.to));
  return open.size() > 1 ? fmt::format("{} × {}", open.size(), length) : length;
}

std::string with_bounds(const std::string& length, const std::string& bounds) {
  return bounds.empty() ? length : length + "; " + bounds;
}

/// What stands in the field at the end of an operation's row: nothing but for a hold, whose signature is asked for
/// here or which names the sheet that it is signed on.
Phrase sign_off(const Dossier& d, std::size_t n) {
  const WordTable& w = d.sheet_template.words;
  if (!d.times.routing.at(n)->hold) return {};
  switch (hold_place(d, n)) {
    case HoldPlace::routing:
      return {w[Word::signature], in_bold(routing_caption)};
    case HoldPlace::bath_card:
      return {w[Word::signed_on] + " " + w[Word::bath_card], operation_small};
    case HoldPlace::oven_card:
      return {w[Word::signed_on] + " " + w[Word::oven_card], operation_small};
    case HoldPlace::inspection:
      return {w[Word::signed_on] + " " + w[Word::inspection_sheet], operation_small};
  }
  return {};
}

Row operation_row(const Dossier& d, std::size_t n) {
  const OperationFacts& facts = *d.times.routing.at(n);
  const PlannedOperation& planned = d.times.planned.operations.at(n);
  const WordTable& w = d.sheet_template.words;
  const std::string who = with_bounds(length_text(d, n), bounds_text(d.sheet_template, facts));
  Row row;
  row.cells = {
      Cell{{{fmt::format("{}", number_step * (n + 1)), centred(in_bold(least(operation_text, Lettering::hand)))}}},
      Cell{{{facts.name.value, in_bold(operation_small)}}},
      Cell{{{facts.limit ? facts.limit->value : "", operation_small},
            {facts.hold ? fmt::format("{}: {}", w[Word::hold], facts.hold->value) : "", in_bold(operation_small)}}},
      Cell{{{who_does(facts), in_bold(operation_small)}, {who, operation_small}}},
      Cell{{{days_text(d, planned), operation_small}}},
      Cell{},
      Cell{},
      Cell{.phrases = {sign_off(d, n)},
           .at_top = true,
           .closed = facts.hold && hold_place(d, n) != HoldPlace::routing},
  };
  row.least_height = 10 * mm;
  if (facts.hold && hold_place(d, n) == HoldPlace::routing) row.box = hold_line;
  row.leads_to = sheet_of(w, facts);
  return row;
}

/// How high the rows would be with these columns.
Length height_of(const Canvas& canvas, const Table& table, Length total) {
  const std::vector<Length> widths = column_widths(table.columns, total);
  Length height;
  for (const Row& row : table.rows) {
    Length highest = row.least_height;
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const Block block = set_block(canvas, row.cells.at(i).phrases, widths.at(i) - 2 * cell_padding);
      highest = std::max(highest, block.height + 2 * cell_padding);
    }
    height += highest;
  }
  return height;
}

/// Its columns of words share the width as makes it lowest: a routing of long waits wants another share than one of
/// many limits.
Table operation_table(const Canvas& canvas, const Dossier& d, Length total) {
  Table table;
  table.head = operation_head(d.sheet_template.words);
  for (std::size_t n = 0; n < d.times.routing.size(); ++n) table.rows.push_back(operation_row(d, n));
  const Length number = 10 * mm, planned = 22.5 * mm, count = 10.3 * mm, initials = 20 * mm;
  const auto columns = [&](double operation, double takes) {
    const Length fixed = number + operation * mm + takes * mm + planned + 2 * count + initials;
    const Length keep_to = std::max(30 * mm, total - fixed);
    return std::vector<Column>{{number},  {operation * mm}, {keep_to}, {takes * mm},
                               {planned}, {count},          {count},   {initials}};
  };
  Length lowest;
  for (const double operation : {29, 32, 35}) {
    for (const double takes : {22, 25, 28, 31, 34}) {
      Table other = table;
      other.columns = columns(operation, takes);
      const Length height = height_of(canvas, other, total);
      if (!table.columns.empty() && height >= lowest) continue;
      table.columns = std::move(other.columns);
      lowest = height;
    }
  }
  return table;
}

}  // namespace

/// The routing: what is started and how large, when it has to begin and end, and every operation with its limit, how
/// long it takes and may wait, its planned days, counts and sign-off; in the row of a hold that is signed here, by
/// its wide line, stands the signature that releases it.
void routing_sheets(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const Length gap = 1.5 * mm;
  begin_part(flow, Word::routing_sheet, 120 * mm);
  put_routing_facts(flow);
  take_strip(flow, gap);
  put_table(flow, size_table(d));
  take_strip(flow, gap);

  const std::array notes{Phrase{w[Word::rework_note] + " " + w[Word::correction_note], operation_small}};
  const Block note_block = set_block(canvas_of(flow), notes, whole_room(flow).width);
  Table operations = operation_table(canvas_of(flow), d, whole_room(flow).width);
  operations.below = note_block.height + gap;
  put_table(flow, operations);
  take_strip(flow, gap);
  const Box strip = take_strip(flow, note_block.height);
  Canvas canvas = canvas_of(flow);
  place_block(canvas, {strip.x, strip.y}, note_block);
}

}  // namespace blankwright
