#pragma once

#include <chrono>
#include <concepts>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/sentence.h"

// What a diagnostic says before it is words: a sentence of the catalogue with its arguments. text() alone makes words
// of it.

namespace blankwright {

struct Number;
struct Printed;
struct Money;
struct Spelling;
class Zone;
struct Saying;
struct List;
struct Wording;

/// A word of the files' format: a key, a value that may stand there, a flag. It is the same in every language.
struct Keyword {
  std::string_view word;
};

/// A moment, as a zone's clock shows it.
struct Moment {
  const Zone& zone;
  std::chrono::sys_seconds at;
};

/// What stands in a sentence's place. No text of our own: that is a sentence, too.
class Argument {
 public:
  Argument(const std::string& users_words);  ///< as they stand in a file, or a name from a table
  Argument(std::string_view users_words);
  Argument(const char*) = delete;  // what would be written here is a sentence or a Keyword
  Argument(Keyword key);
  Argument(long long count);
  template <std::integral I>
  Argument(I count) : Argument{static_cast<long long>(count)} {}
  Argument(bool) = delete;
  Argument(Number number);
  Argument(Printed quantity);
  Argument(const Money& money);
  Argument(std::chrono::year_month_day date);
  Argument(Moment moment);
  Argument(Saying phrase);
  Argument(List list);
  /// An ID, as it is shown.
  template <class Id>
  requires requires(const Id& id) {
    { id.shown() } -> std::convertible_to<std::string>;
  }
  Argument(const Id& id) : Argument{std::string{id.shown()}} {}

  friend std::string text(const Argument& argument, const Wording& in);

 private:
  struct Value;
  std::shared_ptr<const Value> value_;
};

struct Saying {
  SentenceRow sentence{};
  std::vector<Argument> with{};
};

/// Several phrases, one joined to the next.
struct List {
  std::vector<Saying> all{};
  Sentence<2> between;
};

template <class... As>
Saying say(Sentence<sizeof...(As)> sentence, const As&... with) {
  return {sentence, {Argument(with)...}};
}

/// Several, each within `each`, one joined to the next by `between`.
Saying listed(std::vector<Saying> all, Sentence<2> between);
Saying listed(const std::vector<std::string>& all, Sentence<1> each, Sentence<2> between);

/// What sayings are put into words by.
struct Wording {
  const Spelling& spelling;
  std::function<std::string_view(const SentenceRow&)> words;
  std::function<std::string(const Zone&, std::chrono::sys_seconds)> moment;
};
const Wording& english_wording();

std::string text(const Argument& argument, const Wording& in = english_wording());
std::string text(const Saying& saying, const Wording& in = english_wording());

}  // namespace blankwright
