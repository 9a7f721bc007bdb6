#include "life.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "replay.h"
#include "sheet_judge.h"

namespace simulated {
namespace {

/// Masses are shown to a tenth of a gram, or to a hundredth of an ounce or a pound.
bool shows_mass(const std::string& line, double mass_g) {
  std::istringstream cells{line};
  for (std::string cell; std::getline(cells, cell, ',');)
    if (std::abs(mass_g_in(cell) - mass_g) < (cell.ends_with("lb") ? 2.4 : 0.16)) return true;
  return false;
}

}  // namespace

Life::Life(const Shop& shop, Program& program, Judge& judge, Chance chance, Moment start)
    : shop_{shop},
      program_{program},
      judge_{judge},
      chance_{chance},
      early_{chance.fork("early")},
      desk_{program, chance_.fork("desk")},
      now_{start} {
  program_.write("shop.toml", shop_file(shop));
}

void Life::live(const Run& run) {
  run_ = run;
  if (run.from_stock && !stock_.empty()) {
    Order again = stock_.front().order;
    again.id = run.orders.front().id;
    again.client = run.orders.front().client;
    again.due = run.orders.front().due;
    run_.orders = {again};
  }
  blanks_.clear();
  sheets_.clear();
  compiled_.clear();
  out_of_oven_.clear();
  steps_to_free_.clear();
  let_slip(true);
  now_ = when_somebody_is_there(now_);
  if (!prepare()) return;
  promise_stock();
  saw_blanks(alive());
  if (run_.changes) change_order();
  std::map<int, Group> baths;
  Group all = alive();
  std::erase_if(all, [](const Blank* blank) { return blank->turned; });
  for (Blank* blank : all) baths[blank->bath].push_back(blank);
  // What is dried long before its bath would have to be dried again.
  for (const auto& [number, group] : baths) {
    const bool hot = run_.provoke == Provoke::bath_against_gate && number == baths.begin()->first;
    dry(group, fmt::format("D-{}-{}-0", run_.name, number), sheets_of(*group.front()).dry_least_hours, !hot);
    bathe(group, fmt::format("K-{}-{}", run_.name, number), 0);
  }
  all = alive();
  std::erase_if(all, [](const Blank* blank) { return blank->turned; });
  weigh_cured_and_cut(all);
  std::erase_if(all, [](const Blank* blank) { return blank->out; });
  bore(all);
  close();
  keep_stock();
}

bool Life::prepare() {
  std::vector<std::string> arguments{"compile"};
  for (const Order& order : run_.orders) {
    if (order.spigot_mm > 0) judge_given_blank(order);
    program_.write(order.id + ".toml", job_file(order, shop_));
    arguments.push_back(order.id + ".toml");
  }
  arguments.insert(arguments.end(), {"--only", "traveller,tags,blanks"});
  const Answer answer = program_.run(now_, arguments);
  compiled_.push_back("[" + text(now_) + "] " + as_typed(arguments));
  if (!answer.well()) {
    add_wrong("order refused", run_.orders.front().id, answer.text);
    return false;
  }
  for (const Order& order : run_.orders) {
    read_order(order, answer.text);
    judge_tags(order);
  }
  judge_dyes();
  judge_cards_of_loads();
  return true;
}

/// One load is one load, whichever order's card somebody holds.
void Life::judge_cards_of_loads() {
  std::map<std::pair<int, int>, double> hours;
  for (const Blank& blank : blanks_) {
    const Sheets& sheets = sheets_of(blank);
    if (sheets.loads != 1) continue;
    const auto [load, fresh] = hours.emplace(std::pair{blank.bath, blank.load}, sheets.oven_least_hours);
    if (!fresh && std::abs(load->second - sheets.oven_least_hours) > 0.02)
      return add_wrong("sheet", blank.order,
                       fmt::format("two cards of one load: in the oven at least {:.2f} h and {:.2f} h",
                                   sheets.oven_least_hours, load->second));
  }
}

/// Two dyes in one bath would stain each other's blanks.
void Life::judge_dyes() {
  std::map<int, std::string> dyes;
  for (const Blank& blank : blanks_) {
    const std::string& dye = order_of(blank).dye;
    if (const auto [bath, fresh] = dyes.emplace(blank.bath, dye); !fresh && bath->second != dye)
      return add_wrong("sheet", blank.order, "two dyes in one bath: " + dye + ", " + bath->second);
  }
}

/// What is printed of an order; blanks that are new on its list are somebody's to saw.
void Life::read_order(const Order& order, const std::string& messages) {
  const std::filesystem::path folder = program_.folder() / "sheets" / order.id;
  const Sheets& sheets = sheets_[order.id] =
      read_sheets(printed_pages(program_.paper(folder / "traveller.pdf")), now_);
  for (const std::string& wrong : wrong_on_sheets(sheets, order, shop_, messages))
    add_wrong("sheet", order.id, wrong);
  for (const int number : provoked_by_sheets(sheets, order, shop_)) judge_.provoked(number);
  judge_.count("sheets read");
  for (const ListedBlank& listed : listed_blanks(file_text(folder / "blanks.csv"))) {
    if (std::ranges::find(blanks_, listed.id, &Blank::id) != blanks_.end()) continue;
    Blank blank;
    blank.id = listed.id;
    blank.order = order.id;
    blank.witness = listed.role == "witness";
    blank.bath = std::max(1, listed.bath);
    blank.load = std::max(1, listed.load);
    const Sawn sawn{sheets.section.sawn_mm, sheets.length.sawn_mm, shop_.planing_mm, order.moisture_share,
                    order.punky};
    saw(blank, order.species, sawn, chance_);
    blanks_.push_back(blank);
    ++blanks_made_;
  }
}

/// Somebody brings a blank of his own: too short by the spigot, and long enough.
void Life::judge_given_blank(const Order& order) {
  const double needed_mm = needed_sawn_length_mm(order, shop_);
  const double section_mm = largest_diameter_mm(order.stations) + 25;
  Order shorter = order;
  shorter.id = order.id + "-short";
  shorter.given = Given{section_mm, needed_mm - order.spigot_mm + 0.5};
  program_.write("short.toml", job_file(shorter, shop_));
  const Answer refused = program_.run(now_, {"check", "short.toml"});
  judge_.provoked(4);
  if (refused.well())
    add_wrong("bad released", shorter.id,
              fmt::format("a given blank of {:.1f} mm is taken, {:.1f} mm are needed with the spigot",
                          shorter.given->length_mm, needed_mm));
  Order longer = order;
  longer.id = order.id + "-long";
  longer.given = Given{section_mm, needed_mm + 2};
  program_.write("long.toml", job_file(longer, shop_));
  const Answer taken = program_.run(now_, {"check", "long.toml"});
  if (!taken.well()) add_wrong("good held", longer.id, taken.text);
}

void Life::saw_blanks(const Group& group) {
  later(1);
  for (Blank* blank : group) {
    if (blank->turned) continue;  // from stock
    work(3);
    note("sawn", *blank, {{"board", "B-" + run_.name}});
    work(1);
    if (chance_.yes(0.5))
      note("measured", *blank,
           {{"width", read_length(blank->sawn_width_mm)},
            {"depth", read_length(blank->sawn_depth_mm)},
            {"length", read_length(blank->sawn_length_mm)}});
  }
}

Made Life::made() const {
  Made out;
  for (const Order& order : run_.orders) out.wanted += order.quantity;
  for (const Blank& blank : blanks_) {
    out.started += blank.witness ? 0 : 1;
    out.good += blank.turned && !blank.out ? 1 : 0;
  }
  return out;
}

/// Nothing of what was entered may be lost: the order is asked for at the end.
void Life::close() {
  for (const Order& order : run_.orders) {
    judge_cards(order);
    const Answer answer = program_.run(now_, {"ask", "order", order.id, "--as", "csv"});
    for (const Blank& blank : blanks_) {
      if (blank.order != order.id || desk_.evidence({blank.id}, {}) == Evidence::wrong) continue;
      const bool late = desk_.evidence({blank.id}, {}) == Evidence::missing;
      if (late && desk_.missing_for_good(blank.id)) continue;
      judge_.count("histories compared");
      const std::size_t row = answer.text.find(blank.id + ",");
      std::string line = row == std::string::npos ? "" : answer.text.substr(row, answer.text.find('\n', row) - row);
      const Entry* weighed = desk_.last(blank.id, "weighed");
      const std::string last = weighed == nullptr ? "" : weighed->value("mass");
      if (line.empty() || (!last.empty() && !shows_mass(line, mass_g_in(last))))
        add_wrong(late ? "late entry lost" : "lost", blank.id,
                  fmt::format("entered {}, the order's table says: {}", last, line));
      if (blank.sent && line.find("sent") == std::string::npos)
        add_wrong("lost", blank.id, "sent is not known: " + line);
    }
  }
  next_morning();
}

Said Life::judged(Step step, const Blank& blank, const Known& known, const std::vector<std::string>& subjects,
                  const std::vector<std::string>& kinds) {
  std::vector<std::string> heard;
  for (const std::string& subject : subjects) {
    const std::vector<std::string>& lines = desk_.heard(subject);
    heard.insert(heard.end(), lines.begin(), lines.end());
  }
  const std::vector<std::string> about{blank.id, "bath " + blank.bath_name, "load " + blank.load_name};
  const Evidence evidence =
      std::max(desk_.evidence(about, kinds), desk_.evidence(witnesses_of(blank), {"witness-cut"}));
  const bool shown = known.shown && !blank.cure_open;
  Case seen{step, known.truth, said(heard), evidence, shown, blank.id, known.what, "", now_};
  if (seen.truth == Truth::bad && seen.said == Said::released) {
    // Whoever asks before he goes on hears the latest.
    heard = desk_.ask(now_, blank.id);
    seen.said = said(heard);
    if (seen.said == Said::released && held_on_page()[blank.id]) {
      seen.said = Said::held;
      if (!says_hold(heard)) add_wrong("contradiction", blank.id, "held on the page alone, before " + name_of(step));
    }
  }
  // What was entered of others since may have answered it.
  if (seen.truth == Truth::good && seen.said == Said::held && desk_.has_entered_since(blank.id)) {
    heard = desk_.ask(now_, blank.id);
    seen.said = said(heard);
  }
  if (seen.said == Said::released && is_silent_on(step, heard)) seen.said = Said::asked;
  for (const std::string& line : heard) seen.what_was_said += (seen.what_was_said.empty() ? "" : " | ") + line;
  if (judge_.hear(seen)) judge_.wrong().back().replay = replay(compiled_, desk_.taken(), blank.id, now_);
  const bool good_one_held = seen.truth == Truth::good && seen.said == Said::held && step != Step::unloading;
  return good_one_held ? obeyed(step, blank, shown) : seen.said;
}

std::vector<std::string> Life::witnesses_of(const Blank& blank) const {
  std::vector<std::string> out;
  for (const Blank& other : blanks_)
    if (other.witness && other.id != blank.id &&
        ((!blank.bath_name.empty() && other.bath_name == blank.bath_name) ||
         (!blank.load_name.empty() && other.load_name == blank.load_name)))
      out.push_back(other.id);
  return out;
}

void Life::scrap(Blank& blank, const std::string& why) {
  work(1);
  note("scrapped", blank, {{"reason", why}});
  blank.out = true;
}

void Life::note(const std::string& kind, const Blank& blank, std::vector<std::pair<std::string, std::string>> says) {
  desk_.note({kind, blank.id, now_, std::move(says), 0, "", {}, 0});
}

void Life::note_of(const std::string& kind, std::vector<std::pair<std::string, std::string>> says) {
  desk_.note({kind, "", now_, std::move(says), 0, "", {}, 0});
}

void Life::later(double hours) { go_to(after(now_, hours)); }

void Life::go_to(Moment moment) {
  if (moment <= now_) return;
  const double hours = hours_between(now_, moment);
  for (Blank& blank : blanks_)
    if (blank.resin_g <= 0) lie_in_room(blank, hours, shop_.room_moisture_share);
  now_ = moment;
}

void Life::next_morning() {
  go_to(next_workday(now_, 8));
  desk_.put_right(now_);
  // What was refused though it was true.
  for (; refusals_told_ < desk_.refused().size(); ++refusals_told_) {
    const Entry& entry = desk_.refused().at(refusals_told_);
    const bool late = desk_.evidence({entry.subject()}, {}) != Evidence::right;
    add_wrong(late ? "true entry refused after a late one" : "true entry refused", entry.subject(),
              entry.kind + " at " + text(entry.at) + ": " + desk_.refusals().at(refusals_told_));
  }
}

const Order& Life::order_of(const Blank& blank) const {
  return *std::ranges::find(run_.orders, blank.order, &Order::id);
}

Life::Group Life::alive() {
  Group out;
  for (Blank& blank : blanks_)
    if (!blank.out) out.push_back(&blank);
  return out;
}

void Life::add_wrong(const std::string& kind, const std::string& about, const std::string& what) {
  judge_.note_wrong({kind, about, what, replay(compiled_, desk_.taken(), about, now_)});
}

}  // namespace simulated
