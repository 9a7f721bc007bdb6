#include "sheet/sheet/sheets.h"

#include <fmt/format.h>

#include <array>
#include <string>

#include "plan/figure/figure.h"
#include "sheet/frame/table.h"
#include "sheet/paper/card_figure.h"
#include "sheet/paper/said_times.h"
#include "sheet/sheet/card_parts.h"

namespace blankwright {
namespace {

constexpr int number_step = 10;  // operations are 10, 20, …, so that others can be put between them
constexpr const char* none = "–";

constexpr TextStyle work_text{.capitals = 3.5 * mm, .least = 3.5 * mm};
constexpr TextStyle small_text{.capitals = 2.5 * mm, .least = 2.5 * mm};
constexpr TextStyle caption{.capitals = 1.9 * mm, .least = 1.8 * mm};
constexpr TextStyle head_text{.capitals = 2 * mm, .face = Face::bold, .least = 1.8 * mm};

TextStyle bold(TextStyle style) {
  style.face = Face::bold;
  return style;
}
TextStyle least(TextStyle style, Length capitals) {
  style.least = capitals;
  return style;
}
TextStyle centred(TextStyle style) {
  style.align = Align::centre;
  return style;
}

/// What is started, and between which times.
void put_facts(OrderFlow& flow) {
  const Dossier& d = flow.dossier;
  const WordTable& w = d.sheet_template.words;
  const auto& delivery = d.times.delivery;
  struct Fact {
    Word caption;
    std::string value;
    double share;
  };
  const std::array facts{
      Fact{Word::start_pieces, fmt::format("{}", blank_count(d)), 0.125},
      Fact{Word::earliest_finish, dated_text(d, d.times.planned.finish), 0.235},
      Fact{Word::latest_start, delivery && delivery->latest_start ? dated_text(d, *delivery->latest_start) : none,
           0.235},
      Fact{Word::due_end, delivery ? dated_text(d, delivery->due) : w[Word::not_stated], 0.235},
      Fact{Word::late,
           delivery && delivery->late_by.count() > 0 ? late_text(d.sheet_template, delivery->late_by) : none, 0.17},
  };
  const Box strip = take_strip(flow, 12 * mm);
  Canvas canvas = canvas_of(flow);
  Box box = strip;
  for (const Fact& fact : facts) {
    box.width = strip.width * fact.share;
    captioned(canvas, box, w[fact.caption], fact.value, 3.2 * mm, Face::bold);
    canvas.rectangle(box);
    box.x = box.right();
  }
}

Table size_table(const Dossier& d) {
  const WordTable& w = d.sheet_template.words;
  const TextStyle value = centred(least(work_text, 2 * mm));
  const auto head = [&](Word word) { return Cell{{{w[word], centred(head_text)}}}; };
  const auto size = [&](const std::string& words) { return Cell{{{words, value}}}; };
  const auto figure = [&](Figure f) { return size(shown(d, card_figure(d, d.plan.figures, f))); };
  const auto name = [&](Word word) { return Cell{{{w[word], least(small_text, 1.8 * mm)}}}; };
  Table table;
  table.columns = {{26 * mm}, {30 * mm, 1}, {30 * mm, 1}, {30 * mm, 1}, {30 * mm, 1}};
  table.head = {{Cell{{{w[Word::blank_sizes_title], head_text}}}, head(Word::state_sawn), head(Word::state_dry),
                 head(Word::state_squared), head(Word::state_finished)},
                6 * mm};
  table.rows.push_back({{name(Word::section), figure(Figure::blank_sawn_section), figure(Figure::blank_dry_section),
                         figure(Figure::blank_squared_section),
                         size("Ø " + shown(d, card_figure(d, d.plan.figures, Figure::handle_largest_diameter)))},
                        8 * mm});
  table.rows.push_back({{name(Word::length), figure(Figure::blank_sawn_length), figure(Figure::blank_dry_length),
                         figure(Figure::blank_squared_length), figure(Figure::handle_length)},
                        8 * mm});
  return table;
}

Row operation_head(const WordTable& w) {
  const auto cell = [&](Word word) { return Cell{{{w[word], head_text}}}; };
  return {
      {cell(Word::number_short), cell(Word::operation),
       Cell{{{w[Word::who], head_text}, {w[Word::planned_start], head_text}, {w[Word::planned_finish], head_text}}},
       cell(Word::count_in), cell(Word::count_good), cell(Word::count_rework), cell(Word::count_scrap),
       cell(Word::initials), cell(Word::date_time)},
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

/// The sheet that belongs to an operation; empty where it is none of its own.
std::string sheet_of(const WordTable& w, const OperationFacts& facts) {
  if (!facts.planned) return {};
  switch (facts.planned->value) {
    case PlannedWork::drying:
    case PlannedWork::cure:
      return w[Word::oven_card];
    case PlannedWork::vacuum:
    case PlannedWork::soak:
      return w[Word::bath_card];
    case PlannedWork::cooling:
    case PlannedWork::glue_setting:
      return {};
  }
  return {};
}

Row operation_row(const Dossier& d, std::size_t n) {
  const OperationFacts& facts = *d.times.routing.at(n);
  const PlannedOperation& planned = d.times.planned.operations.at(n);
  const TextStyle times = least(small_text, 1.8 * mm);
  Row row;
  row.cells = {
      Cell{{{fmt::format("{}", number_step * (n + 1)), centred(bold(least(work_text, 2 * mm)))}}},
      Cell{{{facts.name.value, bold(work_text)},
            {facts.limit ? facts.limit->value : "", small_text},
            {planned.runs.size() > 1
                 ? fmt::format("{} {}", planned.runs.size(), d.sheet_template.words[Word::done_times])
                 : "",
             small_text},
            {bounds_text(d.sheet_template, facts), small_text}}},
      Cell{{{facts.who.value, bold(least(small_text, 2 * mm))},
            {moment_text(d, planned.start), times},
            {moment_text(d, planned.end), times}}},
  };
  const std::size_t to_write_in = 6;  // four counts, initials, date and time
  row.cells.resize(row.cells.size() + to_write_in);
  row.least_height = 14 * mm;
  row.with_next = facts.hold.has_value();
  row.leads_to = sheet_of(d.sheet_template.words, facts);
  return row;
}

Row hold_row(const WordTable& w, const std::string& condition) {
  Row row;
  row.own_columns = {{24 * mm}, {70 * mm, 1}, {46 * mm}, {32 * mm}};
  row.cells = {
      Cell{{{w[Word::hold], centred(bold(least({.capitals = 5 * mm}, 2 * mm)))}}},
      Cell{{{condition, work_text}}},
      Cell{{{w[Word::signature], caption}}, true},
      Cell{{{w[Word::date_time], caption}}, true},
  };
  row.least_height = 14 * mm;
  row.box = hold_line;
  return row;
}

Table operation_table(const Dossier& d) {
  Table table;
  table.columns = {{11 * mm}, {50 * mm, 1}, {31 * mm}, {10.5 * mm}, {10.5 * mm},
                   {13 * mm}, {12 * mm},    {18 * mm}, {22 * mm}};
  table.head = operation_head(d.sheet_template.words);
  for (std::size_t n = 0; n < d.times.routing.size(); ++n) {
    table.rows.push_back(operation_row(d, n));
    if (const auto& hold = d.times.routing.at(n)->hold) {
      table.rows.push_back(hold_row(d.sheet_template.words, hold->value));
    }
  }
  return table;
}

}  // namespace

/// The routing: what is started and how large, when it has to begin and end, and every operation with its limit,
/// planned times, counts and sign-off; below an operation its hold, with the field for the signature that releases
/// it.
std::vector<Page> routing_sheets(const Dossier& d, const FontMetrics& fonts) {
  const WordTable& w = d.sheet_template.words;
  const Length gap = 2 * mm;
  OrderFlow flow = begin_flow(d, fonts, Word::routing_sheet);
  put_facts(flow);
  take_strip(flow, gap);
  put_table(flow, size_table(d));
  take_strip(flow, gap);

  const std::array notes{Phrase{w[Word::alone_note], small_text}, Phrase{w[Word::rework_note], small_text},
                         Phrase{w[Word::correction_note], small_text}};
  const Block note_block = set_block(canvas_of(flow), notes, whole_room(flow).width);
  Table operations = operation_table(d);
  operations.below = note_block.height + gap;
  put_table(flow, operations);
  take_strip(flow, gap);
  const Box strip = take_strip(flow, note_block.height);
  Canvas canvas = canvas_of(flow);
  place_block(canvas, {strip.x, strip.y}, note_block);
  return pages_of(std::move(flow));
}

}  // namespace blankwright
