#include <algorithm>
#include <span>

#include "diagnose/failure.h"
#include "diagnose/problem.h"
#include "diagnose/says_facts.h"
#include "measure/nearest.h"
#include "read/block_keys.h"
#include "read/read_file.h"
#include "read/template.h"
#include "read/word_keys.h"

namespace blankwright {

template <>
struct Words<PaperSize> {
  static constexpr std::array<std::string_view, 2> list{"A4", "Letter"};
};

template <>
struct Words<SheetKind> {
  static constexpr auto list = sheet_keys;
};
/// Under the names that earlier versions had for it as well: one list of blanks took the place of two.
template <>
struct Form<SheetKind> {
  static std::vector<std::string> words() { return {sheet_keys.begin(), sheet_keys.end()}; }
  static std::optional<SheetKind> read(const Node& node, std::string_view name, Limits, Reading& in) {
    std::vector<std::string> all = words();
    all.insert(all.end(), {"stamping", "weighing"});
    const auto index = read_word_value(node, name, all, in);
    if (!index) return std::nullopt;
    return *index < sheet_keys.size() ? static_cast<SheetKind>(*index) : SheetKind::blanks;
  }
  static Shape shape() { return {.type = Shape::Type::word, .example = "\"turner\"", .words = words()}; }
  static std::string limits(Limits) { return {}; }
  static std::string written(SheetKind kind) {
    return in_quotes(Words<SheetKind>::list.at(static_cast<std::size_t>(kind)));
  }
};
template <>
struct Words<PrintedSides> {
  static constexpr std::array<std::string_view, 2> list{"both", "one"};
};
template <>
struct Words<TargetsFor> {
  static constexpr std::array<std::string_view, 3> list{"auto", "each", "master"};
};
template <>
struct Words<TurnerStrip> {
  static constexpr auto list =
      std::to_array<std::string_view>({"title_block", "drawing", "settings", "checks", "stations", "small_print"});
};
template <>
struct Words<CardStrip> {
  static constexpr auto list = std::to_array<std::string_view>({"figures", "notes", "checks", "blanks"});
};
template <>
struct Words<TagForm> {
  static constexpr std::array<std::string_view, 2> list{"labels", "tie_tags"};
};

namespace {
const Limits on_paper = within(0 * mm, 300 * mm);
}  // namespace

template <>
struct Keys<LabelSheet> {
  static inline const KeyList list{
      key("name", &LabelSheet::name, "what `tag_sheet` calls it: page, grid and size", within(1, 60)),
      key("paper", &LabelSheet::paper, "the page"),
      key("columns", &LabelSheet::columns, "labels in a row", within(1, 50), "3"),
      key("rows", &LabelSheet::rows, "labels in a column", within(1, 50), "3"),
      key("width", &LabelSheet::width, "of a label", within(20 * mm, 300 * mm)),
      key("height", &LabelSheet::height, "of a label", within(15 * mm, 300 * mm)),
      key("pitch_x", &LabelSheet::pitch_x, "from a label's left edge to the next one's", on_paper),
      key("pitch_y", &LabelSheet::pitch_y, "from a label's top edge to the next one's", on_paper),
      key("left", &LabelSheet::left, "left edge of the first label", on_paper),
      key("top", &LabelSheet::top, "top edge of the first label", on_paper),
  };
};

template <>
struct Keys<TieTagFacts> {
  static inline const KeyList list{
      key("width", &TieTagFacts::width, "from the fold to the tear line", within(60 * mm, 130 * mm)),
      key("height", &TieTagFacts::height, "of tag, flap and stub", within(30 * mm, 80 * mm)),
      key("hole", &TieTagFacts::hole, "diameter of the eye, 10 mm from the fold", within(2 * mm, 10 * mm)),
      key("stub", &TieTagFacts::stub, "of the part that is torn off", within(20 * mm, 60 * mm)),
  };
};

namespace {

struct TemplateFile : Template {
  Given<int> format;
};

}  // namespace

template <>
struct Keys<TemplateFile> {
  static inline const KeyList list{
      key("format", &TemplateFile::format, "number of this file's format", within(1, newest_format)),
      key_of<TemplateFile>("language", &TemplateFile::language, "of the words, as BCP 47 writes it", within(2, 35)),
      key_of<TemplateFile>("paper", &TemplateFile::paper, "of the traveller"),
      key_of<TemplateFile>("margin", &TemplateFile::margin, "white round every page of the traveller",
                           within(8 * mm, 30 * mm)),
      key_of<TemplateFile>(
          "sides", &TemplateFile::sides,
          "of the traveller's paper that are printed on: on both, each person's pages begin on a leaf"),
      key_of<TemplateFile>(
          "targets", &TemplateFile::targets,
          "for the ends of each blank with its ID, or one sheet without IDs to be copied; auto: that "
          "sheet where the others would be more than three"),
      key_of<TemplateFile>("tag_sheet", &TemplateFile::tag_sheet, "name of the label sheet for the tags",
                           within(1, 60)),
      key_of<TemplateFile>("tag_form", &TemplateFile::tags, "what the dry tags are printed on"),
      key_of<TemplateFile>("tie_tag", &TemplateFile::tie_tag, "a tag that is tied on"),
      key_of<TemplateFile>("code_base", &TemplateFile::code_base,
                           "address that every code begins with, its ID behind it; without one a code is the bare ID",
                           within(1, 60), "\"https://shop.example/r#\""),
      key_of<TemplateFile>("head_height", &TemplateFile::head_height, "of the head of every sheet",
                           within(8 * mm, 50 * mm)),
      key_of<TemplateFile>("lettering", &TemplateFile::lettering, "height of all words, of the shipped one",
                           within(90 * percent, 130 * percent)),
      key_of<TemplateFile>("write_in_row", &TemplateFile::write_in_row, "height of table rows that are written in",
                           within(8 * mm, 25 * mm)),
      key_of<TemplateFile>("sheets", &TemplateFile::sheets, "the traveller's sheets, in order",
                           within(0, static_cast<int>(sheet_keys.size() + 1))),  // one list had two names
      key_of<TemplateFile>("turner", &TemplateFile::turner,
                           "strips of the turner's sheet, from the top down; the drawing among them", within(0, 6),
                           "[\"drawing\", \"checks\"]"),
      key_of<TemplateFile>("bath_card", &TemplateFile::bath_card,
                           "strips of a bath's card, from the top down; the figures among them", within(0, 4),
                           "[\"figures\", \"checks\"]"),
      key_of<TemplateFile>("oven_card", &TemplateFile::oven_card,
                           "strips of an oven load's card, from the top down; the figures among them", within(0, 4),
                           "[\"figures\", \"checks\"]"),
      key_of<TemplateFile>("head", &TemplateFile::head,
                           "blocks of the head of every sheet; title and order among them", within(0, 30),
                           "[{kind = \"title\"}, {kind = \"order\"}]"),
      key_of<TemplateFile>("tag", &TemplateFile::tag, "blocks of a dry tag; the ID among them", within(0, 30),
                           "[{kind = \"id\"}, {kind = \"item\"}]"),
      key_of<TemplateFile>("end_tag", &TemplateFile::end_tag,
                           "blocks of a tag, or of a parcel, on a square label of 30 mm at most, for the end of a "
                           "blank; the ID among them",
                           within(0, 30), "[{kind = \"code\"}, {kind = \"id\"}]"),
      key_of<TemplateFile>("stub", &TemplateFile::stub, "blocks of a tie tag's stub; the ID among them",
                           within(0, 30), "[{kind = \"id\"}, {kind = \"item\"}]"),
      key_of<TemplateFile>("parcel", &TemplateFile::parcel,
                           "blocks of the label for a piece that is sent; the ID among them", within(0, 30),
                           "[{kind = \"id\"}, {kind = \"item\"}]"),
      key_of<TemplateFile>("label_sheets", &TemplateFile::label_sheets, "further label sheets", within(0, 100)),
      key_of<TemplateFile>("words", &TemplateFile::words, "words on paper"),
      key_of<TemplateFile>("spelling", &TemplateFile::spelling, "of numbers and units on paper"),
      key_of<TemplateFile>("labels", &TemplateFile::labels,
                           "of figures on the worksheet, by their paths in plan.json"),
      key_of<TemplateFile>("notes", &TemplateFile::notes, "of the working, on the worksheet"),
      key_of<TemplateFile>("terms", &TemplateFile::terms, "names in the working's formulas"),
      key_of<TemplateFile>("origins", &TemplateFile::origins, "where the terms of the working come from"),
      key_of<TemplateFile>("sources", &TemplateFile::sources, "whose figure or formula it is, by the English"),
      key_of<TemplateFile>("gates", &TemplateFile::gates, "what gates say on today's sheet"),
      key_of<TemplateFile>("species", &TemplateFile::species, "names of woods on paper, by the English"),
      key_of<TemplateFile>("actions", &TemplateFile::actions, "what action codes say, by their names"),
      key_of<TemplateFile>("cautions", &TemplateFile::cautions, "printed where the plan contains what they speak of"),
  };
};

namespace {

Printed millimetres(Length length, int decimals) {
  return printed(decimal(length / mm, decimals), PrintedUnit::millimetres);
}

/// The labels of a sheet have to lie on the paper, and apart.
void check_label_sheet(const LabelSheet& sheet, Diagnostics& out) {
  const Length right = sheet.left.value + (sheet.columns.value - 1) * sheet.pitch_x.value + sheet.width.value;
  const Length bottom = sheet.top.value + (sheet.rows.value - 1) * sheet.pitch_y.value + sheet.height.value;
  const Length slack = 0.5 * mm;  // published geometries are rounded
  if (right > width_of(sheet.paper.value) + slack || bottom > height_of(sheet.paper.value) + slack) {
    out.error(Problem::out_of_range, sheet.place, says::labels_run_off, sheet.name.value, millimetres(right, 1),
              millimetres(bottom, 1));
  }
  if ((sheet.columns.value > 1 && sheet.pitch_x.value < sheet.width.value) ||
      (sheet.rows.value > 1 && sheet.pitch_y.value < sheet.height.value)) {
    out.error(Problem::out_of_range, sheet.place, says::labels_overlap, sheet.name.value);
  }
}

/// Nothing twice, and nothing missing that a list is for.
template <class E>
void check_list(const std::vector<Given<E>>& items, Keyword list, E needed, const Place& at, Diagnostics& out) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    const bool twice = std::any_of(items.begin(), items.begin() + static_cast<std::ptrdiff_t>(i),
                                   [&](const auto& before) { return before.value == items.at(i).value; });
    if (twice) {
      out.error(Problem::keys_disagree, items.at(i).at, says::stands_twice, list,
                Form<E>::written(items.at(i).value));
    }
  }
  const bool there = std::any_of(items.begin(), items.end(), [&](const auto& i) { return i.value == needed; });
  if (!there) out.error(Problem::missing_key, at, says::list_lacks, list, Form<E>::written(needed));
}

void check_tie_tag(const Template& t, Diagnostics& out) {
  const Length needed = tie_tag_flap + t.tie_tag.width.value + t.tie_tag.stub.value;
  const Length there = width_of(t.paper.value) - 2 * t.margin.value;
  if (needed <= there) return;
  out.error(Problem::out_of_range, t.tie_tag.place, says::tie_tag_too_wide, millimetres(tie_tag_flap, 0),
            millimetres(needed, 0), millimetres(there, 0));
}

/// A template from when stamping and weighing had a list each names the one list of today twice.
void join_lists_of_blanks(std::vector<Given<SheetKind>>& sheets) {
  const auto is_list = [](const Given<SheetKind>& kind) { return kind.value == SheetKind::blanks; };
  const auto first = std::ranges::find_if(sheets, is_list);
  if (first != sheets.end()) sheets.erase(std::remove_if(first + 1, sheets.end(), is_list), sheets.end());
}

void check_lists(const Template& t, Diagnostics& out) {
  const Place at{t.source};
  check_tie_tag(t, out);
  check_list(t.sheets, {"sheets"}, SheetKind::turner, at, out);
  check_list(t.turner, {"turner"}, TurnerStrip::drawing, at, out);
  check_list(t.bath_card, {"bath_card"}, CardStrip::figures, at, out);
  check_list(t.oven_card, {"oven_card"}, CardStrip::figures, at, out);
  check_blocks(t, out);
}

const LabelSheet* find_sheet(const Template& t) {
  const auto found = std::find_if(t.label_sheets.begin(), t.label_sheets.end(),
                                  [&](const LabelSheet& s) { return s.name.value == t.tag_sheet.value; });
  return found == t.label_sheets.end() ? nullptr : &*found;
}

/// A template that changes the paper and leaves the tags on the other one has most likely forgotten them.
void note_other_paper(const Template& t, const Template& over, Diagnostics& out) {
  const PaperSize paper = t.paper.value;
  if (paper == over.paper.value || t.tag_sheet.value != over.tag_sheet.value || t.tags.value != TagForm::labels)
    return;
  const auto fitting =
      std::ranges::find_if(t.label_sheets, [&](const LabelSheet& s) { return s.paper.value == paper; });
  if (fitting == t.label_sheets.end() || tag_sheet(t).paper.value == paper) return;
  out.note(Problem::tags_on_other_paper, t.paper.at, says::tags_stay_on, Form<PaperSize>::written(over.paper.value),
           t.tag_sheet.value)
      .hint(says::assigned, Keyword{"tag_sheet"}, fitting->name.value);
}

}  // namespace

Length width_of(PaperSize paper) { return paper == PaperSize::a4 ? 210 * mm : 8.5 * inch; }
Length height_of(PaperSize paper) { return paper == PaperSize::a4 ? 297 * mm : 11 * inch; }

Template::Template() = default;
Template::Template(const Template&) = default;
Template::Template(Template&&) noexcept = default;
Template& Template::operator=(const Template&) = default;
Template& Template::operator=(Template&&) noexcept = default;
Template::~Template() = default;

std::optional<Template> read_template(const Source& source, const Template& over, Diagnostics& out) {
  const int before = out.errors();
  TemplateFile start;
  static_cast<Template&>(start) = over;
  start.label_sheets.clear();
  auto file = read_facts(source, Origin::shop, std::move(start), out);
  if (!file) return std::nullopt;
  Template result = std::move(*file);
  result.source = source;
  for (const LabelSheet& sheet : result.label_sheets) check_label_sheet(sheet, out);
  join_lists_of_blanks(result.sheets);
  check_lists(result, out);
  result.label_sheets.insert(result.label_sheets.end(), over.label_sheets.begin(), over.label_sheets.end());
  if (find_sheet(result) == nullptr && out.errors() == before) {
    std::vector<std::string> names;
    for (const LabelSheet& sheet : result.label_sheets) names.push_back(sheet.name.value);
    const auto meant = nearest_names(result.tag_sheet.value, names, 1);
    out.error(Problem::unknown_label_sheet, result.tag_sheet.at, says::no_such_label_sheet, result.tag_sheet.value)
        .hint(meant.empty() ? say(says::label_sheets, listed(names, says::as_it_is, says::one_and_next))
                            : say(says::assigned, Keyword{"tag_sheet"}, meant.front()));
  }
  if (out.errors() > before) return std::nullopt;
  note_other_paper(result, over, out);
  return result;
}

const LabelSheet& tag_sheet(const Template& t) {
  const LabelSheet* sheet = find_sheet(t);
  BW_EXPECT(sheet != nullptr);
  return *sheet;
}

std::vector<KeyInfo> template_key_infos() { return key_infos<TemplateFile>(); }

}  // namespace blankwright
