// What is installed: built and put into a folder as `cmake --install` does it.

#include <doctest/doctest.h>

#include <filesystem>

#include "paper.h"
#include "temporary_folder.h"

using namespace blankwright;

TEST_CASE("cmake --install puts program, manual, completions, licences and changelog into their folders") {
  const TemporaryFolder folder;
  const std::string build = std::filesystem::path{BLANKWRIGHT_PROGRAM}.parent_path().parent_path().string();
  const ToolRun run = run_tool("cmake --install " + shell_quoted(build) + " --prefix " + shell_quoted(folder.path()));
  CHECK_MESSAGE(run.status == 0, run.err);
  for (const char* file :
       {"bin/blankwright", "share/man/man1/blankwright.1.gz", "share/man/man5/blankwright-shop.5.gz",
        "share/man/man7/blankwright-entries.7.gz", "share/doc/blankwright/manual.html",
        "share/doc/blankwright/copyright", "share/doc/blankwright/changelog.gz",
        "share/bash-completion/completions/blankwright", "share/zsh/site-functions/_blankwright"}) {
    CAPTURE(file);
    CHECK(std::filesystem::exists(folder / file));
  }
  CHECK(run_tool(shell_quoted(folder / "bin/blankwright") + " --version").out == "Blankwright 0.2.0\n");
  const std::string licences = bytes_of(folder / "share/doc/blankwright/copyright");
  CHECK(licences.find("MIT License") != std::string::npos);
  CHECK(licences.find("SIL OPEN FONT LICENSE") != std::string::npos);
}
