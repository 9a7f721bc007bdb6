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

Traced<double> price_of(std::string name, const Given<Money>& price) {
  return term(std::move(name), price.value.amount, origin_text(price));
}

}  // namespace

std::optional<Worked<Cost>> cost(const CostInput& in) {
  BW_EXPECT(in.quantity > 0 && in.started > 0);
  const auto started = term("started", static_cast<double>(in.started), "pieces and witnesses");
  const CostFacts& f = in.facts;
  Sum sum;
  if (f.labour_per_hour) {
    sum.add(f.labour_per_hour->value, term("hours of work", in.hands_on / hour, "routing") *
                                          price_of("labour an hour", *f.labour_per_hour) / started);
  }
  if (f.wood_per_litre) {
    sum.add(f.wood_per_litre->value,
            term("litres of sawn wood", in.sawn_wood / litre, "blank") * price_of("wood a litre", *f.wood_per_litre));
  }
  if (in.resin && in.resin_facts != nullptr && in.resin_facts->price) {
    const ResinFacts& resin = *in.resin_facts;
    sum.add(resin.price->value,
            term("litres of resin", *in.resin / litre, "uptake and film") * price_of("price of resin", *resin.price) /
                term("litres for that", resin.price_for.value / litre, origin_text(resin.price_for)));
  }
  if (f.stud_each) sum.add(f.stud_each->value, price_of("stud", *f.stud_each));
  if (f.per_order) sum.add(f.per_order->value, price_of("an order", *f.per_order) / started);
  if (!sum.total) return std::nullopt;

  Worked<Cost> out;
  out.value.currency = sum.currency;
  out.value.per_piece = out.step(Figure::cost_per_piece, *sum.total);
  out.value.per_good_piece =
      out.step(Figure::cost_per_good_piece, term("a blank that is started", out.value.per_piece, "above") * started /
                                                term("quantity", static_cast<double>(in.quantity), "job"));
  return out;
}

}  // namespace blankwright
