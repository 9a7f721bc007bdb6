#include "judge.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace simulated {
namespace {

/// How the program says that it cannot judge yet.
constexpr std::array<std::string_view, 14> asking = {"nothing tells how full",
                                                     "not weighed",
                                                     "weigh it",
                                                     "may come out from",
                                                     "sets until",
                                                     "was cut open yet",
                                                     "enter the true",
                                                     "not known",
                                                     "read its air",
                                                     "not measured",
                                                     "nobody entered",
                                                     "measure its core",
                                                     "let it cool sealed until",
                                                     "warms later"};

}  // namespace

Said said(const std::vector<std::string>& lines) {
  Said out = Said::released;
  for (const std::string& line : lines) {
    if (line.find("went on against") != std::string::npos) continue;  // told of what is done; its gate has a line too
    if (line.find("HOLD") != std::string::npos) return Said::held;
    if (std::ranges::any_of(asking, [&](std::string_view words) { return line.find(words) != std::string::npos; }))
      out = Said::asked;
  }
  return out;
}

bool says_hold(const std::vector<std::string>& lines) {
  return std::ranges::any_of(lines, [](const std::string& line) { return line.find("HOLD") != std::string::npos; });
}

bool asks_to_weigh_what_lay(const std::vector<std::string>& lines) {
  return std::ranges::any_of(
      lines, [](const std::string& line) { return line.find("may have taken up") != std::string::npos; });
}

bool told_against(const std::vector<std::string>& lines) {
  return std::ranges::any_of(lines, [](const std::string& line) {
    return line.find("HOLD") != std::string::npos || line.find("against") != std::string::npos;
  });
}

bool is_silent_on(Step step, const std::vector<std::string>& lines) {
  const auto says = [&](std::string_view words) {
    return std::ranges::any_of(lines, [&](const std::string& line) { return line.find(words) != std::string::npos; });
  };
  switch (step) {
    case Step::oven:
      return !says("its pores are");
    case Step::unloading:
      return !says("cured");
    case Step::gluing:
    case Step::turning:
      return !says(" of wood");
    case Step::bath:
    case Step::sending:
      return false;
  }
  return false;
}

std::string name_of(Step step) {
  switch (step) {
    case Step::bath:
      return "into the bath";
    case Step::oven:
      return "into the oven";
    case Step::unloading:
      return "out of the oven";
    case Step::gluing:
      return "gluing";
    case Step::turning:
      return "turning";
    case Step::sending:
      return "sending";
  }
  return {};
}

bool Judge::hear(const Case& seen) {
  std::string kind;
  bool wrong = false;
  if (seen.truth == Truth::grey) {
    kind = "grey";
  } else if (seen.truth == Truth::bad) {
    if (seen.said == Said::held)
      kind = "bad, held";
    else if (seen.said == Said::asked)
      kind = "bad, asked about";
    else if (seen.evidence == Evidence::wrong)
      kind = "bad, misled by a wrong entry";
    else
      kind = "bad released";
    wrong = kind == "bad released";
  } else {
    if (seen.said == Said::released)
      kind = "good, released";
    else if (seen.said == Said::asked)
      kind = "good, asked about";
    else if (seen.evidence != Evidence::right || !seen.shown)
      kind = "good, held by its entries";
    else
      kind = "good held";
    wrong = kind == "good held";
  }
  count(name_of(seen.step) + ": " + kind);
  count("all: " + kind);
  if (wrong)
    wrong_.push_back({kind,
                      seen.blank,
                      fmt::format("{} at {}: true is {}; said was: {}", name_of(seen.step), text(seen.at),
                                  seen.what_is_true, seen.what_was_said.empty() ? "nothing" : seen.what_was_said),
                      {}});
  return wrong;
}

}  // namespace simulated
