#include "commands/material_rows.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "measure/quantity_text.h"

namespace blankwright {
namespace {

/// Gathers rows of all materials.
class Rows {
 public:
  Rows(const Shop& shop, Instant now) : shop_{shop}, now_{now} {}

  /// `told`: an amount as a text; `delivery`: of something by its name, where it is known.
  template <class Amount, class Told, class Delivery>
  void add(std::string_view material, const std::vector<Needed<Amount>>& all, Told told, Delivery delivery) {
    for (const Needed<Amount>& one : all) {
      const bool is_missing = one.missing > Amount{};
      rows.push_back({{std::string{material}, one.name, told(one.needed), one.there ? told(*one.there) : "",
                       is_missing ? told(one.missing) : "", one.from ? clock_text(zone(), *one.from) : "",
                       order_by(one.from, delivery(one.name)), fmt::format("{}", fmt::join(one.orders, ", "))},
                      one.orders,
                      is_missing});
    }
  }

  std::vector<MaterialRow> rows;

 private:
  const Zone& zone() const { return shop_.zone.value; }

  std::string order_by(const std::optional<Instant>& from, const std::optional<Given<Duration>>& delivery) const {
    if (!from || !delivery) return {};
    const Instant by = *from - std::chrono::seconds{static_cast<std::int64_t>(delivery->value / second)};
    return by <= now_ ? "at once" : text(date_of(zone(), by));
  }

  const Shop& shop_;
  Instant now_;
};

}  // namespace

std::vector<std::string> material_columns() {
  return {"material", "which", "needed", "there", "missing", "wanted from", "order by", "orders"};
}

std::vector<MaterialRow> material_rows(const ShopNeeds& needs, const Shop& shop, Instant now) {
  const UnitSystem units = shop.units.value;
  const auto of_resin = [&](const std::string& name) {
    const auto resin =
        std::ranges::find_if(shop.resins, [&](const ResinFacts& one) { return one.name.value == name; });
    return resin == shop.resins.end() ? std::nullopt : resin->delivery;
  };
  const auto of_wood = [&](const std::string&) { return shop.promise.wood_delivery; };
  const auto unknown = [](const std::string&) { return std::optional<Given<Duration>>{}; };
  const auto count = [](int n) { return std::to_string(n); };
  Rows all{shop, now};
  all.add(
      "resin", needs.resin, [&](Volume v) { return liquid_text(v, units, Round::up); }, of_resin);
  all.add(
      "activator", needs.activator, [&](Mass m) { return text(m, units, Round::up); }, of_resin);
  all.add("wood", needs.wood, count, of_wood);
  all.add("studs", needs.studs, count, unknown);
  return std::move(all.rows);
}

}  // namespace blankwright
