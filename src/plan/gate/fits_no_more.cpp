#include "plan/gate/fits_no_more.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "diagnose/problem.h"

namespace blankwright {
namespace {

constexpr std::size_t most_named = 8;

std::string does(std::size_t count) { return count == 1 ? "one does" : fmt::format("{} do", count); }

/// Each with what stands against it and the first order that it could become, as far as they find room.
std::string named(const std::vector<const FitsNoMore*>& blanks, const std::string& order, const Ways& ways) {
  std::vector<std::string> all;
  for (const FitsNoMore* one : blanks) {
    if (all.size() == most_named) {
      all.push_back(fmt::format("and {} more", blanks.size() - most_named));
      break;
    }
    if (!one->against) {
      all.push_back(one->blank.id->shown());
      continue;
    }
    auto others = ways(one->blank);
    std::erase_if(others, [&](const Way& way) { return way.order == order; });
    all.push_back(fmt::format("{} ({}{})", one->blank.id->shown(), in_words(*one->against),
                              others.empty() ? std::string{} : "; could become " + in_words(others.front())));
  }
  return fmt::format("{}", fmt::join(all, ", "));
}

}  // namespace

std::string in_words(const Way& way) { return way.order + ": " + way.words; }

bool has_to_fit(const BlankState& blank, const std::string& order) {
  return !blank.witness && !blank.is_over() && blank.stage < Stage::turned && blank.promised == order;
}

std::optional<Against> against_as_made(const BlankState& blank, const std::vector<Entry>& entries,
                                       const OpenOrder& now, const InForce& in_force) {
  const DoneFor own = in_force(blank.order, made_at(entries, blank));
  if (own.order == nullptr) return std::nullopt;
  BlankOffered offered{blank, *own.order, *own.plan};
  const MadeFor made = made_for(entries, blank);
  const auto done_for = [&](const std::optional<MadeFor::Step>& step, DoneFor& done) {
    if (!step || step->order == blank.order) return true;
    done = in_force(step->order, step->at);
    return done.order != nullptr;
  };
  const bool all_known = done_for(made.bathed, offered.bathed) && done_for(made.bored, offered.bored) &&
                         done_for(made.stud_set, offered.stud_set);
  if (!all_known) return std::nullopt;
  return against(offered, now);
}

void say_fit_no_more(std::span<const FitsNoMore> blanks, const Order& now, const Ways& ways, Diagnostics& out) {
  std::vector<const FitsNoMore*> own, promised, unknown;
  for (const FitsNoMore& one : blanks)
    (!one.against ? unknown : one.is_promised_in() ? promised : own).push_back(&one);
  const auto say = [&](const std::vector<const FitsNoMore*>& some, const std::string& what) -> Diagnostic* {
    if (some.empty()) return nullptr;
    return &out.warning(Problem::blanks_do_not_fit, now.id.at, what + ": " + named(some, now.id.value, ways));
  };
  if (auto* said =
          say(own, fmt::format("of the blanks that were begun {} not fit the order as it is now", does(own.size()))))
    said->hint("promise each to another order, or scrap it; others are started in their place by --replace");
  if (auto* said = say(promised, fmt::format("of the blanks promised to the order {} not fit it and {} not counted",
                                             does(promised.size()), promised.size() == 1 ? "is" : "are")))
    said->hint("promise each to another order, or scrap it");
  if (auto* said = say(unknown,
                       "whether they fit is not known, since what was printed when they were begun cannot be "
                       "planned any more"))
    said->hint("hold them against the turner's sheet");
}

void say_not_needed(const Record& record, const Order& order, int needed_pieces, Diagnostics& out) {
  std::vector<std::string> unbegun;
  const std::size_t pieces = record.issued_to_order.size() - static_cast<std::size_t>(record.witnesses);
  for (std::size_t n = 0; n < pieces; ++n) {
    const BlankId& id = record.issued_to_order.at(n);
    const auto is_it = [&](const BlankState& blank) { return blank.id == id; };
    if (std::ranges::none_of(record.blanks, is_it)) unbegun.push_back(id.shown());
  }
  const std::size_t needed = static_cast<std::size_t>(std::max(needed_pieces, 0));
  const std::size_t spare = pieces > needed ? std::min(pieces - needed, unbegun.size()) : 0;
  if (spare == 0) return;
  unbegun.erase(unbegun.begin(), unbegun.end() - static_cast<std::ptrdiff_t>(spare));
  out.note(Problem::ids_not_needed, order.quantity.at,
           fmt::format("{} of the order's IDs {} never sawn and {} not needed", spare, spare == 1 ? "was" : "were",
                       spare == 1 ? "is" : "are"))
      .hint(fmt::format("blankwright enter withdrawn {}", fmt::join(unbegun, " ")));
}

}  // namespace blankwright
