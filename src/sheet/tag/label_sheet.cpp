#include "sheet/tag/label_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <numeric>

#include "diagnose/failure.h"
#include "sheet/frame/actual_size.h"
#include "sheet/frame/frame.h"

namespace blankwright {
namespace {

constexpr int most_places = 2500;         // 50 columns and 50 rows
constexpr Length no_ink_within = 5 * mm;  // of the paper's edge: common practice, no source

std::optional<int> read_place(std::string_view text) {
  int place = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), place);
  const bool good = fault == std::errc{} && end == text.data() + text.size() && place >= 1 && place <= most_places;
  return good ? std::optional{place} : std::nullopt;
}

std::string_view trimmed(std::string_view text) {
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  return text;
}

/// "4" or "1-4".
std::optional<std::pair<int, int>> read_range(std::string_view text) {
  const auto dash = text.find('-');
  const auto first = read_place(trimmed(text.substr(0, dash)));
  const auto last = dash == std::string_view::npos ? first : read_place(trimmed(text.substr(dash + 1)));
  if (!first || !last || *last < *first) return std::nullopt;
  return std::pair{*first, *last};
}

}  // namespace

std::optional<UsedPlaces> read_places(std::string_view text) {
  UsedPlaces places;
  while (true) {
    const auto comma = text.find(',');
    const auto range = read_range(text.substr(0, comma));
    if (!range) return std::nullopt;
    for (int place = range->first; place <= range->second; ++place) places.push_back(place);
    if (comma == std::string_view::npos) break;
    text.remove_prefix(comma + 1);
  }
  std::ranges::sort(places);
  places.erase(std::unique(places.begin(), places.end()), places.end());
  return places;
}

int places_of(const LabelSheet& sheet) { return sheet.columns.value * sheet.rows.value; }

LabelRun::LabelRun(const LabelSheet& sheet, const PrinterFacts& printer, const UsedPlaces& used)
    : sheet_{sheet}, printer_{printer} {
  for (int place = 0; place < places_of(sheet); ++place) {
    if (!std::ranges::binary_search(used, place + 1)) first_page_.push_back(place);
  }
  BW_EXPECT(!first_page_.empty());
}

LabelSpot LabelRun::spot(int n) const {
  const int on_first = static_cast<int>(first_page_.size());
  if (n < on_first) return {0, label_at(first_page_.at(static_cast<std::size_t>(n)))};
  const int rest = n - on_first;
  return {1 + rest / places_of(sheet_), label_at(rest % places_of(sheet_))};
}

Box LabelRun::label_at(int place) const {
  const PrinterCorrection c = correction_of(printer_);
  const Length x = sheet_.left.value + place % sheet_.columns.value * sheet_.pitch_x.value;
  const Length y = sheet_.top.value + place / sheet_.columns.value * sheet_.pitch_y.value;
  return {c.across * x + printer_.label_shift_x.value, c.down * y + printer_.label_shift_y.value,
          c.across * sheet_.width.value, c.down * sheet_.height.value};
}

bool is_near_edge(const LabelSheet& sheet, const PrinterFacts& printer, Length margin_in_label) {
  const LabelRun run{sheet, printer};
  const Paper paper = paper_of(sheet.paper.value);
  const Box first = inside(run.label_at(0), margin_in_label);
  const Box last = inside(run.label_at(places_of(sheet) - 1), margin_in_label);
  return first.x < no_ink_within || first.y < no_ink_within || last.right() > paper.width - no_ink_within ||
         last.bottom() > paper.height - no_ink_within;
}

Page label_outlines(const LabelSheet& sheet, const PrinterFacts& printer, const Template& t,
                    const FontMetrics& fonts) {
  Page page{paper_of(sheet.paper.value), {}, t.words[Word::proof_sheet], {}};
  Canvas canvas{page, fonts};
  const LabelRun run{sheet, printer};
  for (int place = 0; place < places_of(sheet); ++place) {
    const Box label = run.label_at(place);
    canvas.rectangle(label, narrow_line);
    const Box words = inside(label, 2 * mm);
    const Length number_height = std::min(8 * mm, words.height / 2);
    canvas.text_fitted({words.x, words.y, words.width, number_height}, fmt::format("{}", place + 1),
                       {.size = Lettering::machine, .face = Face::bold, .align = Align::centre});
    // One after the other on the first labels, as far as there are any.
    const std::array notes{sheet.name.value, t.words[Word::proof_note], t.words[Word::proof_shift]};
    if (place < static_cast<int>(notes.size())) {
      canvas.text_fitted({words.x, words.y + number_height, words.width, words.height - number_height},
                         notes.at(static_cast<std::size_t>(place)),
                         {.size = Lettering::note, .align = Align::centre});
    }
  }
  return page;
}

}  // namespace blankwright
