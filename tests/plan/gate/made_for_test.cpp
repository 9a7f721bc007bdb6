#include "plan/gate/made_for.h"
#include "gated_blank.h"

#include <doctest/doctest.h>

#include "planning.h"

using namespace blankwright;

namespace {

using std::chrono::hours;

/// What happens to a blank, an hour apart.
std::vector<Entry> entries(std::initializer_list<EntryKind> kinds, const std::string& promised_to = "B") {
  std::vector<Entry> all;
  for (const EntryKind kind : kinds) {
    Entry entry;
    entry.number = static_cast<EntryNumber>(all.size()) + 1;
    entry.kind = kind;
    entry.blank = BlankId::nth(0);
    entry.at = monday + hours{entry.number};
    if (kind == EntryKind::promised) entry.set(Field::order, promised_to);
    all.push_back(entry);
  }
  return all;
}

BlankState issued_to_a(const std::vector<Entry>& all) {
  BlankState blank;
  blank.id = BlankId::nth(0);
  blank.order = blank.promised = "A";
  blank.last = all.back().number;
  return blank;
}

}  // namespace

TEST_CASE("a blank was bathed, bored and given its stud for the order that it was meant for then") {
  const auto all = entries(
      {EntryKind::issued, EntryKind::into_bath, EntryKind::promised, EntryKind::bored, EntryKind::stud_measured});
  const MadeFor made = made_for(all, issued_to_a(all));
  CHECK(made.bathed->order == "A");
  CHECK(made.bathed->at == monday + hours{2});
  CHECK(made.bored->order == "B");
  CHECK(made.stud_set->order == "B");
}

TEST_CASE("a second bath counts, a promise afterwards does not, nor what the state does not know yet") {
  auto all = entries({EntryKind::into_bath, EntryKind::promised, EntryKind::into_bath, EntryKind::promised});
  CHECK(made_for(all, issued_to_a(all)).bathed->order == "B");
  BlankState before = issued_to_a(all);
  before.last = 2;
  CHECK(made_for(all, before).bathed->order == "A");
  CHECK_FALSE(made_for(all, before).bored.has_value());
}

TEST_CASE("bath and cure are judged by the order that the blank was bathed for, unless that has no resin") {
  const auto all = entries({EntryKind::into_bath, EntryKind::promised});
  BlankState blank = issued_to_a(all);
  blank.promised = "B";
  const MadeFor made = made_for(all, blank);
  const OrderPlan with_none = plan_of(awl(), bench());
  OrderPlan with_resin = with_none;
  const ResinFacts resin{};
  with_resin.process.resin = &resin;
  const auto judged_by = [&](const OrderPlan* plan) {
    return bath_order(blank, made, [&](const std::string& order) {
      CHECK(order == "A");
      return plan;
    });
  };
  CHECK(judged_by(&with_resin) == "B");  // it was in no bath as far as its state knows
  blank.bath = "B1";
  CHECK(judged_by(&with_resin) == "A");
  CHECK(judged_by(&with_none) == "B");
  CHECK(judged_by(nullptr) == "A");  // then nothing can be told, and that is
  blank.promised = "A";
  CHECK(judged_by(&with_none) == "A");
}

TEST_CASE("what paper said counts from the bore, or from when wood was first at hand") {
  const auto all = entries({EntryKind::issued, EntryKind::weighed, EntryKind::promised, EntryKind::bored});
  BlankState blank = issued_to_a(all);
  CHECK(made_at(all, blank) == monday + hours{2});
  blank.stage = Stage::bored;
  CHECK(made_at(all, blank) == monday + hours{4});
  CHECK(made_at(entries({EntryKind::issued, EntryKind::promised}), blank) == Instant::max());
}
