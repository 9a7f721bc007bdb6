#pragma once

#include <map>
#include <string>
#include <vector>

#include "desk.h"
#include "moment.h"

namespace simulated {

/// What cannot be undone once it is done.
enum class Step { bath, oven, unloading, gluing, turning, sending };
/// By its truth, beyond the limit by more than the errors' sum on either side; or between.
enum class Truth { good, grey, bad };
/// What the program said before the step: go on; something is missing yet; HOLD.
enum class Said { released, asked, held };

/// The strongest of the lines that were heard.
Said said(const std::vector<std::string>& lines);

/// Is nothing said of what the step asks for: the resin before the oven, the cure in it, the axis at the stud? Then
/// nobody has released the blank: what was entered does not have it there yet.
bool is_silent_on(Step step, const std::vector<std::string>& lines);

/// Does HOLD stand in them, of what may not go on or of what went on all the same?
bool says_hold(const std::vector<std::string>& lines);

/// Is a weighing to tell how much water a dry blank has taken up since?
bool asks_to_weigh_what_lay(const std::vector<std::string>& lines);

/// Did it say that something went on against a gate?
bool told_against(const std::vector<std::string>& lines);

struct Case {
  Step step = Step::bath;
  Truth truth = Truth::good;
  Said said = Said::released;
  Evidence evidence = Evidence::right;
  bool shown = true;  ///< what was read shows the truth
  std::string blank;
  std::string what_is_true;  ///< "moisture 3.1 %, at most 2 %"
  std::string what_was_said;
  Moment at;
};

/// Something that is wrong with a verdict, a sheet or the register, and how to see it again.
struct Wrong {
  std::string kind;   ///< "bad released", "good held", "true entry refused", "sheet", "lost"
  std::string about;  ///< blank or order
  std::string what;
  std::vector<std::string> replay;
};

/// Counts verdicts and remembers those that are wrong.
class Judge {
 public:
  /// True where the verdict is wrong.
  bool hear(const Case& seen);
  void note_wrong(Wrong wrong) { wrong_.push_back(std::move(wrong)); }
  void provoked(int answer) { ++provoked_[answer]; }
  void count(const std::string& kind, int times = 1) { counts_[kind] += times; }

  const std::map<std::string, int>& counts() const { return counts_; }
  const std::map<int, int>& provoked() const { return provoked_; }
  std::vector<Wrong>& wrong() { return wrong_; }
  const std::vector<Wrong>& wrong() const { return wrong_; }

 private:
  std::map<std::string, int> counts_;
  std::map<int, int> provoked_;  ///< by the number of the unsafe answer
  std::vector<Wrong> wrong_;
};

std::string name_of(Step step);

}  // namespace simulated
