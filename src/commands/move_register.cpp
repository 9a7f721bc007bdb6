#include <fmt/format.h>

#include <ostream>

#include "commands/at_register.h"
#include "commands/commands.h"
#include "commands/harmless_stream.h"
#include "commands/output.h"
#include "write/register_lines.h"

namespace blankwright {

Exit export_register(const MoveFlags& flags, Surroundings& around) {
  auto at = at_register(flags.shop, around, OpenTo::read);
  if (!at) return Exit::mistakes;
  const RegisterContents contents = at->known.contents();
  around.disk.write_whole(flags.file, register_as_lines(contents));
  around.out << fmt::format("{}: {}, {}\n", flags.file, counted(std::ssize(contents.orders), "order"),
                            counted(std::ssize(contents.entries), "entry", "entries"));
  return Exit::done;
}

Exit import_register(const MoveFlags& flags, Surroundings& around) {
  constexpr std::size_t largest_export = std::size_t{4} * 1024 * 1024 * 1024;
  const auto text = around.disk.read(flags.file, largest_export);
  if (!text) {
    around.errors << fmt::format("blankwright: {}: {}\n", flags.file, text.error().words);
    return Exit::mistakes;
  }
  const auto read = register_from_lines(*text);
  if (!read) {
    around.errors << fmt::format("blankwright: {}: {}\n", flags.file, read.error());
    return Exit::mistakes;
  }
  if (!read->is_whole) {
    around.errors << fmt::format(
        "blankwright: {}: an earlier version wrote it without an end line, so nothing shows whether it is whole\n",
        flags.file);
  }
  const RegisterContents& contents = read->contents;
  const std::string shop_file = shop_path(flags.shop, "");
  Diagnostics out;
  const auto inputs = read_shop_inputs(around.disk, shop_file, out);
  const bool agrees = inputs && is_named_series(contents.series, inputs->shop, out);
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  if (!agrees) return Exit::mistakes;
  Register known{place_of_register(inputs->shop, shop_file), contents.series};
  known.fill(contents, now_at(known, around));
  around.out << fmt::format("{} and {} taken over\n", counted(std::ssize(contents.orders), "order"),
                            counted(std::ssize(contents.entries), "entry", "entries"));
  return Exit::done;
}

}  // namespace blankwright
