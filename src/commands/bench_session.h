#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "commands/gates.h"
#include "read/entry_text.h"
#include "register/register.h"
#include "write/files.h"

namespace blankwright {

/// Entries said line by line, by a scanner that types or by a person: first what is done (an action code or its
/// name), then what it needs to know once (which bath, which verdict), then blanks, and after each the figures that
/// belong to it. What is said stays said for all blanks that follow. Each line is answered in one line; one that was
/// not taken begins with NO and rings the bell. Nothing is guessed, and nothing half said is entered.
class BenchSession {
 public:
  /// All outlive the session.
  BenchSession(Register& known, const Shop& shop, const Clock& clock);

  /// The answer to a line, without a line end. Throws WorldError where the register cannot be written.
  std::string answer(std::string_view line);
  bool ended() const { return ended_; }

  /// What can be said, for `help`.
  static std::string help();

 private:
  std::string refuse(std::string_view why) const;
  std::optional<std::string> told(const std::string& word, const std::string& rest);
  std::string begin(const KindFacts& kind);
  std::string take_value(std::string_view typed);
  std::string take_blank(std::string_view typed);
  std::string take_back();
  std::string set_tare(const std::string& typed);
  std::string set_unit(const std::string& typed);
  std::string override_last(const std::string& reason);
  /// What comes next, as a question; or the entry is complete and is added.
  std::string go_on();
  std::string add();
  std::string add(Entry entry);
  std::string question() const;
  /// The field that is to be said next: one that stays for all blanks, or one of this blank.
  const FieldFacts* due() const;
  bool has(Field field) const;
  std::string_view unit_for(Kind kind) const;

  Register& known_;
  const Shop& shop_;
  const Clock& clock_;
  Gates gates_;
  std::string person_, mass_unit_, length_unit_;
  std::optional<double> tare_;  ///< kg, of the tag that stays on while blanks are weighed
  const KindFacts* kind_ = nullptr;
  std::vector<std::pair<Field, FieldValue>> once_;  ///< said for all blanks that follow
  std::optional<BlankId> blank_;
  std::vector<std::pair<Field, FieldValue>> figures_;  ///< said of this blank
  std::optional<Entry> refused_;                       ///< the last one, for `override`
  std::vector<EntryNumber> added_;                     ///< in this session, for `undo`
  bool ended_ = false;
};

}  // namespace blankwright
