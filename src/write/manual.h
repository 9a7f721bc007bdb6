#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace blankwright {

/// Words of one look.
struct ManualWords {
  enum class Look { plain, code, strong };
  std::string text;
  Look look = Look::plain;
  std::string leads_to;  ///< another page's name, or an address; empty for none
};
using ManualLine = std::vector<ManualWords>;

struct ManualBlock {
  enum class Type { heading, paragraph, item, example, table };
  Type type = Type::paragraph;
  int level = 0;          ///< of a heading: 1 to 3; of an item: 0, or how deep it stands in others
  ManualLine line{};      ///< of a heading, a paragraph, an item
  std::string example{};  ///< as it is typed, with its line ends
  std::vector<std::vector<ManualLine>> rows{};  ///< of a table; the first one is its head
};

/// A page of the manual: "shop", section 5 of what `man` reads.
struct ManualPage {
  std::string name, says;  ///< says: what it is about, in a line
  int section = 7;
  std::vector<ManualBlock> blocks;
};

/// Reads a text in CommonMark, with tables: headings, paragraphs, lists, code, tables. What else Markdown has is a
/// fault of ours.
std::vector<ManualBlock> read_manual(std::string_view markdown);

/// For a terminal, in lines of at most `width` columns (40 at least); `looks`: bold and underlined by escape codes.
std::string manual_as_text(const ManualPage& page, int width, bool looks);

/// What `man` calls a page: "blankwright-shop"; that of the commands is the program's own.
std::string man_name(const ManualPage& page);

/// For `man`, by the macros of groff_man(7). `others` are all pages: those that the text leads to are named with
/// their section.
std::string manual_as_man(const ManualPage& page, const std::vector<ManualPage>& others, std::string_view version);

/// All of them as one HTML page, with their list first.
std::string manual_as_html(const std::vector<ManualPage>& pages, std::string_view version);

}  // namespace blankwright
