#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ostream>

#include "commands/ask_parts.h"
#include "commands/commands.h"
#include "read/document.h"
#include "read/order.h"

namespace blankwright {
namespace {

struct Answering {
  Question question;
  Answered (*answer)(Asked&, std::string&);
};

constexpr std::array all_questions{
    Answering{{"blank", "ID", "whose it is, where it stands, what is next, its history"}, about_blank},
    Answering{{"order", "ID", "its blanks, and how many are at which stage"}, about_order},
    Answering{{"page", "CODE", "which printed pages of that issue are still right"}, about_page},
    Answering{{"bath", "NAME", "what went into it, its vacuum and soak"}, about_bath},
    Answering{{"load", "NAME", "what an oven load held, its temperatures"}, about_load},
    Answering{{"board", "NAME", "the blanks sawn from it"}, about_board},
    Answering{{"resin", "NAME", "what was opened, activated and poured of a lot"}, about_resin},
    Answering{{"daybook", "", "what was entered on a day, with the numbers for --replaces"}, about_daybook},
    Answering{{"stock", "", "good blanks that their orders do not need"}, about_stock},
    Answering{{"material", "", "resin, activator, wood and studs that open orders still need, and what is there"},
              about_material},
    Answering{{"under-way", "", "all blanks in the shop"}, about_under_way},
    Answering{{"yield", "", "how many came out good, and why others did not"}, about_yield},
    Answering{{"uptake", "", "how much resin wood took up, by species"}, about_uptake},
    Answering{{"axis", "", "how true bores and studs were"}, about_axis},
};

}  // namespace

std::vector<Question> questions() {
  std::vector<Question> out;
  for (const Answering& one : all_questions) out.push_back(one.question);
  return out;
}

Exit ask(const AskFlags& flags, Surroundings& around) {
  const auto* const found = std::ranges::find(all_questions, std::string_view{flags.what},
                                              [](const Answering& one) { return one.question.what; });
  if (found == all_questions.end()) {
    around.errors << fmt::format(
        "blankwright: ask cannot tell about \"{}\"; `blankwright ask --help` names what it can\n", flags.what);
    return Exit::command_line;
  }
  const Question& question = found->question;
  if (question.name.empty() != flags.name.empty()) {
    around.errors << (flags.name.empty()
                          ? fmt::format("blankwright: ask {0} needs more: ask {0} {1}\n", question.what,
                                        question.name)
                          : fmt::format("blankwright: ask {} is about the whole shop and needs no name\n",
                                        question.what));
    return Exit::command_line;
  }
  if (question.what == "order" && flags.name.ends_with(".toml")) {
    const auto id = order_id_in(std::make_shared<const SourceText>(
        SourceText{flags.name, around.disk.read(flags.name, largest_file).value_or(std::string{})}));
    around.errors << fmt::format("blankwright: an order is asked about by its id{}\n",
                                 id ? fmt::format(": ask order {}", *id) : "");
    return Exit::command_line;
  }
  if (!flags.at.empty() && found->answer != about_daybook) {
    around.errors << "blankwright: --at is for `ask daybook`: the day of which it tells\n";
    return Exit::command_line;
  }
  auto at = at_register(flags.shop, around, OpenTo::read);
  if (!at) return Exit::mistakes;
  const auto day = moment_asked(flags.at, at->zone(), NamedFrom::Days::back, around);
  if (!day) return Exit::command_line;
  Asked asked{*at, flags.name, Instant{std::chrono::seconds{around.clock.now_unix()}}, *day, around};
  std::string wrong;
  const auto answer = [&] {
    const auto one_moment = at->known.as_it_stands();
    return found->answer(asked, wrong);
  }();
  if (!answer) {
    around.errors << fmt::format("blankwright: {}\n", wrong);
    return Exit::mistakes;
  }
  around.out << answer_as(flags.as, *answer);
  return Exit::done;
}

}  // namespace blankwright
