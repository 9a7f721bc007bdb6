#include "plan/wood/start_count.h"

#include <algorithm>

#include "plan/figure/figure.h"
#include "plan/figure/working.h"
#include "plan/tables/statistics.h"

namespace blankwright {
namespace {

Traced<double> said_count(Term name, int n, TermSource origin) {
  return term(name, static_cast<double>(n), std::move(origin));
}

Traced<double> at_least_issued(const Traced<double>& pieces, int issued) {
  return pieces.value() >= issued ? pieces
                                  : larger(pieces, said_count(Term::issued, issued, TermFrom::from_register));
}

TermFrom whose(const YieldSeen& seen) {
  switch (seen.counted) {
    case YieldBy::shop:
      return TermFrom::shop_guess;
    case YieldBy::shop_and_register:
      return TermFrom::shop_guess_with_register;
    case YieldBy::register_alone:
      return TermFrom::from_register;
  }
  return TermFrom::nowhere;
}

}  // namespace

std::optional<YieldSeen> yield_seen(const std::optional<YieldCounted>& by_register,
                                    const std::optional<Given<Counts>>& stated) {
  const YieldCounted own = by_register.value_or(YieldCounted{});
  const int enough = stated ? stated->value.started : enough_to_tell;
  if (own.good > 0 && own.ended() >= enough) return YieldSeen{own.good, own.ended(), YieldBy::register_alone};
  if (!stated) return std::nullopt;
  return YieldSeen{stated->value.good + own.good, stated->value.started + own.ended(),
                   own.ended() > 0 ? YieldBy::shop_and_register : YieldBy::shop};
}

std::optional<Worked<StartCount>> start_count(const StartCountInput& in) {
  Worked<StartCount> out;
  const OrderSoFar& now = in.so_far;
  const auto quantity = said_count(Term::quantity, in.quantity, TermFrom::job);
  const auto done = said_count(Term::good, now.good, TermFrom::from_register);
  const auto lost = said_count(Term::lost, now.lost, TermFrom::from_register);
  const auto stock = said_count(Term::stock, now.from_stock, TermFrom::from_register);
  out.step(Figure::start_from_stock, stock);
  // What has to be started besides, so that so many can still come out good.
  const auto in_all = [&](const Traced<double>& open) {
    const bool fresh = now.good + now.lost + now.from_stock == 0;
    const auto all = fresh ? open : larger(open - stock, term(0.0)) + done + lost;
    out.value.needed = static_cast<int>(all.value());
    return at_least_issued(all, in.issued);
  };
  if (!in.seen) {
    const auto open = quantity + said_count(Term::spares, in.spares.value, origin_of(in.spares));
    out.value.pieces = static_cast<int>(
        out.step(Figure::start_pieces, in_all(now.good == 0 ? open : larger(open - done, term(0.0)))));
    return out;
  }
  const PastYield past{in.seen->good, in.seen->started};
  const double confidence = in.confidence.value / whole;
  const int need = std::max(0, in.quantity - now.good);
  const auto least = need == 0 ? std::optional{0} : smallest_start(need, past, confidence, in.most);
  if (!least) return std::nullopt;
  const auto good = said_count(Term::good_so_far, in.seen->good, whose(*in.seen));
  const auto started = said_count(Term::started_so_far, in.seen->started, whose(*in.seen));
  const auto wanted = term(Term::confidence, confidence, origin_of(in.confidence));
  const auto enough = phrase(Term::least_pieces_enough, static_cast<double>(*least),
                             {quantity.expression(), good.expression(), started.expression(), wanted.expression()});
  out.value.pieces = static_cast<int>(out.step(Figure::start_pieces, in_all(enough)));
  out.step(Figure::start_good_so_far, good);
  out.step(Figure::start_started_so_far, started);
  out.step(Figure::start_confidence, wanted);
  const int open = out.value.pieces - now.good - now.lost + now.from_stock;
  const auto n = said_count(Term::open_pieces, open, TermFrom::pieces_still_good);
  out.value.chance_enough = out.step(
      Figure::start_chance_enough,
      phrase(Term::chance_of_enough, chance_of_at_least(need, open, past), {quantity.expression(), n.expression()}));
  const auto mean = n * (good + term(jeffreys.good)) / (started + term(jeffreys.good + jeffreys.bad));
  out.value.expected_surplus =
      out.step(Figure::start_expected_surplus, now.good == 0 ? mean - quantity : mean + done - quantity);
  return out;
}

}  // namespace blankwright
