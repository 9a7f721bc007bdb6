#include "commands/since_print.h"

namespace blankwright {

std::vector<std::string> changed_texts(const LastPrint& print, const ReadRun& read, std::size_t job) {
  const CompileInputs now = inputs_of(read, job);
  std::vector<std::string> changed;
  if (now.job_text != print.job) changed.emplace_back("the job file");
  if (now.shop_text != print.shop) changed.emplace_back("the shop file");
  if (now.template_text != print.template_text) changed.emplace_back("the template");
  if (now.program_version != print.print.program_version) changed.emplace_back("the program");
  return changed;
}

bool OwnThings::are_of(const Entry& entry) const {
  return entry.text(Field::order) == order || (entry.blank && blanks.contains(*entry.blank)) ||
         baths.contains(entry.text(Field::bath)) || loads.contains(entry.text(Field::load)) ||
         boards.contains(entry.text(Field::board));
}

OwnThings own_things(Register& known, const std::string& order, const Order* job) {
  OwnThings own{order, {}, {}, {}, {}};
  const auto add = [](std::set<std::string>& to, const std::string& name) {
    if (!name.empty()) to.insert(name);
  };
  for (const auto& [blank, species, condition, dye] : known.blanks_of_order(order)) {
    own.blanks.insert(*blank.id);
    add(own.baths, blank.bath);
    add(own.loads, blank.load);
    add(own.loads, blank.drying);
    add(own.boards, blank.board);
  }
  if (job == nullptr) return own;
  for (const auto& board : job->wood.boards) own.boards.insert(board.name.value);
  return own;
}

}  // namespace blankwright
