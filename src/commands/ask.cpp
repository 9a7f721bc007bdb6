#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <ostream>

#include "commands/ask_parts.h"
#include "commands/commands.h"

namespace blankwright {
namespace {

struct Question {
  std::string_view what, name;
  Answered (*answer)(Asked&, std::string&);
};

constexpr std::array all_questions{
    Question{"blank", "a blank's ID", about_blank},
    Question{"order", "an order's id", about_order},
    Question{"page", "the code of a page", about_page},
    Question{"bath", "a bath's name", about_bath},
    Question{"load", "a load's name", about_load},
    Question{"board", "a board's name", about_board},
    Question{"resin", "a lot's name", about_resin},
    Question{"daybook", "", about_daybook},
    Question{"stock", "", about_stock},
    Question{"under-way", "", about_under_way},
    Question{"yield", "", about_yield},
    Question{"uptake", "", about_uptake},
    Question{"axis", "", about_axis},
};

}  // namespace

std::vector<std::pair<std::string, std::string>> questions() {
  std::vector<std::pair<std::string, std::string>> out;
  for (const Question& question : all_questions) out.emplace_back(question.what, question.name);
  return out;
}

Exit ask(const AskFlags& flags, Surroundings& around) {
  const auto* const question = std::ranges::find(all_questions, std::string_view{flags.what}, &Question::what);
  if (question == all_questions.end()) {
    around.errors << fmt::format(
        "blankwright: ask cannot tell about \"{}\"; `blankwright ask --help` names what it can\n", flags.what);
    return Exit::command_line;
  }
  if (question->name.empty() != flags.name.empty()) {
    around.errors << (flags.name.empty()
                          ? fmt::format("blankwright: ask {} needs {}\n", question->what, question->name)
                          : fmt::format("blankwright: ask {} is about the whole shop and needs no name\n",
                                        question->what));
    return Exit::command_line;
  }
  if (!flags.at.empty() && question->answer != about_daybook) {
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
    return question->answer(asked, wrong);
  }();
  if (!answer) {
    around.errors << fmt::format("blankwright: {}\n", wrong);
    return Exit::mistakes;
  }
  around.out << (flags.as == "json"  ? answer_as_json(*answer)
                 : flags.as == "csv" ? answer_as_csv(*answer)
                                     : answer_as_text(*answer));
  return Exit::done;
}

}  // namespace blankwright
