#include "plan/shop/event_names.h"

#include <fmt/format.h>

#include <iterator>
#include <set>
#include <tuple>
#include <utility>

namespace blankwright {
namespace {

/// In small letters, digits and dashes; bytes beyond ASCII by their hexadecimal digits.
std::string in_plain_letters(const std::string& name) {
  constexpr std::size_t longest = 80;
  std::string out;
  for (const char c : name) {
    if (out.size() >= longest) break;
    if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) {
      out += c;
    } else if (c >= 'A' && c <= 'Z') {
      out += static_cast<char>(c - 'A' + 'a');
    } else if (static_cast<unsigned char>(c) >= 0x80) {
      out += fmt::format("{:02x}", static_cast<unsigned char>(c));
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  while (out.ends_with('-')) out.pop_back();
  return out;
}

/// What tells an event from the others of its run.
char letter_of(TaskKind kind) {
  switch (kind) {
    case TaskKind::work:
      return 'w';
    case TaskKind::begins:
      return 'b';
    case TaskKind::ends:
      return 'e';
    case TaskKind::attended:
    case TaskKind::by_itself:
      return 'r';
  }
  return 'w';
}

/// What is done to which blanks.
std::string work_on(const Task& task, const BatchNames& batches) {
  const auto named = batches.real.find(task.batch);
  const std::string& blanks = named != batches.real.end() ? named->second
                              : task.bath                 ? batches.planned.at(*task.bath)
                              : task.lowest               ? task.lowest->shown()
                                                          : task.orders.front().id;
  return fmt::format("{}.{}", blanks, in_plain_letters(task.operation));
}

using Run = std::tuple<Instant, std::size_t, std::string>;
Run run_of(const Task& task) { return {task.run_from, task.number, task.resource}; }

}  // namespace

std::string home_of_events(const std::string& shop, bool draft) {
  return (draft ? "draft." : "") + in_plain_letters(shop);
}

std::vector<std::string> event_names(std::span<const Task> tasks, const BatchNames& batches,
                                     const std::string& home) {
  std::map<std::string, std::set<Run>> runs;
  std::vector<std::string> works;
  for (const Task& task : tasks) runs[works.emplace_back(work_on(task, batches))].insert(run_of(task));
  std::vector<std::string> names;
  std::set<std::string> taken;
  for (std::size_t i = 0; i < tasks.size(); ++i) {
    const std::set<Run>& same = runs.at(works.at(i));
    auto turn = std::distance(same.begin(), same.find(run_of(tasks[i]))) + 1;
    const auto name = [&] {
      return fmt::format("{}.{}{}{}@{}", works.at(i), turn, letter_of(tasks[i].kind), tasks[i].part + 1, home);
    };
    while (!taken.insert(name()).second) ++turn;  // two runs at once, of something that takes no hand
    names.push_back(name());
  }
  return names;
}

std::string due_event_name(const std::string& order, const std::string& home) {
  return fmt::format("{}.due@{}", order, home);
}

}  // namespace blankwright
