#include "read/entry_csv.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>

#include "measure/utf8.h"
#include "read/entry_text.h"
#include "read/keys.h"
#include "read/meant.h"

namespace blankwright {
namespace {

constexpr std::size_t most_rows = 100'000;
constexpr std::array<std::string_view, 6> own_columns{"kind", "blank", "at", "person", "replaces", "override"};

/// Where semicolons part the columns, a comma in a figure is its decimal sign: so spreadsheets write in countries
/// that have such a comma. Anything else that is written with commas is left as it is.
std::string with_decimal_point(const std::string& column, std::string cell) {
  const auto field = std::ranges::find(field_list(), std::string_view{column}, &FieldFacts::name);
  if (field == field_list().end() || !field->kind || cell.find('.') != std::string::npos) return cell;
  const auto comma = cell.find(',');
  if (comma != std::string::npos && comma == cell.rfind(',')) cell.at(comma) = '.';
  return cell;
}

struct Row {
  int line = 0;
  std::vector<std::string> cells;
};

/// Parts a text into rows of cells. A cell in quotation marks may hold separators, line ends and doubled marks.
class Cells {
 public:
  Cells(std::string_view text, char separator) : text_{text}, separator_{separator} {}

  /// The next row; none at the end. A fault is told in `wrong`, and the rest is not read.
  std::optional<Row> next(std::vector<std::string>& wrong) {
    if (at_ >= text_.size()) return std::nullopt;
    Row row{line_, {}};
    while (true) {
      row.cells.push_back(cell());
      if (open_) {
        wrong.push_back(fmt::format("line {}: a quotation mark is never closed", row.line));
        return std::nullopt;
      }
      if (at_ >= text_.size()) return row;
      const char after = text_[at_++];
      if (after == separator_) continue;
      if (after == '\r' && at_ < text_.size() && text_[at_] == '\n') ++at_;
      ++line_;
      return row;
    }
  }

 private:
  bool ends_cell(char c) const { return c == separator_ || c == '\n' || c == '\r'; }

  std::string cell() {
    std::string out;
    if (at_ < text_.size() && text_[at_] == '"') {
      ++at_;
      quoted(out);
    }
    while (at_ < text_.size() && !ends_cell(text_[at_])) out += text_[at_++];
    return out;
  }

  void quoted(std::string& out) {
    open_ = true;
    while (at_ < text_.size()) {
      const char c = text_[at_++];
      if (c == '\n') ++line_;
      if (c != '"') {
        out += c;
      } else if (at_ < text_.size() && text_[at_] == '"') {
        out += text_[at_++];
      } else {
        open_ = false;
        return;
      }
    }
  }

  std::string_view text_;
  char separator_;
  std::size_t at_ = 0;
  int line_ = 1;
  bool open_ = false;
};

char separator_of(std::string_view header) {
  for (const char c : {'\t', ';'}) {
    if (header.find(c) != std::string_view::npos) return c;
  }
  return ',';
}

/// Names of the columns; what is wrong with the header is told.
std::vector<std::string> columns_of(const Row& header, std::vector<std::string>& wrong) {
  std::vector<std::string> known{own_columns.begin(), own_columns.end()};
  for (const FieldFacts& field : field_list()) known.emplace_back(field.name);
  std::vector<std::string> columns;
  for (const std::string& cell : header.cells) {
    const std::string name = ascii_lower(cell);
    if (std::ranges::find(known, name) == known.end()) {
      const auto near = names_meant(name, known);
      wrong.push_back(fmt::format("line {}: no column is called \"{}\"{}", header.line, cell,
                                  near.empty() ? "" : fmt::format("; did you mean {}?", near.front())));
    } else if (std::ranges::find(columns, name) != columns.end()) {
      wrong.push_back(fmt::format("line {}: there are two columns \"{}\"", header.line, name));
    }
    columns.push_back(name);
  }
  if (wrong.empty() && std::ranges::find(columns, "kind") == columns.end()) {
    wrong.push_back(fmt::format("line {}: the header needs a column \"kind\"", header.line));
  }
  return columns;
}

/// What a row says, as far as it can be read.
std::optional<Entry> entry_of(const Row& row, const std::vector<std::string>& columns, Instant now, const Zone& zone,
                              std::vector<std::string>& wrong) {
  const auto fault = [&](std::string_view what) { wrong.push_back(fmt::format("line {}: {}", row.line, what)); };
  if (row.cells.size() > columns.size()) {
    fault(fmt::format("has {} cells, and the header {}", row.cells.size(), columns.size()));
    return std::nullopt;
  }
  SaidEntry said;
  bool good = true;
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    const std::string& cell = row.cells.at(i);
    const std::string& column = columns.at(i);
    if (cell.empty()) continue;
    if (column == "kind") {
      if (const auto kind = read_kind(cell)) {
        said.kind = *kind;
      } else {
        fault(kind.error());
        good = false;
      }
    } else if (column == "blank") {
      said.blank = cell;
    } else if (column == "at") {
      const auto at = read_moment(cell, {zone, now, NamedFrom::Days::back});
      if (at) said.at = *at;
      if (!at)
        fault(
            fmt::format("at: {}{}", at.error().message, at.error().hint.empty() ? "" : "; write " + at.error().hint));
      good = good && at.has_value();
    } else if (column == "person") {
      said.person = cell;
    } else if (column == "override") {
      said.overridden = cell;
    } else if (column == "replaces") {
      EntryNumber number = 0;
      const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), number);
      const bool is_number = error == std::errc{} && end == cell.data() + cell.size() && number > 0;
      if (is_number) said.replaces = number;
      if (!is_number) fault(fmt::format("replaces is the number of an entry, not \"{}\"", cell));
      good = good && is_number;
    } else {
      said.values.emplace_back(column, cell);
    }
  }
  if (said.kind == nullptr) {
    if (good) fault("says no kind");
    return std::nullopt;
  }
  said.offset = local_time(zone, said.at == not_said ? now : said.at).offset;
  auto entry = read_entry(said);
  if (!entry) {
    for (const std::string& what : entry.error()) fault(what);
    return std::nullopt;
  }
  return good ? std::optional{std::move(*entry)} : std::nullopt;
}

/// Between what a column's figures lie, of whichever kind their row is.
Limits widest_limits(const FieldFacts& field) {
  Limits widest{field.range.least, field.range.most};
  for (const KindFacts& kind : kind_list()) {
    for (const FieldUse& use : kind.fields) {
      if (use.field != field.field || !use.range) continue;
      widest = {std::min(widest.low, use.range->least), std::max(widest.high, use.range->most)};
    }
  }
  return widest;
}

}  // namespace

std::vector<KeyInfo> entry_key_infos() {
  std::vector<KeyInfo> infos;
  const auto add = [&](std::string_view name, Shape shape, std::string says) {
    KeyInfo info;
    info.name = name;
    info.shape = std::move(shape);
    info.says = std::move(says);
    infos.push_back(std::move(info));
  };
  const Shape text{Shape::Type::text};
  Shape kinds{Shape::Type::word};
  for (const KindFacts& kind : kind_list()) {
    if (kind.kind != EntryKind::issued) kinds.words.emplace_back(kind.name);
  }
  add("kind", std::move(kinds), "what has happened");
  infos.back().required = true;
  add("blank", text, "a blank's ID");
  add("at", text,
      "when it happened: 13:30, friday 13:30, 2027-05-04 13:30 (the shop's clock) or RFC 3339; left out: now, or "
      "when the entry that it replaces did");
  add("person", text, "who enters it");
  add("replaces", Shape{Shape::Type::count}, "number of the entry that it corrects");
  add("override", text, "why it is so although it cannot be");
  for (const FieldFacts& field : field_list()) {
    Shape shape{field.kind ? Shape::Type::quantity : field.words.empty() ? Shape::Type::text : Shape::Type::word};
    if (field.kind) shape.kind = *field.kind;
    for (const std::string_view word : field.words) shape.words.emplace_back(word);
    add(field.name, std::move(shape), std::string{field.says});
    if (field.kind) infos.back().limits = limits_text(*field.kind, widest_limits(field));
  }
  return infos;
}

tl::expected<CsvEntries, std::vector<std::string>> read_entries_csv(std::string_view text, Instant now,
                                                                    const Zone& zone) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  std::vector<std::string> wrong;
  if (const auto bad = invalid_utf8_at(text)) {
    wrong.push_back(fmt::format("line {}: this is not UTF-8", 1 + std::ranges::count(text.substr(0, *bad), '\n')));
    return tl::make_unexpected(std::move(wrong));
  }
  const char separator = separator_of(text.substr(0, text.find('\n')));
  Cells cells{text, separator};
  const auto header = cells.next(wrong);
  if (!header) return tl::make_unexpected(std::vector<std::string>{"line 1: there is no header row"});
  const auto columns = columns_of(*header, wrong);
  if (!wrong.empty()) return tl::make_unexpected(std::move(wrong));
  // A table that broke off may have lost a digit or a letter of a unit with its end: 45 mm, 45 m.
  if (!text.ends_with('\n') && !text.ends_with('\r')) {
    wrong.push_back(fmt::format("line {}: the table's last line has no line end: it may be cut short; add one",
                                1 + std::ranges::count(text, '\n')));
  }
  CsvEntries out;
  while (auto row = cells.next(wrong)) {
    if (std::ranges::all_of(row->cells, &std::string::empty)) continue;
    for (std::size_t i = 0; separator == ';' && i < std::min(row->cells.size(), columns.size()); ++i) {
      row->cells.at(i) = with_decimal_point(columns.at(i), row->cells.at(i));
    }
    if (out.lines.size() == most_rows) {
      wrong.push_back(fmt::format("line {}: a table holds at most {} rows", row->line, most_rows));
      break;
    }
    auto entry = entry_of(*row, columns, now, zone, wrong);
    out.lines.push_back(row->line);
    if (entry) out.entries.push_back(std::move(*entry));
  }
  if (!wrong.empty()) return tl::make_unexpected(std::move(wrong));
  return out;
}

}  // namespace blankwright
