#include "plan/order/cost.h"

#include "diagnose/failure.h"
#include "plan/figure/figure.h"
#include "plan/figure/working.h"

namespace blankwright {
namespace {

/// What is known of a cost, and in which currency.
struct Sum {
  std::optional<Traced<double>> total{};
  std::string currency{};

  void add(const Money& price, const Traced<double>& amount) {
    BW_EXPECT(currency.empty() || currency == price.currency);
    currency = price.currency;
    total = total ? *total + amount : amount;
  }
};

Traced<double> price_of(Term name, const Given<Money>& price) {
  return term(name, price.value.amount, origin_of(price));
}

}  // namespace

std::optional<Worked<Cost>> cost(const CostInput& in) {
  BW_EXPECT(in.quantity > 0 && in.started > 0);
  const auto started = term(Term::started, static_cast<double>(in.started), TermFrom::pieces_and_witnesses);
  const CostFacts& f = in.facts;
  Sum sum;
  if (f.labour_per_hour) {
    sum.add(f.labour_per_hour->value, term(Term::hours_of_work, in.hands_on / hour, TermFrom::routing) *
                                          price_of(Term::labour_an_hour, *f.labour_per_hour) / started);
  }
  if (f.wood_per_litre) {
    sum.add(f.wood_per_litre->value, term(Term::litres_of_sawn_wood, in.sawn_wood / litre, TermFrom::blank) *
                                         price_of(Term::wood_a_litre, *f.wood_per_litre));
  }
  if (in.resin && in.resin_facts != nullptr && in.resin_facts->price) {
    const ResinFacts& resin = *in.resin_facts;
    sum.add(resin.price->value,
            term(Term::litres_of_resin, *in.resin / litre, TermFrom::uptake_and_film) *
                price_of(Term::price_of_resin, *resin.price) /
                term(Term::litres_for_that, resin.price_for.value / litre, origin_of(resin.price_for)));
  }
  if (f.stud_each) sum.add(f.stud_each->value, price_of(Term::price_of_stud, *f.stud_each));
  if (f.per_order) sum.add(f.per_order->value, price_of(Term::price_of_order, *f.per_order) / started);
  if (!sum.total) return std::nullopt;

  Worked<Cost> out;
  out.value.currency = sum.currency;
  out.value.per_piece = out.step(Figure::cost_per_piece, *sum.total);
  out.value.per_good_piece = out.step(Figure::cost_per_good_piece,
                                      term(Term::cost_of_started, out.value.per_piece, TermFrom::above) * started /
                                          term(Term::quantity, static_cast<double>(in.quantity), TermFrom::job));
  return out;
}

}  // namespace blankwright
