#include <fmt/format.h>

#include <iterator>
#include <ostream>
#include <span>

#include "commands/compile_run.h"
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
Register register_to_issue(const Compile& c) {
  const auto& named = c.inputs.shop.register_facts.series;
  Register known{c.register_file, named ? named->value.first : BlankId::nth(c.around.chance.below(BlankId::count))};
  const std::string series = known.series().shown();
  if (named && known.series() != named->value.first) {
    throw WorldError{c.register_file, fmt::format("another run has just made this register, with the series {} and "
                                                  "not {}",
                                                  series, named->value.first.shown())};
  }
  if (known.is_new()) {
    c.around.errors << fmt::format(
        "blankwright: {}: a new register, whose IDs begin with {}{}; it alone knows whose a blank is: keep a copy\n",
        c.register_file, series, named ? " as the shop file says" : "");
  }
  return known;
}

}  // namespace

void issue_all(const Compile& c, const Run& run) {
  std::vector<OrderToIssue> wanted;
  for (const std::size_t i : run.jobs) {
    const Job& job = c.jobs.at(i);
    wanted.push_back({job.id, job.to_start - job.witnesses, inputs_of(c, job), job.gist, job.witnesses});
  }
  if (wanted.empty()) return;
  // Read before the register is opened: what another run issues and writes meanwhile is then in the register as well.
  const auto tables = tables_in(c.flags.out, c.around.disk);
  if (!tables.empty() && !Register::is_there(c.register_file)) {
    refuse_without_register(c.register_file, tables.front());
  }
  Register known = register_to_issue(c);
  refuse_strange_ids(known, c.register_file, tables);
  auto issued = known.issue(wanted, run.time.at.time_since_epoch().count(),
                            Instant{std::chrono::seconds{c.around.clock.now_unix()}});
  if (!issued) {
    throw WorldError(c.register_file,
                     fmt::format("another run has just stored order \"{}\", which differs from \"{}\" in case alone",
                                 issued.error().stored, issued.error().asked));
  }
  for (std::size_t k = 0; k < run.jobs.size(); ++k) {
    Job& job = c.jobs.at(run.jobs.at(k));
    job.so_far.to_be_sawn += static_cast<int>(issued->at(k).size() - job.blanks.size());
    job.blanks = std::move(issued->at(k));
  }
}

}  // namespace blankwright
