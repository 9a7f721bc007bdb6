#include <fmt/format.h>

#include <iterator>
#include <ostream>
#include <span>

#include "commands/at_register.h"
#include "commands/calendars.h"
#include "commands/paper_record.h"
#include "diagnose/failure.h"
#include "plan/shop/kept_plan.h"
#include "register/register.h"
#include "write/blanks_csv.h"

namespace blankwright {
namespace {

/// A table of blanks in the output folder, and the IDs in it.
struct TableOfBlanks {
  std::string path;
  std::vector<BlankId> ids;
};

/// The tables of all orders in the output folder, be they of this run or not: whatever IDs they hold are out.
std::vector<TableOfBlanks> tables_in(const std::string& folder, const Files& disk) {
  constexpr std::size_t largest_table = 50'000'000;
  std::vector<TableOfBlanks> tables;
  for (const std::string& order : disk.folders_in(folder)) {
    TableOfBlanks table{fmt::format("{}/{}/blanks.csv", folder, order), {}};
    const auto text = disk.read(table.path, largest_table);
    if (!text && text.error().kind == ReadFault::Kind::absent) continue;
    if (!text) throw WorldError{table.path, text.error().words};
    table.ids = ids_of_blanks_csv(*text);
    if (!table.ids.empty()) tables.push_back(std::move(table));
  }
  return tables;
}

constexpr std::string_view way_on = "restore the newest copy of the register, or name another folder with --out";

void refuse_without_register(const std::string& file, const TableOfBlanks& table) {
  throw WorldError{file,
                   fmt::format("there is no register here, yet {} has {}, of one that is gone or of another shop; "
                               "nothing was issued: {}",
                               table.path, counted(std::ssize(table.ids), "ID"), way_on)};
}

/// Throws where one of the tables has IDs that the register never issued.
void refuse_strange_ids(Register& known, const std::string& file, std::span<const TableOfBlanks> tables) {
  std::vector<BlankId> strange;
  const TableOfBlanks* first = nullptr;
  int others = 0;
  for (const TableOfBlanks& table : tables) {
    auto ids = known.never_issued(table.ids);
    if (ids.empty()) continue;
    others += first == nullptr ? 0 : 1;
    if (first != nullptr) continue;
    first = &table;
    strange = std::move(ids);
  }
  if (first == nullptr) return;
  throw WorldError{
      file, fmt::format("this register never issued {} of {} in {} ({}{}){}; it is new, an older copy or another "
                        "shop's, and nothing was issued: {}",
                        strange.size() == first->ids.size() ? "any" : std::to_string(strange.size()),
                        counted(std::ssize(first->ids), "ID"), first->path, strange.front().shown(),
                        strange.size() > 1 ? ", …" : "",
                        others > 0 ? fmt::format(", nor those in {}", counted(others, "other table")) : "", way_on)};
}

/// Opens the register, or makes and announces it. That is told to those who asked for quiet too: where a register
/// was thought to be, it is the first sign that it is gone.
Register register_to_issue(const ReadRun& read, Surroundings& around) {
  const RegisterPlace& place = read.register_place;
  const auto& named = read.inputs.shop.register_facts.series;
  Register known{place, named ? named->value.first : BlankId::nth(around.chance.below(BlankId::count))};
  const std::string series = known.series().shown();
  if (named && known.series() != named->value.first) {
    throw WorldError{place.name, fmt::format("another run has just made this register, with the series {} and not {}",
                                             series, named->value.first.shown())};
  }
  if (known.is_new()) {
    around.errors << fmt::format(
        "blankwright: {}: a new register, whose IDs begin with {}{}; it alone knows whose a blank is: keep a copy\n",
        place.name, series, named ? " as the shop file says" : "");
  }
  return known;
}

std::string kept_lines(std::span<const CalendarEntry> entries) {
  std::vector<KeptEvent> events;
  for (const CalendarEntry& entry : entries) events.push_back(entry.event);
  return kept_events(events);
}

}  // namespace

IssuedRun issue_all(const ReadRun& read, const PlannedTogether& planned, Surroundings& around) {
  std::vector<std::size_t> numbers;
  std::vector<OrderToIssue> wanted;
  for (std::size_t n = 0; n < planned.of_run; ++n) {
    if (planned.is_left_out(n)) continue;
    const PlannedOrder& order = planned.orders.at(n);
    numbers.push_back(n);
    const PaperRecord record = paper_record(read.wanted.flags, planned.in_hand(n));
    wanted.push_back({order.id, order.to_start - order.witnesses, inputs_of(read, *order.job), order.gist,
                      order.witnesses, kept_plan(*planned.plan.orders.at(n).times) + kept_record(record)});
  }
  if (wanted.empty()) return issued_before(read, planned);
  std::vector<Task> tasks = tasks_of_all(planned, read.inputs.shop);
  // Read before the register is opened: what another run issues and writes meanwhile is then in the register as well.
  const auto tables = tables_in(read.wanted.flags.out, around.disk);
  if (!tables.empty() && !Register::is_there(read.register_place)) {
    refuse_without_register(read.register_place.name, tables.front());
  }
  Register known = register_to_issue(read, around);
  refuse_strange_ids(known, read.register_place.name, tables);
  IssuedRun run{issued_so_far(planned), {}};
  const auto events_of = [&](std::span<const std::vector<BlankId>> blanks) {
    auto of_run = blanks_of(run.orders);
    for (std::size_t i = 0; i < blanks.size(); ++i) of_run.at(numbers.at(i)) = blanks[i];
    run.calendars = calendars_of(read, planned, std::move(tasks), of_run, handed_out(known, read, planned));
    std::vector<std::string> lines;
    for (const std::size_t n : numbers) lines.push_back(kept_lines(run.calendars.of_order.at(n)));
    return lines;
  };
  auto issued = known.issue(wanted, planned.time.at.time_since_epoch().count(), now_at(known, around), events_of);
  if (!issued) {
    throw WorldError(read.register_place.name,
                     fmt::format("another run has just stored order \"{}\", which differs from \"{}\" in case alone",
                                 issued.error().stored, issued.error().asked));
  }
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    IssuedOrder& order = run.orders.at(numbers.at(i));
    order.so_far.to_be_sawn += static_cast<int>(issued->at(i).size() - order.blanks.size());
    order.blanks = std::move(issued->at(i));
    if (const auto print = known.texts_in_force(wanted.at(i).order_id, Instant::max())) order.issue = print->print;
  }
  return run;
}

std::vector<IssuedOrder> issued_so_far(const PlannedTogether& planned) {
  std::vector<IssuedOrder> out;
  for (const PlannedOrder& order : planned.own()) out.push_back({order.record.issued_to_order, order.so_far, 1});
  return out;
}

IssuedRun issued_before(const ReadRun& read, const PlannedTogether& planned) {
  IssuedRun run{issued_so_far(planned), {}};
  auto known = read.wanted.flags.draft ? std::nullopt : Register::open_to_read(read.register_place);
  const HandedOut before = known ? handed_out(*known, read, planned) : HandedOut{};
  run.calendars = calendars_of(read, planned, tasks_of_all(planned, read.inputs.shop), blanks_of(run.orders), before);
  return run;
}

}  // namespace blankwright
