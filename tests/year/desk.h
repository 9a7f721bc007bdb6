#pragma once

#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "chance.h"
#include "moment.h"
#include "program.h"

namespace simulated {

/// One line that somebody wants to enter.
struct Entry {
  std::string kind;
  std::string blank;  ///< empty where a bath or a load is meant
  Moment at;
  std::vector<std::pair<std::string, std::string>> says;
  long replaces = 0;
  std::string override_why;

  Moment entered;
  long number = 0;       ///< that the register gave it
  std::size_t slip = 0;  ///< which flaw it carries, counted from 1; 0: none
  /// The blank, else "bath K1" or "load C1".
  std::string subject() const;
  std::string value(const std::string& field) const;
};

/// What stands between the register and the truth of one subject.
struct Flaw {
  std::string subject, kind;
  bool wrong = false;  ///< otherwise it is missing
  bool open = true;
  bool will_be_mended = true;
  Entry right;
  long number = 0;    ///< of the wrong entry
  bool late = false;  ///< entered in the end, but not in time
};

enum class Evidence { right, missing, wrong };

/// The people who enter what they did, with their slips, and what they hear from the program. All they know they have
/// from there.
class Desk {
 public:
  Desk(Program& program, Chance chance) : program_{program}, chance_{chance} {}

  /// Slips are made from here on, or not: what a provoked error is about has to be seen clearly.
  void let_slip(bool may) { may_slip_ = may; }

  void note(Entry entry);
  /// Enters what was noted, all rows of a table or none, now and then at the bench, and listens.
  void hand_in(Moment now);
  /// Next morning: what was noted is handed in, late entries and most of the slips are put right.
  void put_right(Moment now);
  /// What is wrong with these is looked for and put right, also what nobody would have seen by himself.
  void look_again(Moment now, const std::vector<std::string>& subjects);

  /// Did it hear of it in this minute?
  bool has_just_heard(const std::string& subject, Moment now) const {
    const auto at = heard_at_.find(subject);
    return at != heard_at_.end() && at->second == now;
  }
  /// Was anything entered since it heard of it?
  bool has_entered_since(const std::string& subject) const {
    const auto at = heard_at_.find(subject);
    return at == heard_at_.end() || at->second < last_entered_;
  }
  /// What was said last about a blank, "bath K1" or "load C1".
  const std::vector<std::string>& heard(const std::string& subject) { return heard_[subject]; }
  /// Asks the program how a blank stands now.
  const std::vector<std::string>& ask(Moment now, const std::string& blank);

  /// What was entered late counts as missing: it was not there when it was needed.
  Evidence evidence(const std::vector<std::string>& subjects, const std::vector<std::string>& kinds) const;
  bool missing_for_good(const std::string& subject) const;
  /// The last one of a kind that holds, by its time.
  const Entry* last(const std::string& blank, const std::string& kind) const;
  const std::vector<Entry>& taken() const { return taken_; }
  const std::vector<Entry>& refused() const { return refused_; }  ///< though true, and nothing else was wrong
  const std::vector<std::string>& refusals() const { return refusals_; }
  int slips() const { return slips_; }
  int scanned() const { return scanned_; }
  int checks_of_true_entries() const { return false_checks_; }

 private:
  bool slip(Entry& entry);
  void mend(Flaw& flaw, Moment now);
  bool can_be_scanned(const std::vector<Entry>& entries) const;
  void scan(std::vector<Entry>& entries);
  void number(std::vector<Entry> entries);
  void remember(const Entry& entry);
  void count_check(const std::string& subject, const std::string& said);
  Answer enter(std::vector<Entry>& entries, Moment now);
  void listen(const std::vector<Entry>& entries, const Answer& answer);
  bool enter_late(const Flaw& flaw, const Entry& entry, Moment now);
  void enter_row_by_row(std::vector<Entry>& entries, Moment now);
  void add_pending(std::vector<Entry>& entries, const std::string& refusal);
  void restore(std::vector<Entry>& entries);

  Program& program_;
  Chance chance_;
  bool may_slip_ = true;
  std::vector<Entry> noted_;
  std::vector<Flaw> flaws_;
  std::vector<Entry> taken_, refused_;
  std::set<long> replaced_;  ///< numbers that do not hold any more
  std::vector<std::string> refusals_;
  std::map<std::string, std::vector<std::string>> heard_;
  std::map<std::string, Moment> heard_at_;
  Moment last_entered_;
  int slips_ = 0, false_checks_ = 0, tables_ = 0, scanned_ = 0;
};

}  // namespace simulated
