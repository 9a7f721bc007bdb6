#include "diagnose/saying.h"

#include <fmt/args.h>
#include <fmt/format.h>

#include <utility>
#include <variant>

#include "measure/instant.h"
#include "measure/money.h"
#include "measure/printed.h"

namespace blankwright {
struct Argument::Value {
  struct ZonedMoment {
    Zone zone;
    Instant at;
  };
  std::variant<std::string, Keyword, long long, Number, Printed, Money, Date, ZonedMoment, Saying, List> is;

  struct InWords {
    const Wording& in;
    std::string operator()(const std::string& words) const { return words; }
    std::string operator()(Keyword key) const { return std::string{key.word}; }
    std::string operator()(long long count) const { return std::to_string(count); }
    std::string operator()(const Number& number) const { return text(number, in.spelling); }
    std::string operator()(const Printed& quantity) const { return text(quantity, in.spelling); }
    std::string operator()(const Money& money) const { return text(money); }
    std::string operator()(Date date) const { return text(date); }
    std::string operator()(const ZonedMoment& moment) const { return in.moment(moment.zone, moment.at); }
    std::string operator()(const Saying& phrase) const { return text(phrase, in); }
    std::string operator()(const List& list) const {
      std::string so_far;
      for (const Saying& one : list.all) {
        so_far = &one == &list.all.front() ? text(one, in)
                                           : fmt::format(fmt::runtime(in.words(list.between)), so_far, text(one, in));
      }
      return so_far;
    }
  };
};

Argument::Argument(const std::string& users_words) : value_{new Value{users_words}} {}
Argument::Argument(std::string_view users_words) : value_{new Value{std::string{users_words}}} {}
Argument::Argument(Keyword key) : value_{new Value{key}} {}
Argument::Argument(long long count) : value_{new Value{count}} {}
Argument::Argument(Number number) : value_{new Value{std::move(number)}} {}
Argument::Argument(Printed quantity) : value_{new Value{std::move(quantity)}} {}
Argument::Argument(const Money& money) : value_{new Value{money}} {}
Argument::Argument(Date date) : value_{new Value{date}} {}
Argument::Argument(Moment moment) : value_{new Value{Value::ZonedMoment{moment.zone, moment.at}}} {}
Argument::Argument(Saying phrase) : value_{new Value{std::move(phrase)}} {}
Argument::Argument(List list) : value_{new Value{std::move(list)}} {}

Saying listed(std::vector<Saying> all, Sentence<2> between) {
  return {{"listed", "{}"}, {List{std::move(all), between}}};
}

Saying listed(const std::vector<std::string>& all, Sentence<1> each, Sentence<2> between) {
  std::vector<Saying> sayings;
  for (const std::string& one : all) sayings.push_back(say(each, one));
  return listed(std::move(sayings), between);
}

const Wording& english_wording() {
  static const Wording english{english_spelling(), &SentenceRow::words, clock_text};
  return english;
}

std::string text(const Argument& argument, const Wording& in) {
  return std::visit(Argument::Value::InWords{in}, argument.value_->is);
}

std::string text(const Saying& saying, const Wording& in) {
  fmt::dynamic_format_arg_store<fmt::format_context> words;
  for (const Argument& argument : saying.with) words.push_back(text(argument, in));
  return fmt::vformat(in.words(saying.sentence), words);
}

}  // namespace blankwright
