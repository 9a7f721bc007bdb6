#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnose/diagnostics.h"
#include "measure/quantity.h"
#include "read/caution.h"
#include "read/words.h"

namespace blankwright {

enum class PaperSize { a4, letter };

/// A sheet of labels as its box describes it.
struct LabelSheet {
  Given<std::string> name;
  Given<PaperSize> paper;
  Given<int> columns, rows;
  Given<Length> width, height;     ///< of a label
  Given<Length> pitch_x, pitch_y;  ///< from a label's left or top to the next one's
  Given<Length> left, top;         ///< of the first label from the paper's edges
  Place place;
};

/// Words and places on paper.
struct Template {
  Source source;
  Given<std::string> language = standard_value(std::string{"en"}, "English");
  Given<PaperSize> paper = standard_value(PaperSize::a4, "ISO 216");
  Given<Length> margin = standard_value(12 * mm, "common practice, no source");
  Given<std::string> tag_sheet = standard_value(std::string{"a4-3x7-63.5x38.1"}, "first label sheet");
  std::vector<LabelSheet> label_sheets;
  WordTable words;
  CautionTable cautions;
  Place place;
};

/// Reads a template file over another one: what it leaves out stays as it was there, and its label sheets come before
/// the other's. What is wrong goes to `out`, all of it; then there is no template.
std::optional<Template> read_template(const Source& source, const Template& over, Diagnostics& out);

/// The label sheet that the tags are printed on.
const LabelSheet& tag_sheet(const Template& t);

}  // namespace blankwright
