#include "commands/command_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <concepts>
#include <utility>

#include "commands/at_register.h"
#include "commands/bench_session.h"
#include "commands/commands.h"
#include "commands/inputs.h"
#include "measure/instant.h"
#include "read/entry_text.h"

namespace blankwright {
namespace {

constexpr const char* first_order = R"(
A first order on paper:
  blankwright begin                               makes a shop file and a job file to fill in
  blankwright compile --draft first-job.toml      sheets to look at
  blankwright compile first-job.toml              gives each blank its ID
The shop file is shop.toml beside the job unless --shop names another one.
`blankwright manual` lists the pages of the manual.

)";

constexpr const char* shop_says = "shop file; otherwise shop.toml beside the first job";

void set_up(CLI::App& command, BeginFlags& flags) {
  command.add_option("folder", flags.folder, "where the two files go; otherwise the present folder");
  command.add_option("--name", flags.name, "of the shop");
  command.add_option("--units", flags.units, "metric or inch")->check(CLI::IsMember({"metric", "inch"}));
  command.add_option("--paper", flags.paper, "A4 or Letter; otherwise as is usual with the units")
      ->check(CLI::IsMember({"A4", "Letter"}));
  command.add_option("--zone", flags.zone, "time zone, such as Europe/Berlin; otherwise the machine's");
  command.add_option("--treatment", flags.treatment, "yes or no: is resin drawn into the wood")
      ->check(CLI::IsMember({"yes", "no"}));
  command.footer("\nWhat no option says is asked for at a terminal. No file that is there is touched.\n");
}

void set_up(CLI::App& command, KnownFlags& flags) {
  std::string says = "\nWhat can be listed:\n";
  std::vector<std::string> names;
  for (const KnownThing& thing : known_things()) {
    names.emplace_back(thing.name);
    says += fmt::format("  {:<12} {}\n", thing.name, thing.says);
  }
  command.add_option("what", flags.what, "what to list, of the list below")->required()->check(CLI::IsMember(names));
  command.add_option("words", flags.words, "only what has all these words");
  command.add_option("--as", flags.as, "text, csv or json")
      ->check(CLI::IsMember({"text", "csv", "json"}))
      ->capture_default_str();
  command.footer(says);
}

void set_up(CLI::App& command, CheckFlags& flags) {
  command.add_option("jobs", flags.jobs, "job files (TOML)")->required();
  command.add_option("--shop", flags.shop, shop_says);
  command.add_flag("--quiet", flags.quiet, "say nothing but what is wrong");
}

void set_up(CLI::App& command, CompileFlags& flags) {
  command.add_option("jobs", flags.jobs, "job files (TOML); without any, those of all orders that are open");
  command.add_option("--shop", flags.shop, shop_says);
  command
      .add_option(
          "--out", flags.out,
          "folder for the sheets, with one of its own for each order; otherwise sheets, with --draft drafts, with "
          "--again again")
      ->check([](const std::string& folder) {
        if (folder.ends_with(".toml"))
          return fmt::format("needs a folder, and {0} is a file: --out sheets {0}", folder);
        return folder.empty() ? std::string{"needs a folder"} : "";
      });
  command.add_option(
      "--at", flags.at,
      fmt::format("moment from which to plan, {}; otherwise now", moment_help(NamedFrom::Days::ahead)));
  command.add_flag("--replace", flags.replace, "start new blanks for those that no longer fit their order");
  command
      .add_option("--again", flags.again,
                  "print one order again as it was handed out: \"last\", or an issue's number")
      ->check([](const std::string& print) {
        const bool is_number = !print.empty() && print.size() < 7 && print.front() != '0' &&
                               std::ranges::all_of(print, [](char c) { return c >= '0' && c <= '9'; });
        return is_number || print == "last" ? "" : std::string{"takes \"last\" or the number of an issue"};
      });
  command.add_flag("--draft", flags.draft, "print without giving any blank an ID");
  command.add_flag("--week", flags.week, "also week.pdf and shop.ics: what is to be done when, for all these orders");
  command.add_flag("--worksheet", flags.worksheet, "also worksheet.pdf: how every figure came about");
  command.add_option("--only", flags.only, fmt::format("write only these: {}", fmt::join(compile_outputs(), ", ")))
      ->check(CLI::IsMember(compile_outputs()))
      ->delimiter(',')
      ->allow_extra_args(false);  // what follows is a job
  command
      .add_option(
          "--pages", flags.pages,
          "print only these pages of the traveller: a person's (turner, bath, desk), a sheet's (oven, \"Bath card\") "
          "or one card (\"bath 2\", \"load 1\")")
      ->check([](const std::string& what) {
        return what.empty() ? std::string{"needs a person, a sheet or a card"} : "";
      });
  command.add_flag("--changed", flags.changed, "print only pages and tags that differ from the last print");
  command.add_option("--used-places", flags.used_places,
                     "places of the first label sheet that are used up, such as 1-4,9");
  command.add_option("--pictures", flags.pictures, "also each page as a PNG picture, with so many dots per inch")
      ->check(CLI::Range(36, 600));
  command.add_option("--threads", flags.threads, "how many processor cores to use; 0: all")
      ->check(CLI::Range(0, 64))
      ->capture_default_str();
  command.add_flag("--print-later", flags.print_later,
                   "lay pages out, and leave their printing to Ninja, by the file print.ninja beside them");
  command.add_flag("--quiet", flags.quiet, "say nothing but what is wrong");
  // Neither a draft nor an old print takes the place of the newest sheets and times.
  command.callback([&flags] {
    if (flags.out.empty()) flags.out = flags.draft ? "drafts" : !flags.again.empty() ? "again" : "sheets";
  });
}

void set_up(CLI::App& command, PrintFlags& flags) {
  command.add_option("files", flags.files, "files of pages, such as sheets/FIRST-1/tags.pages")->required();
  command.add_flag("--quiet", flags.quiet, "say nothing but what is wrong");
}

void set_up(CLI::App& command, ExplainFlags& flags) {
  command.add_option("job", flags.job, "job file (TOML)")->required();
  command.add_option("figure", flags.figure, "a figure's name, such as bore.depth_mm");
  command.add_option("--shop", flags.shop, "shop file; otherwise shop.toml beside the job");
}

void set_up(CLI::App& command, ManualFlags& flags) {
  command.add_option("page", flags.page, "page to show; without one they are listed");
  command.add_option("--out", flags.out, "folder into which all pages go, for man and as one HTML page");
}

void set_up(CLI::App& command, CompletionsFlags& flags) {
  command.add_option("shell", flags.shell, "bash or zsh")->required()->check(CLI::IsMember({"bash", "zsh"}));
}

void set_up(CLI::App& command, SchemaFlags& flags) {
  command.add_option("file", flags.file, "job, shop, template or entry (a row of a table of entries)")
      ->required()
      ->check(CLI::IsMember({"job", "shop", "template", "entry"}));
  command.add_flag("--table", flags.table, "as a table for people instead");
}

constexpr const char* shop_here = "shop file; otherwise shop.toml in the present folder";

/// All kinds of entries with what they need, for help.
std::string kinds_help() {
  std::string out = "\nWhat can have happened, with what it needs and [may say]:\n";
  for (const KindFacts& kind : kind_list()) {
    if (kind.kind != EntryKind::issued) out += fmt::format("  {}\n      {}\n", entry_usage(kind), kind.says);
  }
  out += "Its fields:\n";
  for (const FieldFacts& field : field_list()) {
    if (field.field != Field::role) out += fmt::format("  {:<12} {}\n", field.name, field_usage(field));
  }
  return out + "For example:\n  blankwright enter weighed K7T-4X54 mass=\"184.2 g\" tare=\"3 g\"\n";
}

void set_up(CLI::App& command, EnterFlags& flags) {
  command.add_option("what", flags.kind, "what has happened: a name of the list below, or its action code");
  command.add_option("says", flags.words, "blanks' IDs, and FIELD=VALUE");
  command.add_option("--csv", flags.csv,
                     "a table instead: columns kind, blank, at, person, replaces, override, and one for each field");
  command.add_option("--at", flags.at,
                     fmt::format("when it happened, {}; otherwise now, or when what it replaces did",
                                 moment_help(NamedFrom::Days::back)));
  command.add_option("--person", flags.person, "who enters it");
  command.add_option("--replaces", flags.replaces, "number of the entry that it corrects")
      ->check(CLI::PositiveNumber);
  command.add_option("--override", flags.overridden, "enter it though it is refused, for this reason");
  command.add_option("--shop", flags.shop, shop_here);
  command.add_flag("--quiet", flags.quiet, "say nothing but what is wrong");
  command.footer(kinds_help());
}

void set_up(CLI::App& command, BenchFlags& flags) {
  command.add_option("--shop", flags.shop, shop_here);
  command.footer("\n" + BenchSession::help());
}

void set_up(CLI::App& command, AskFlags& flags) {
  std::string says = "\nWhat can be asked:\n";
  for (const Question& question : questions())
    says += fmt::format("  {:<24} {}\n", fmt::format("{} {}", question.what, question.name), question.tells);
  says += "`blankwright manual entries` tells what counts as good and as lost.\n";
  command.add_option("what", flags.what, "what to ask about, of the list below")->required();
  command.add_option("name", flags.name, "which one");
  command.add_option("--at", flags.at, "the day of which the daybook tells, such as friday; otherwise today");
  command.add_option("--as", flags.as, "text, csv or json")
      ->check(CLI::IsMember({"text", "csv", "json"}))
      ->capture_default_str();
  command.add_option("--shop", flags.shop, shop_here);
  command.footer(says);
}

void set_up(CLI::App& command, TodayFlags& flags) {
  command.add_option(
      "--at", flags.at,
      fmt::format("the moment of which it tells, {}; otherwise now", moment_help(NamedFrom::Days::ahead)));
  command.add_option("--as", flags.as, "text or json")->check(CLI::IsMember({"text", "json"}))->capture_default_str();
  command.add_option("--out", flags.out, "a sheet too, into this PDF file");
  command.add_option("--shop", flags.shop, shop_here);
}

void set_up(CLI::App& command, PromiseFlags& flags) {
  command.add_option("job", flags.job, "job file (TOML)")->required();
  command.add_option(
      "--at", flags.at,
      fmt::format("moment from which to plan, {}; otherwise now", moment_help(NamedFrom::Days::ahead)));
  command.add_option("--as", flags.as, "text or json")->check(CLI::IsMember({"text", "json"}))->capture_default_str();
  command.add_option("--shop", flags.shop, "shop file; otherwise shop.toml beside the job");
}

void set_up(CLI::App& command, CardsFlags& flags) {
  command.add_option("orders", flags.orders, "orders' ids")->required();
  command.add_option("--out", flags.out, "folder for the sheets; each order has its own in it")
      ->capture_default_str();
  command.add_option("--shop", flags.shop, shop_here);
}

/// Of a command that writes one file of the shop's.
template <class F>
requires std::same_as<F, CodesFlags> || std::same_as<F, CautionsFlags> || std::same_as<F, ProofFlags> ||
    std::same_as<F, PageFlags>
void set_up(CLI::App& command, F& flags) {
  command.add_option("--out", flags.out, "the file")->capture_default_str();
  command.add_option("--shop", flags.shop, shop_here);
}

void set_up(CLI::App& command, MoveFlags& flags) {
  command.add_option("file", flags.file, "the file")->required();
  command.add_option("--shop", flags.shop, shop_here);
}

/// Tells a command its flags, and gives what runs it with them.
template <class F>
Runs with_flags(CLI::App& command, Exit (*runs)(const F&, Surroundings&)) {
  const auto flags = std::make_shared<F>();
  set_up(command, *flags);
  return [flags, runs](Surroundings& around) { return runs(*flags, around); };
}

template <auto runs>
Runs runs_with_flags(CLI::App& command) {
  return with_flags(command, runs);
}

/// What can be asked of the program. The flags of each belong to what runs it.
struct Command {
  const char* name;
  const char* says;
  Runs (*flags_and_run)(CLI::App& command);
};
constexpr auto commands = std::to_array<Command>({
    {"begin", "Make a shop file and a job file to fill in", runs_with_flags<begin>},
    {"check", "Read and plan jobs, say what is wrong, write nothing", runs_with_flags<check>},
    {"compile", "Plan jobs, give their blanks IDs, write traveller, tags and plan", runs_with_flags<compile>},
    {"print-pages", "Print pages that `compile --print-later` laid out", runs_with_flags<print_pages>},
    {"explain", "Show an order's figures, or how one of them is worked out", runs_with_flags<explain>},
    {"known", "List the woods, threads and label sheets that files may name", runs_with_flags<known>},
    {"schema", "Print the keys of a kind of file, as JSON Schema", runs_with_flags<schema>},
    {"enter", "Enter what has happened to blanks, baths, boards and resin", runs_with_flags<enter>},
    {"bench", "Enter line by line, with a scanner that types or a keyboard", runs_with_flags<bench>},
    {"ask", "Ask the register about a blank, an order, a bath and more", runs_with_flags<ask>},
    {"today", "Tell what is on now, what is late, and what has to be done before leaving", runs_with_flags<today>},
    {"promise", "Tell which date can be promised for a job, and by what", runs_with_flags<promise>},
    {"codes", "Print the action codes that are scanned at the bench", runs_with_flags<codes>},
    {"cautions", "Print all cautions, to hang up in the shop", runs_with_flags<cautions>},
    {"cards", "Print the client's card of each piece sent, from what was entered of it", runs_with_flags<cards>},
    {"proof", "Print the outline of every label, to hold against a sheet of labels", runs_with_flags<proof>},
    {"page", "Write the register as one HTML file to look at, also on a phone", runs_with_flags<page>},
    {"manual", "Show a page of the manual", runs_with_flags<manual>},
    {"completions", "Print what lets a shell complete commands, options and IDs", runs_with_flags<completions>},
    {"export", "Write all that the register holds into a text file", runs_with_flags<export_register>},
    {"import", "Fill an empty register from an exported file", runs_with_flags<import_register>},
});

/// What stands behind an option's name in help and manual.
constexpr auto values_of_options = std::to_array<std::pair<std::string_view, const char*>>({
    {"again", "PRINT"},      {"as", "FORM"},      {"at", "MOMENT"},          {"csv", "FILE"},   {"name", "NAME"},
    {"only", "KIND"},        {"out", "PATH"},     {"override", "WHY"},       {"pages", "WHAT"}, {"paper", "PAPER"},
    {"person", "NAME"},      {"pictures", "DPI"}, {"replaces", "ENTRY"},     {"shop", "FILE"},  {"threads", "NUMBER"},
    {"treatment", "ANSWER"}, {"units", "UNITS"},  {"used-places", "PLACES"}, {"zone", "ZONE"},
});

void name_values(CLI::App& command) {
  for (const auto& [name, value] : values_of_options) {
    if (CLI::Option* option = command.get_option_no_throw("--" + std::string{name})) option->type_name(value);
  }
}

}  // namespace

std::unique_ptr<CommandLine> command_line() {
  auto line = std::make_unique<CommandLine>();
  line->app.footer(first_order + std::string{exit_statuses});
  line->app.set_version_flag("--version", program_version());
  line->app.require_subcommand(1);
  for (const Command& one : commands) {
    CLI::App* command = line->app.add_subcommand(one.name, one.says);
    line->commands.emplace_back(command, one.flags_and_run(*command));
    name_values(*command);
  }
  return line;
}

}  // namespace blankwright
