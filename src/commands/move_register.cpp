#include <fmt/format.h>

#include <ostream>

#include "commands/at_register.h"
#include "commands/commands.h"
#include "commands/output.h"
#include "write/register_lines.h"

namespace blankwright {

Exit export_register(const MoveFlags& flags, Surroundings& around) {
  auto at = at_register(flags.shop, around, false);
  if (!at) return Exit::mistakes;
  const RegisterContents contents{at->known.series(), at->known.stored_orders(), at->known.all_entries()};
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
  const auto contents = register_from_lines(*text);
  if (!contents) {
    around.errors << fmt::format("blankwright: {}: {}\n", flags.file, contents.error());
    return Exit::mistakes;
  }
  const std::string shop_file = shop_path(flags.shop, "");
  Diagnostics out;
  const auto inputs = read_shop_inputs(around.disk, shop_file, out);
  const bool agrees = inputs && is_named_series(contents->series, inputs->shop, out);
  around.errors << rendered(out, around.errors_terminal.colour);
  if (!agrees) return Exit::mistakes;
  Register known{register_path(shop_file), contents->series};
  known.fill(contents->series, contents->orders, contents->entries,
             Instant{std::chrono::seconds{around.clock.now_unix()}});
  around.out << fmt::format("{} and {} taken over\n", counted(std::ssize(contents->orders), "order"),
                            counted(std::ssize(contents->entries), "entry", "entries"));
  return Exit::done;
}

}  // namespace blankwright
