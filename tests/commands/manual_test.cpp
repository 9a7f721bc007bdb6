// README and manual against the program: its lists, its commands, its limits.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <regex>
#include <sstream>

#include "commands/command_facts.h"
#include "commands/manual_texts.h"
#include "entries/entry_kind.h"
#include "measure/utf8.h"
#include "program.h"
#include "read/shape.h"
#include "typed.h"
#include "write/manual.h"

using namespace blankwright;

namespace {

std::string source(const std::string& path) { return bytes_of(BLANKWRIGHT_SOURCE_DIR "/" + path); }

std::vector<std::string> text_lines(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in{text};
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// What a text shows between fences of that kind: "sh", "toml".
std::vector<std::string> shown(const std::string& text, const std::string& kind) {
  std::vector<std::string> blocks;
  const std::string fence = "```" + kind + "\n";
  for (auto at = text.find(fence); at != std::string::npos; at = text.find(fence, at + 1)) {
    const auto begin = at + fence.size();
    blocks.push_back(text.substr(begin, text.find("```", begin) - begin));
  }
  return blocks;
}

/// The commands of the program that a text shows, without their remarks.
std::vector<std::string> commands_shown(const std::string& text) {
  std::vector<std::string> commands;
  for (const std::string& block : shown(text, "sh")) {
    for (const std::string& line : text_lines(block)) {
      if (line.starts_with("blankwright ")) commands.push_back(line.substr(12, line.find(" #") - 12));
    }
  }
  return commands;
}

/// A begun shop whose register gives out the IDs that README and manual name.
void begin_in(const TemporaryFolder& folder) {
  CHECK(run_program({"begin", folder.path(), "--zone", "Europe/Berlin"}).exit == Exit::done);
  put_bytes(folder / "shop.toml", bytes_of(folder / "shop.toml") + "\n[register]\nseries = \"K7T-4X54\"\n");
}

const std::vector<std::string>& page_names() {
  static const std::vector<std::string> names = [] {
    std::vector<std::string> all;
    for (const ManualPage& page : manual_pages()) all.push_back(page.name);
    return all;
  }();
  return names;
}

std::string without_breaks(const std::string& text) { return std::regex_replace(text, std::regex{"\\s+"}, " "); }

}  // namespace

TEST_CASE("the README is short") {
  const std::string text = source("README.md");
  CHECK(text.size() <= 9'000);
  CHECK(text_lines(text).size() <= 150);
  for (const std::string& line : text_lines(text)) {
    CAPTURE(line);
    CHECK(code_point_count(line) <= 120);
  }
}

TEST_CASE("each command that README and manual show runs, in the order in which they show them") {
  int count = 0;
  std::vector<std::string> texts{source("README.md")};
  for (const std::string& page : page_names()) texts.push_back(source("src/install/manual/" + page + ".md"));
  for (const std::string& text : texts) {
    const auto commands = commands_shown(text);
    if (commands.empty()) continue;
    const TemporaryFolder folder;
    begin_in(folder);
    CHECK(typed_in_folder(folder.path(), "compile --quiet first-job.toml").exit == Exit::done);
    for (const std::string& table : shown(text, "csv")) put_bytes(folder / "weighings.csv", table);
    for (const std::string& command : commands) {
      if (command.starts_with("begin")) continue;  // has begun
      CAPTURE(command);
      const ProgramRun run = typed_in_folder(folder.path(), command);
      CHECK_MESSAGE(run.exit == Exit::done, run.errors);
      ++count;
    }
  }
  CHECK(count >= 45);
}

TEST_CASE("each file that the manual shows a part of is read") {
  const TemporaryFolder folder;
  begin_in(folder);
  std::string shop = bytes_of(folder / "shop.toml");
  for (const std::string& block : shown(source("src/install/manual/template.md"), "toml"))
    put_bytes(folder / "own.toml", block);
  shop.replace(shop.find("\"a4\""), 4, "\"own.toml\"");
  put_bytes(folder / "shop.toml", shop);
  CHECK_MESSAGE(typed_in_folder(folder.path(), "compile --draft first-job.toml").exit == Exit::done,
                typed_in_folder(folder.path(), "check first-job.toml").errors);
  // A part of a shop file stands behind the keys of the file itself, and names no key that there is not.
  for (const std::string& block : shown(source("src/install/manual/shop.md"), "toml")) {
    put_bytes(folder / "shop.toml", "format = 1\nname = \"x\"\nzone = \"Etc/UTC\"\n" + block);
    const std::string said = typed_in_folder(folder.path(), "check first-job.toml").errors;
    CAPTURE(said);
    for (const char* problem : {"[unknown-key]", "[wrong-type]", "[not-toml]", "[not-a-quantity]", "[bad-date]"})
      CHECK(said.find(problem) == std::string::npos);
  }
}

TEST_CASE(
    "every key, kind of entry, field, command and option stands in the manual, on the terminal, for man, and as "
    "HTML") {
  const TemporaryFolder folder;
  CHECK(run_program({"manual", "--out", folder.path()}).exit == Exit::done);
  const std::string html = bytes_of(folder / "manual.html");
  const auto check_in = [&](const std::string& page, int section, const std::string& what) {
    CAPTURE(what);
    const std::string text = without_breaks(run_program({"manual", page}).out);
    CHECK(text.find(what) != std::string::npos);
    const std::string name = section == 1 ? "blankwright" : "blankwright-" + page;
    std::string man = bytes_of(folder / fmt::format("man{}/{}.{}", section, name, section));
    man = std::regex_replace(man, std::regex{R"(\\-)"}, "-");
    CHECK(man.find(what) != std::string::npos);
    CHECK(html.find(what) != std::string::npos);
  };
  const std::pair<std::string, std::vector<KeyInfo>> files[] = {
      {"job", job_key_infos()}, {"shop", shop_key_infos()}, {"template", template_key_infos()}};
  for (const auto& [page, keys] : files) {
    for (const KeyInfo& key : keys) check_in(page, 5, key.name);
  }
  check_in("job", 5, "handle.stations[].diameter");
  check_in("shop", 5, "resins[].cure_hold");
  for (const KindFacts& kind : kind_list()) {
    if (kind.kind != EntryKind::issued) check_in("entries", 7, std::string{kind.name});
  }
  for (const CommandFacts& command : command_facts()) {
    check_in("commands", 1, command.name);
    for (const OptionFacts& option : command.options) {
      check_in("commands", 1, option.name);
      CHECK_MESSAGE(option.takes != "TEXT", option.name, " has no word for what it takes");
    }
  }
}

TEST_CASE("man has nothing to find fault with, and prints what the page says") {
  const TemporaryFolder folder;
  CHECK(run_program({"manual", "--out", folder.path()}).exit == Exit::done);
  for (const ManualPage& page : manual_pages()) {
    CAPTURE(page.name);
    const std::string file = folder / fmt::format("man{}/{}.{}", page.section, man_name(page), page.section);
    const ToolRun run = run_tool("LC_ALL=C.UTF-8 MANWIDTH=80 man --warnings -E UTF-8 -l " + shell_quoted(file));
    CHECK(run.status == 0);
    CHECK_MESSAGE(run.err.empty(), run.err);
    CHECK(run.out.find("NAME\n") != std::string::npos);
    CHECK(run.out.find("\\(") == std::string::npos);
  }
}

TEST_CASE("a page fits the terminal, and has no colours or bold where nobody looks") {
  for (const std::string& page : page_names()) {
    CAPTURE(page);
    bool in_example = false;
    const ProgramRun run = run_program({"manual", page});
    CHECK(run.exit == Exit::done);
    CHECK(run.out.find('\x1b') == std::string::npos);
    for (const std::string& line : text_lines(run.out)) {
      in_example = line.starts_with("        ") && line.find("  ") != std::string::npos;
      CAPTURE(line);
      CHECK((in_example || code_point_count(line) <= 80));
    }
  }
  const ProgramRun none = run_program({"manual", "shopp"});
  CHECK(none.exit == Exit::command_line);
  CHECK(none.errors.find("did you mean shop?") != std::string::npos);
  for (const std::string& page : page_names())
    CHECK(run_program({"manual"}).out.find("  " + page) != std::string::npos);
}

TEST_CASE("each test that the manual's promises name is there") {
  int count = 0;
  const std::string text = source("src/install/manual/promises.md");
  const std::regex named{"`(tests/[a-z_/]+\\.cpp)`"};
  for (std::sregex_iterator it{text.begin(), text.end(), named}, end; it != end; ++it, ++count) {
    CAPTURE((*it)[1].str());
    CHECK(std::filesystem::exists(BLANKWRIGHT_SOURCE_DIR "/" + (*it)[1].str()));
  }
  CHECK(count >= 8);
}

TEST_CASE("a text of the manual with something that none of its forms can show is a fault of ours") {
  CHECK_NOTHROW(read_manual("a tag stays **outside** the bath"));
  CHECK_THROWS(read_manual("a tag stays *outside* the bath"));
  CHECK_THROWS(read_manual("1. first"));
}

TEST_CASE("the licences page names each library that the build takes") {
  const std::string text = ascii_lower(source("src/install/manual/licences.md"));
  const std::string build = source("CMakeLists.txt");
  const std::map<std::string, std::string> called{{"cli11", "cli11"},          {"nlohmann_json", "nlohmann"},
                                                  {"sqlite3", "sqlite"},       {"tomlplusplus", "toml++"},
                                                  {"qrcodegencpp", "qr code"}, {"libutf8proc", "utf8proc"}};
  int count = 0;
  const std::regex taken{R"((?:find_package\(|pkg_check_modules\()(\w+) REQUIRED)"};
  for (std::sregex_iterator it{build.begin(), build.end(), taken}, end; it != end; ++it) {
    const std::string library = ascii_lower((*it)[1].str());
    if (library == "pkgconfig" || library == "threads") continue;  // CMake's own, and the C library's
    CAPTURE(library);
    CHECK(text.find(called.contains(library) ? called.at(library) : library) != std::string::npos);
    ++count;
  }
  CHECK(count >= 13);
}

TEST_CASE("bash and zsh complete commands, options, kinds of entry and the IDs in work") {
  const TemporaryFolder folder;
  begin_in(folder);
  CHECK(typed_in_folder(folder.path(), "compile --quiet first-job.toml").exit == Exit::done);
  put_bytes(folder / "c.bash", run_program({"completions", "bash"}).out);
  put_bytes(folder / "c.zsh", run_program({"completions", "zsh"}).out);
  const std::string bin = std::filesystem::path{BLANKWRIGHT_PROGRAM}.parent_path().string();
  const auto in_bash = [&](const std::string& words) {
    return run_tool(fmt::format("cd {} && PATH={}:$PATH bash -c '. ./c.bash; COMP_WORDS=(blankwright {}); "
                                "COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); _blankwright; echo \"${{COMPREPLY[*]}}\"'",
                                shell_quoted(folder.path()), bin, words))
        .out;
  };
  CHECK(in_bash("comp") == "compile completions\n");
  CHECK(in_bash("compile --ch") == "--changed\n");
  CHECK(in_bash("compile --only tr") == "traveller\n");
  CHECK(in_bash("enter into-") == "into-drying into-bath into-oven\n");
  CHECK(in_bash("enter weighed K7") == "K7T-4X54\n");
  CHECK(in_bash("manual pla") == "planning\n");
  const ToolRun zsh = run_tool(
      fmt::format("cd {} && PATH={}:$PATH zsh -fc 'compdef() {{ }}; . ./c.zsh; _blankwright_words enter weighed 3; "
                  "_blankwright_words x y 1'",
                  shell_quoted(folder.path()), bin));
  CHECK_MESSAGE(zsh.status == 0, zsh.err);
  CHECK(zsh.out.find("\nTKB-267K\n") != std::string::npos);
  CHECK(zsh.out.find(" compile ") != std::string::npos);
}
