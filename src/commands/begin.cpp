#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <istream>
#include <ostream>

#include "commands/commands.h"
#include "commands/harmless_stream.h"
#include "commands/shipped.h"
#include "commands/starter.h"
#include "diagnose/diagnostics.h"
#include "read/shop.h"

namespace blankwright {
namespace {

/// What a shop is asked before it begins, where no option said it.
struct Asking {
  std::string_view question;
  std::string* answer;
  std::string usual;                                     ///< what an empty answer means
  std::function<std::string(const std::string&)> wrong;  ///< what is wrong with an answer, or empty
};

std::function<std::string(const std::string&)> one_of(std::string a, std::string b) {
  return [a = std::move(a), b = std::move(b)](const std::string& answer) {
    return answer == a || answer == b ? std::string{} : fmt::format("answer {} or {}", a, b);
  };
}

std::string wrong_zone(const std::string& name) {
  if (find_zone(name)) return {};
  return fmt::format(
      "no time zone has the name \"{}\"; write area and city, such as America/Chicago or Europe/Berlin", name);
}

std::string wrong_name(const std::string& name) {
  constexpr std::size_t most = 80;  // as the shop file takes
  return name.empty() || name.size() > most ? "write a name of at most 80 characters" : "";
}

/// Asks until there is an answer that can be; false where the answers end.
bool ask_for(const Asking& asking, Surroundings& around) {
  for (std::string line;;) {
    around.errors << fmt::format("{} [{}]: ", asking.question, asking.usual) << std::flush;
    if (!std::getline(around.in, line)) return false;
    const auto begin = line.find_first_not_of(" \t\r");
    line = begin == std::string::npos ? "" : line.substr(begin, line.find_last_not_of(" \t\r") - begin + 1);
    const std::string answer = line.empty() ? asking.usual : line;
    const std::string wrong = asking.wrong(answer);
    if (wrong.empty()) {
      *asking.answer = answer;
      return true;
    }
    around.errors << wrong << "\n";
  }
}

/// Fills in what no option said: by asking, or with what is usual.
bool complete(BeginFlags& flags, Surroundings& around) {
  const auto settle = [&](const Asking& asking) {
    if (!asking.answer->empty()) {
      const std::string wrong = asking.wrong(*asking.answer);
      if (!wrong.empty()) around.errors << fmt::format("blankwright: {}\n", wrong);
      return wrong.empty();
    }
    if (around.may_ask) return ask_for(asking, around);
    *asking.answer = asking.usual;
    return true;
  };
  const bool knows_zone = !around.zone_here.empty() && wrong_zone(around.zone_here).empty();
  return settle({"Name of the shop", &flags.name, "My Shop", wrong_name}) &&
         settle({"Units, metric or inch", &flags.units, "metric", one_of("metric", "inch")}) &&
         settle({"Paper, A4 or Letter", &flags.paper, flags.units == "inch" ? "Letter" : "A4",
                 one_of("A4", "Letter")}) &&
         settle({"Time zone, area and city", &flags.zone, knows_zone ? around.zone_here : "Etc/UTC", wrong_zone}) &&
         settle({"Is resin drawn into the wood, yes or no", &flags.treatment, "yes", one_of("yes", "no")});
}

/// What the shop file says of itself has to be read as any shop file is.
bool is_read(const std::string& path, const std::string& text, Surroundings& around) {
  Diagnostics out;
  const auto shop = read_shop(std::make_shared<const SourceText>(SourceText{path, text}), out);
  if (!shop) around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  return shop.has_value();
}

std::size_t count_of_yours(const std::string& text) {
  std::size_t count = 0;
  for (auto at = text.find("# yours"); at != std::string::npos; at = text.find("# yours", at + 1)) ++count;
  return count;
}

}  // namespace

Exit begin(const BeginFlags& given, Surroundings& around) {
  BeginFlags flags = given;
  const std::string inside = flags.folder.empty() || flags.folder == "." ? "" : flags.folder + "/";
  const std::string shop_file = inside + "shop.toml", job_file = inside + "first-job.toml";
  for (const std::string& file : {shop_file, job_file}) {
    if (!around.disk.exists(file)) continue;
    around.errors << fmt::format(
        "blankwright: {} is there already; nothing was written. Name another folder: blankwright begin FOLDER\n",
        file);
    return Exit::command_line;
  }
  if (!complete(flags, around)) {
    around.errors << "blankwright: nothing was written\n";
    return Exit::command_line;
  }
  const Starter starter{flags.units == "inch", flags.paper == "Letter", flags.treatment == "yes", flags.name,
                        flags.zone};
  const std::string shop = filled_in(shipped("shop-file.toml"), starter);
  if (!is_read(shop_file, shop, around)) return Exit::mistakes;
  if (!inside.empty()) around.disk.make_folders(flags.folder);
  around.disk.write_whole(shop_file, shop);
  around.disk.write_whole(job_file, filled_in(shipped("job-file.toml"), starter));
  around.out << fmt::format("{}: what is true of the shop; {} lines are marked \"yours\"\n{}: one order to fill in\n",
                            shop_file, count_of_yours(shop), job_file);
  if (starter.treated) {
    around.out << "Read first: `unattended_drying` in the shop file lets the oven dry wood while nobody is there.\n";
  }
  around.out << fmt::format(
      "\nThen:\n  blankwright compile --draft {0}    sheets to look at, in drafts/\n"
      "  blankwright compile {0}            gives each blank its ID\n",
      job_file);
  return Exit::done;
}

}  // namespace blankwright
