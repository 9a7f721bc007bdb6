#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnose/diagnostics.h"
#include "measure/printed.h"
#include "measure/quantity.h"
#include "read/block.h"
#include "read/caution.h"
#include "read/labels.h"
#include "read/notes.h"
#include "read/sentences.h"
#include "read/terms.h"
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

/// The strips of the turner's sheet.
enum class TurnerStrip { title_block, drawing, settings, checks, stations, small_print };

/// The strips of a bath's or an oven load's card, below its head.
enum class CardStrip { figures, notes, checks, blanks };

/// What the dry tags are printed on: a sheet of labels, or card to cut tags from that are tied on.
enum class TagForm { labels, tie_tags };

/// On which sides of its paper the traveller is printed.
enum class PrintedSides { both, one };

/// Targets for the ends: for each blank with its ID, or one sheet for all.
enum class TargetsFor { as_few_pages, each, master };

/// Of a tie tag, folded behind it to strengthen its eye.
inline constexpr Length tie_tag_flap = 20 * mm;  // common practice, no source

/// A tag that is tied on: a flap that is folded over its eye, the tag, and a stub that is torn off.
struct TieTagFacts {
  Given<Length> width = standard_value(90 * mm, "common practice, no source");
  Given<Length> height = standard_value(45 * mm, "common practice, no source");
  Given<Length> hole = standard_value(5 * mm, "common practice, no source");
  Given<Length> stub = standard_value(30 * mm, "common practice, no source");
  Place place;
};

/// Words and places on paper.
struct Template {
  // Written once, in read_template.cpp: whoever holds one would compile them otherwise, and they take long.
  Template();
  Template(const Template&);
  Template(Template&&) noexcept;
  Template& operator=(const Template&);
  Template& operator=(Template&&) noexcept;
  ~Template();

  Source source;
  Given<std::string> language = standard_value(std::string{"en"}, "English");
  Given<PaperSize> paper = standard_value(PaperSize::a4, "ISO 216");
  Given<Length> margin = standard_value(12 * mm, "common practice, no source");
  Given<PrintedSides> sides = standard_value(PrintedSides::both, "a leaf has two");
  Given<TargetsFor> targets = standard_value(TargetsFor::as_few_pages, "little paper");
  Given<std::string> tag_sheet = standard_value(std::string{"a4-3x7-63.5x38.1"}, "first label sheet");
  Given<TagForm> tags = standard_value(TagForm::labels, "a shipped label sheet");
  TieTagFacts tie_tag;
  std::optional<Given<std::string>> code_base;  ///< of an address; what a code says without it is the bare ID
  Given<Length> head_height = standard_value(17 * mm, "room for two rows");
  Given<Share> lettering = standard_value(100 * percent, "as shipped");
  Given<Length> write_in_row = standard_value(10 * mm, "common practice, no source");
  std::vector<Given<SheetKind>> sheets;
  std::vector<Given<TurnerStrip>> turner;
  std::vector<Given<CardStrip>> bath_card, oven_card;
  std::vector<BlockFacts> head, tag, end_tag, stub, parcel;
  std::vector<LabelSheet> label_sheets;
  Pictures pictures;  ///< of the blocks, put in by who can read files
  WordTable words;
  Spelling spelling;
  LabelTable labels;
  NoteTable notes;
  TermTable terms;
  OriginTable origins;
  LabelTable sources;  ///< in place of the English ones, which are the keys
  SentenceTable gates;
  LabelTable species;  ///< names of woods on paper, by those of the species table
  LabelTable actions;  ///< what an action code says, by the name of its kind of entry
  CautionTable cautions;
  Place place;
};

/// Reads a template file over another one: what it leaves out stays as it was there, and its label sheets come before
/// the other's. What is wrong goes to `out`, all of it; then there is no template.
std::optional<Template> read_template(const Source& source, const Template& over, Diagnostics& out);

Length width_of(PaperSize paper);
Length height_of(PaperSize paper);

/// Every block of a template that shows a picture.
std::vector<const BlockFacts*> picture_blocks(const Template& t);

/// The label sheet that the tags are printed on.
const LabelSheet& tag_sheet(const Template& t);

}  // namespace blankwright
