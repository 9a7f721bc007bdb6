#include "plan/gate/fits_no_more.h"

#include <algorithm>

#include "diagnose/problem.h"
#include "diagnose/says_shop.h"

namespace blankwright {
namespace {

constexpr std::size_t most_named = 8;

/// Each with what stands against it and the first order that it could become, as far as they find room.
Saying named(const std::vector<const FitsNoMore*>& blanks, const std::string& order, const Ways& ways) {
  std::vector<Saying> all;
  for (const FitsNoMore* one : blanks) {
    if (all.size() == most_named) {
      all.push_back(say(says::and_more, blanks.size() - most_named));
      break;
    }
    const BlankId& id = *one->blank.id;
    if (!one->against) {
      all.push_back(say(says::as_it_is, id));
      continue;
    }
    auto others = ways(one->blank);
    std::erase_if(others, [&](const Way& way) { return way.order == order; });
    const std::string_view why = in_words(*one->against);
    all.push_back(others.empty() ? say(says::blank_and_why, id, why)
                                 : say(says::blank_why_and_way, id, why, others.front().order, others.front().words));
  }
  return listed(all, says::one_and_next);
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
  const auto warn = [&](Saying what) -> Diagnostic& {
    return out.warning(Problem::blanks_do_not_fit, now.id.at, std::move(what));
  };
  const auto which = [&](const std::vector<const FitsNoMore*>& some) { return named(some, now.id.value, ways); };
  const auto count = [&](const std::vector<const FitsNoMore*>& some, Sentence<1> one, Sentence<2> several) {
    return some.size() == 1 ? say(one, which(some)) : say(several, some.size(), which(some));
  };
  if (!own.empty())
    warn(count(own, says::one_fits_no_more, says::several_fit_no_more)).hint(says::promise_scrap_or_replace);
  if (!promised.empty())
    warn(count(promised, says::one_promised_does_not_fit, says::several_promised_do_not_fit))
        .hint(says::promise_or_scrap);
  if (!unknown.empty()) warn(say(says::not_known_whether_they_fit, which(unknown))).hint(says::hold_against_sheet);
}

void say_not_needed(const Record& record, const Order& order, int needed_pieces, Diagnostics& out) {
  std::vector<Saying> unbegun;
  const std::size_t pieces = record.issued_to_order.size() - static_cast<std::size_t>(record.witnesses);
  for (std::size_t n = 0; n < pieces; ++n) {
    const BlankId& id = record.issued_to_order.at(n);
    const auto is_it = [&](const BlankState& blank) { return blank.id == id; };
    if (std::ranges::none_of(record.blanks, is_it)) unbegun.push_back(say(says::as_it_is, id));
  }
  const std::size_t needed = static_cast<std::size_t>(std::max(needed_pieces, 0));
  const std::size_t spare = pieces > needed ? std::min(pieces - needed, unbegun.size()) : 0;
  if (spare == 0) return;
  unbegun.erase(unbegun.begin(), unbegun.end() - static_cast<std::ptrdiff_t>(spare));
  out.note(Problem::ids_not_needed, order.quantity.at,
           spare == 1 ? says::one_id_not_needed : says::several_ids_not_needed, spare)
      .hint(says::withdraw, listed(unbegun, says::side_by_side));
}

}  // namespace blankwright
