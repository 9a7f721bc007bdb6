#include <algorithm>

#include "life.h"

namespace simulated {

/// A HOLD on a good blank has to be answered in at most two steps. First people look what was not entered of the
/// blank, its bath and its load, or misread; then they do again what the verdict rests on. Before the bath that is
/// drying, which bathe() does, but where the scale is to tell how much water it took up. `shown`: what was read shows
/// that it is good; otherwise the HOLD is true of that.
Said Life::obeyed(Step step, const Blank& blank, bool shown) {
  constexpr int most_steps = 2;
  const int before = steps_to_free_[{step, blank.id}];
  std::vector<std::string> about = witnesses_of(blank);
  about.insert(about.end(), {blank.id, "bath " + blank.bath_name, "load " + blank.load_name});
  desk_.look_again(now_, about);
  int steps = before + 1;
  Said now_said = said(desk_.ask(now_, blank.id));
  const bool can_be_answered = step != Step::bath || asks_to_weigh_what_lay(desk_.heard(blank.id));
  if (now_said == Said::held && can_be_answered) {
    ++steps;
    do_again(step, blank);
    now_said = said(desk_.ask(now_, blank.id));
  }
  steps_to_free_[{step, blank.id}] = steps;
  if (now_said != Said::held) {
    judge_.count("good ones freed in step " + std::to_string(steps));
  } else if (shown && steps >= most_steps && (step != Step::bath || before > 0) && !is_alone_in_load(blank)) {
    std::string words;
    for (const std::string& line : desk_.heard(blank.id)) words += (words.empty() ? "" : " | ") + line;
    add_wrong("not freed", blank.id, name_of(step) + ", good and held after two steps: " + words);
  }
  return now_said;
}

/// Then nothing but itself can show that it is cured: blanks of one order are of one size.
bool Life::is_alone_in_load(const Blank& blank) const {
  return std::ranges::none_of(blanks_, [&](const Blank& one) {
    return one.load_name == blank.load_name && one.order == blank.order && !one.out && !one.sent &&
           one.id != blank.id;
  });
}

/// The blank that the verdict on the cure asks to have cut open; where that is the one that is judged, another one of
/// its order.
Blank* Life::named_to_cut(const Blank& blank, const std::vector<std::string>& lines) {
  const auto is_named = [&](const Blank& one) {
    return std::ranges::any_of(
        lines, [&](const std::string& line) { return line.find("cut " + one.id + " open") != std::string::npos; });
  };
  const auto is_there = [](const Blank& one) { return !one.out && !one.sent; };
  const auto named = std::ranges::find_if(blanks_, [&](const Blank& one) { return is_there(one) && is_named(one); });
  if (named == blanks_.end()) return nullptr;
  if (named->id != blank.id) return &*named;
  const auto other = std::ranges::find_if(blanks_, [&](const Blank& one) {
    return is_there(one) && one.id != blank.id && one.load_name == blank.load_name && one.order == blank.order;
  });
  return other == blanks_.end() ? nullptr : &*other;
}

/// Weighed again, or the rod measured again; where the cure is open, the blank of that load that is named is cut.
void Life::do_again(Step step, const Blank& blank) {
  work(1);
  let_slip(false);  // who answers a HOLD enters what he did, and looks at it
  if (Blank* named = named_to_cut(blank, desk_.heard(blank.id)); named != nullptr) {
    cut_open(*named);
  } else if (step == Step::bath || step == Step::oven || step == Step::sending) {
    note("weighed", blank, {{"mass", read_mass(blank)}});
  } else {
    const std::string kind = step == Step::gluing ? "bored" : "stud-measured";
    const Entry* before = desk_.last(blank.id, kind);
    desk_.note({kind, blank.id, now_, rod_on(blank), before == nullptr ? 0 : before->number, "", {}, 0});
  }
  hand_in();
  let_slip(true);
}

}  // namespace simulated
