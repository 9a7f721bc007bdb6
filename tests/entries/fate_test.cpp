#include "entries/fate.h"

#include <doctest/doctest.h>

#include <array>

#include "entries/record.h"
#include "entries/statistics.h"

using namespace blankwright;

namespace {

BlankSummary at(Stage stage, std::optional<Outcome> result = {}) {
  BlankSummary blank;
  blank.order = blank.promised = "A";
  blank.stage = stage;
  blank.result = result;
  return blank;
}

}  // namespace

TEST_CASE("good, lost and in work mean the same to whoever counts") {
  // What the words mean is the project's own choice; this table is the choice, a row for each stage.
  struct Row {
    Stage stage;
    std::optional<Outcome> result;
    Fate fate, of_witness;
  };
  const Row rows[] = {
      {Stage::begun, {}, Fate::to_be_sawn, Fate::to_be_sawn},
      {Stage::in_bath, {}, Fate::in_work, Fate::in_work},
      {Stage::wet, {}, Fate::in_work, Fate::in_work},
      {Stage::in_oven, {}, Fate::in_work, Fate::in_work},
      {Stage::cured, {}, Fate::in_work, Fate::in_work},
      {Stage::squared, {}, Fate::in_work, Fate::in_work},
      {Stage::bored, {}, Fate::in_work, Fate::in_work},
      {Stage::stud_set, {}, Fate::good, Fate::in_work},
      {Stage::turned, {}, Fate::good, Fate::in_work},
      {Stage::inspected, Outcome::pass, Fate::good, Fate::in_work},
      {Stage::inspected, Outcome::fail, Fate::lost, Fate::lost},
      {Stage::sent, {}, Fate::good, Fate::in_work},
      {Stage::cut_open, Outcome::fail, Fate::cut_open, Fate::cut_open},
      {Stage::scrapped, {}, Fate::lost, Fate::lost},
  };
  for (const Row& row : rows) {
    CAPTURE(name_of(row.stage));
    BlankSummary blank = at(row.stage, row.result);
    CHECK(fate_of(blank) == row.fate);
    // The plan of its order and the yield of the shop agree with it.
    BlankState state;
    state.order = state.promised = "A";
    state.stage = row.stage;
    state.result = row.result;
    Record record;
    record.blanks.push_back(state);
    CHECK((order_so_far(record).good == 1) == (row.fate == Fate::good));
    CHECK((order_so_far(record).lost == 1) == is_given_up(row.fate));
    const std::array known{KnownBlank{blank, {}, {}, {}}};
    CHECK(good_pieces(known).contains("A") == (row.fate == Fate::good));
    CHECK((yield_counted(known, {{"A", 1}}).lost == 1) == (row.fate == Fate::lost));
    blank.witness = true;
    CHECK(fate_of(blank) == row.of_witness);
  }
  // Wood that something was entered of.
  BlankState state;
  CHECK(fate_of(state) == Fate::to_be_sawn);
  const auto with = [&](EntryKind kind) {
    Entry entry;
    entry.kind = kind;
    return after(state, entry);
  };
  for (const EntryKind kind : {EntryKind::sawn, EntryKind::moisture, EntryKind::into_drying, EntryKind::done})
    CHECK(fate_of(with(kind)) == Fate::in_work);
  CHECK(fate_of(with(EntryKind::promised)) == Fate::to_be_sawn);
}

TEST_CASE("a tally tells what there is of it and nothing else") {
  Tally tally;
  CHECK(in_words(tally).empty());
  for (const Stage stage : {Stage::sent, Stage::turned, Stage::scrapped, Stage::wet, Stage::begun, Stage::begun}) {
    tally.add(at(stage));
  }
  CHECK(in_words(tally) == "2 good (1 sent), 1 lost, 1 in work, 2 to be sawn");
  CHECK(tally.is_begun());
}

TEST_CASE("blanks are counted by stage in the order of the work, in words of the shop and not of the program") {
  // The project's own choice of words; the order is that of the work.
  const auto known = [](Stage stage, bool begun = true, const std::string& drying = {},
                        std::optional<Outcome> result = {}) {
    KnownBlank one{at(stage, result), {}, {}, {}};
    one.blank.begun = begun;
    one.blank.drying = drying;
    return one;
  };
  const std::vector<KnownBlank> blanks{
      known(Stage::scrapped),     known(Stage::in_bath),   known(Stage::begun, true, "L1"),
      known(Stage::begun, false), known(Stage::begun),     known(Stage::begun, false),
      known(Stage::inspected),    known(Stage::in_oven),   known(Stage::inspected, true, "", Outcome::fail),
      known(Stage::stud_set),     known(Stage::withdrawn), known(Stage::in_bath)};
  using Counts = std::vector<std::pair<std::string_view, int>>;
  CHECK(by_stage(blanks) == Counts{{"to be sawn", 2},
                                   {"sawn", 1},
                                   {"drying", 1},
                                   {"in the bath", 2},
                                   {"curing", 1},
                                   {"stud set", 1},
                                   {"failed inspection", 1},
                                   {"inspected", 1},
                                   {"scrapped", 1},
                                   {"not needed", 1}});
}
