#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "commands/gates.h"
#include "commands/page_check.h"
#include "commands/surroundings.h"
#include "read/entry_text.h"
#include "register/register.h"

namespace blankwright {

/// What a line is answered with.
struct BenchAnswer {
  std::string words;
  bool rings = false;  ///< it has to be heard

  static BenchAnswer ok(std::string_view what);
  static BenchAnswer no(std::string_view why);
};

/// Entries said line by line, by a scanner that types or by a person: first what is done (an action code or its
/// name), then what it needs to know once (which bath, which verdict), then blanks, and after each the figures that
/// belong to it. What is said stays said for all blanks that follow. Each line is answered in one line. One that was
/// not taken, and one that was taken although something stands against it, begins with NO and rings the bell. Nothing
/// is guessed, nothing half said is entered, and a blank that waits for a figure is forgotten with the first NO.
class BenchSession {
 public:
  /// All outlive the session. `around`: for the pages of before, which are laid out again.
  BenchSession(Register& known, const Shop& shop, const Surroundings& around);

  /// The answer to a line, without a line end. Throws WorldError where the register cannot be written; where that is
  /// a ConnectionLost, lost() answers, and the next line is taken as any other.
  BenchAnswer answer(std::string_view line);
  /// The answer to a line at which the register's server was not there; `why` says so.
  BenchAnswer lost(std::string_view why);
  /// What is told where lines end without `end`: what was half said, and `rest`, what came without a line end, which
  /// may have lost its own. Nothing of it is entered. None where there is nothing of the kind.
  std::optional<BenchAnswer> broken_off(std::string_view rest);
  /// The answer to a line that is longer than any that can be said.
  BenchAnswer too_long();
  bool ended() const { return ended_; }
  /// What is entered from now on is judged by plans that are made anew.
  void forget_plans() { gates_.forget_plans(); }

  /// What can be said, for `help`.
  static std::string help();

 private:
  BenchAnswer answer_to(std::string_view line);
  /// What became of what was sent when the connection broke, once that can be asked; empty where nothing was.
  std::string settled();
  std::string in_short(const Entry& entry) const;
  /// Is this what was entered although its line was answered with NO? Then it is not entered twice.
  bool is_there_already(const Entry& entry);
  /// Sends an entry; while there is no answer it is kept.
  tl::expected<std::vector<Entry>, std::vector<Rejected>> send(const Entry& entry, Instant now);
  // Answers to lines; none where a line is something else.
  std::optional<BenchAnswer> told(const std::string& word, const std::string& rest);
  std::optional<BenchAnswer> next_blank(std::string_view typed);
  BenchAnswer take_back();
  BenchAnswer set_tare(const std::string& typed);
  BenchAnswer set_unit(const std::string& typed);
  BenchAnswer set_person(const std::string& typed);
  BenchAnswer override_last(const std::string& reason);
  BenchAnswer end();
  BenchAnswer check_page(const PageCode& code);
  /// NO, why, and what becomes of what was half said.
  BenchAnswer refuse(std::string why);
  /// OK, and what is still asked for.
  BenchAnswer done(std::string what) const;

  /// The kind that a line begins with; null where it goes on with what is asked for.
  const KindFacts* begun_by(std::string_view word) const;
  // Each takes what a line goes on with and leaves in `left` what follows it; or says in words why it cannot.
  std::optional<std::string> take(std::string_view& left);
  std::optional<std::string> take_blank(std::string_view& left);
  bool take_in_blank(std::string_view& left);
  std::optional<std::string> take_text(const FieldFacts& field, std::string_view& left);
  std::optional<std::string> take_figure(const FieldFacts& field, std::string_view& left);
  std::optional<FieldFacts> further_figure() const;
  void say(const FieldFacts& field, FieldValue value);

  BenchAnswer add();
  BenchAnswer add(Entry entry);
  /// A length behind the sizes that were entered last, which stand without one: they are entered again with it.
  std::optional<BenchAnswer> add_length(std::string_view typed);
  /// How an entry that was added stands: OK, or NO where it went in against a gate or a gate says HOLD after it. Also
  /// what it began.
  BenchAnswer stands(const Entry& entry, const std::vector<std::string>& begun, Instant now);

  std::string question() const;
  std::string about() const;
  /// What would be lost now, by its name; empty where nothing is asked for.
  std::string half_said() const;
  /// The field that is to be said next: one that stays for all blanks, or one of this blank.
  std::optional<FieldFacts> due() const;
  bool is_complete() const;
  bool any_text_is_due() const;  ///< not the name of a thing, and none of some words
  bool has(Field field) const;
  std::string_view unit_for(const FieldFacts& field) const;

  Register& known_;
  const Shop& shop_;
  const Surroundings& around_;
  Gates gates_;
  std::string person_, mass_unit_, length_unit_;
  std::optional<double> tare_;  ///< kg, of the tag that stays on while blanks are weighed
  const KindFacts* kind_ = nullptr;
  std::vector<std::pair<Field, FieldValue>> once_;  ///< said for all blanks that follow
  std::optional<BlankId> blank_;
  std::vector<std::pair<Field, FieldValue>> figures_;  ///< said of this blank
  std::optional<Entry> refused_;                       ///< by the line before, for `override`
  std::vector<EntryNumber> added_;                     ///< in this session, for `undo`
  std::optional<Entry> sent_;                          ///< what was sent and not answered
  std::string untold_;                                 ///< what became of it
  std::optional<Entry> after_all_;                     ///< what was entered although its line was answered with NO
  std::optional<Entry> without_length_;                ///< sizes that were entered by the line before
  bool ended_ = false;
};

}  // namespace blankwright
