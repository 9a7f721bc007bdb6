#include "plan/start_count.h"

#include "plan/tables/statistics.h"

namespace blankwright {
namespace {

Said<double> said_count(const std::string& name, int n, std::string origin) {
  return said(name, static_cast<double>(n), std::move(origin));
}

Said<double> at_least_issued(const Said<double>& pieces, int issued) {
  return pieces.value() >= issued ? pieces : larger(pieces, said_count("issued", issued, "register"));
}

}  // namespace

std::optional<Worked<StartCount>> start_count(const StartCountInput& in) {
  Worked<StartCount> out;
  const auto quantity = said_count("quantity", in.quantity, "job");
  if (!in.seen) {
    const auto pieces =
        at_least_issued(quantity + said_count("spares", in.spares.value, origin_text(in.spares)), in.issued);
    out.value.pieces = static_cast<int>(out.step(Figure::start_pieces, pieces));
    return out;
  }
  const PastYield past{in.seen->good, in.seen->started};
  const double confidence = in.confidence.value / whole;
  const auto least = smallest_start(in.quantity, past, confidence, in.most);
  if (!least) return std::nullopt;
  const auto good = said_count("good so far", in.seen->good, in.seen->whose);
  const auto started = said_count("started so far", in.seen->started, in.seen->whose);
  const auto wanted = said("confidence", confidence, origin_text(in.confidence));
  const auto enough = call("least n with P(good ≥ quantity) ≥ confidence", static_cast<double>(*least),
                           {quantity.expression(), good.expression(), started.expression(), wanted.expression()});
  out.value.pieces = static_cast<int>(out.step(Figure::start_pieces, at_least_issued(enough, in.issued)));
  out.step(Figure::start_good_so_far, good);
  out.step(Figure::start_started_so_far, started);
  out.step(Figure::start_confidence, wanted);
  const auto n = said_count("pieces", out.value.pieces, "above");
  out.value.chance_enough = out.step(
      Figure::start_chance_enough, call("P(good ≥ quantity)", chance_of_at_least(in.quantity, out.value.pieces, past),
                                        {quantity.expression(), n.expression()}));
  const auto mean = n * (good + said(jeffreys.good)) / (started + said(jeffreys.good + jeffreys.bad));
  out.value.expected_surplus = out.step(Figure::start_expected_surplus, mean - quantity);
  return out;
}

}  // namespace blankwright
