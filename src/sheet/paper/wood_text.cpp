#include "sheet/paper/wood_text.h"

namespace blankwright {
namespace {

Word condition_word(WoodCondition condition) {
  switch (condition) {
    case WoodCondition::sound:
      return Word::condition_sound;
    case WoodCondition::spalted:
      return Word::condition_spalted;
    case WoodCondition::punky:
      return Word::condition_punky;
    case WoodCondition::burl:
      return Word::condition_burl;
  }
  return Word::condition_sound;
}

}  // namespace

std::string wood_text(const Template& words, const std::string& species, WoodCondition condition) {
  return words.species.of(species, species) + ", " + words.words[condition_word(condition)];
}

std::string wood_text(const Dossier& d) {
  return wood_text(d.sheet_template, d.plan.species, d.order.wood.condition.value);
}

}  // namespace blankwright
