#include "commands/at_register.h"
#include "commands/harmless_stream.h"
#include "diagnose/problem.h"
#include "diagnose/says_run.h"

#include <fmt/format.h>

#include <cstdint>
#include <limits>
#include <memory>
#include <ostream>

namespace blankwright {

namespace {

/// A job that this version cannot read is taken as one with treatment, which asks for more.
bool treats(const std::string& job) {
  Diagnostics ignored;  // whoever compiled it was told
  const auto order = read_order(std::make_shared<const SourceText>(SourceText{"", job}), ignored);
  return !order || order->treatment.has_value();
}

}  // namespace

Instant now_at(Register& known, const Surroundings& around) {
  return known.now(Instant{std::chrono::seconds{around.clock.now_unix()}});
}

bool is_named_series(const BlankId& series, const Shop& shop, Diagnostics& out) {
  const auto& named = shop.register_facts.series;
  if (!named || named->value.first == series) return true;
  out.error(Problem::series_differs, named->at, says::other_series, series, named->value.first)
      .hint(says::this_shops_series, series);
  return false;
}

std::optional<AtRegister> at_register(const std::string& shop, Surroundings& around, OpenTo what) {
  Diagnostics out;
  const std::string file = shop_path(shop, "");
  auto inputs = read_shop_inputs(around.disk, file, out);
  around.errors << AsIs{rendered(out, around.errors_terminal.colour)};
  if (!inputs) return std::nullopt;
  const RegisterPlace place = place_of_register(inputs->shop, file);
  std::optional<Register> known;
  if (what == OpenTo::read) {
    known = Register::open_to_read(place);
  } else if (Register::is_there(place)) {
    known.emplace(place);
  }
  if (!known) {
    around.errors << fmt::format("blankwright: {}: there is no register yet; compile makes one\n", place.name);
    return std::nullopt;
  }
  Diagnostics differs;
  if (!is_named_series(known->series(), inputs->shop, differs)) {
    around.errors << AsIs{rendered(differs, around.errors_terminal.colour)};
    return std::nullopt;
  }
  known->speak_in(inputs->shop.units.value);
  known->read_treatment_by(treats);
  known->draw_keys_by([&chance = around.chance] {
    std::string key;
    for (int part = 0; part < 4; ++part)
      key += fmt::format("{:08x}", chance.below(std::numeric_limits<std::uint32_t>::max()));
    return key;
  });
  return AtRegister{place, std::move(*inputs), std::move(*known)};
}

std::optional<Instant> moment_asked(const std::string& at, const Zone& zone, NamedFrom::Days days,
                                    Surroundings& around) {
  const Instant now{std::chrono::seconds{around.clock.now_unix()}};
  if (at.empty()) return now;
  const auto moment = read_moment(at, {zone, now, days});
  if (moment) return *moment;
  around.errors << fmt::format("blankwright: --at: {}{}{}\n", moment.error().message,
                               moment.error().hint.empty() ? "" : "; write ", moment.error().hint);
  return std::nullopt;
}

std::string moment_help(NamedFrom::Days days) {
  const bool back = days == NamedFrom::Days::back;
  return fmt::format(
      "by the shop's clock: 13:30 (today), \"friday 13:30\" ({} one, or today), \"{} 13:30\", \"2027-05-04 13:30\"; "
      "a day alone means {}; or RFC 3339",
      back ? "the last" : "the next", back ? "yesterday" : "tomorrow",
      back ? "that day, at this time of day" : "its beginning");
}

}  // namespace blankwright
