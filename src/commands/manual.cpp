#include <fmt/format.h>

#include <algorithm>
#include <ostream>

#include "commands/commands.h"
#include "commands/harmless_stream.h"
#include "commands/inputs.h"
#include "commands/manual_texts.h"
#include "measure/nearest.h"

namespace blankwright {
namespace {

constexpr int widest_text = 100;  // columns: longer lines are hard to read

void list_pages(Surroundings& around) {
  around.out << "Pages of the manual; `blankwright manual PAGE` shows one:\n";
  for (const ManualPage& page : manual_pages()) around.out << fmt::format("  {:<10} {}\n", page.name, page.says);
}

Exit no_such_page(const std::string& typed, Surroundings& around) {
  std::vector<std::string> names;
  for (const ManualPage& page : manual_pages()) names.push_back(page.name);
  const auto near = nearest_names(typed, names, 1);
  around.errors << fmt::format("blankwright: the manual has no page \"{}\"; its pages are {}{}\n", typed,
                               fmt::join(names, ", "),
                               near.empty() ? "" : fmt::format("; did you mean {}?", near.front()));
  return Exit::command_line;
}

/// All pages for `man`, each in the folder of its section, and one HTML page.
void write_manual(const std::string& folder, Surroundings& around) {
  const auto& pages = manual_pages();
  for (const ManualPage& page : pages) {
    const std::string section = fmt::format("{}/man{}", folder, page.section);
    around.disk.make_folders(section);
    around.disk.write_whole(fmt::format("{}/{}.{}", section, man_name(page), page.section),
                            manual_as_man(page, pages, program_version()));
  }
  around.disk.write_whole(folder + "/manual.html", manual_as_html(pages, program_version()));
}

}  // namespace

Exit manual(const ManualFlags& flags, Surroundings& around) {
  if (!flags.out.empty()) write_manual(flags.out, around);
  if (flags.page.empty()) {
    if (flags.out.empty()) list_pages(around);
    return Exit::done;
  }
  const auto page = std::ranges::find(manual_pages(), flags.page, &ManualPage::name);
  if (page == manual_pages().end()) return no_such_page(flags.page, around);
  const Terminal& terminal = around.out_terminal;
  around.out << AsIs{manual_as_text(*page, std::min(terminal.width, widest_text), terminal.colour)};
  return Exit::done;
}

}  // namespace blankwright
