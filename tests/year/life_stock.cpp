#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "life.h"

namespace simulated {

void Life::keep_stock() {
  for (const Blank& blank : blanks_)
    if (blank.turned && !blank.sent && !blank.out && desk_.evidence({blank.id}, {}) == Evidence::right)
      stock_.push_back({blank, order_of(blank)});
}

/// Pieces from stock are promised to the order; then as many blanks fewer are needed, and their IDs are taken back.
void Life::promise_stock() {
  if (!run_.from_stock || stock_.empty()) return;
  const Order order = run_.orders.front();
  std::vector<InStock> promised;
  for (const InStock& piece : stock_)
    if (piece.order.stations == order.stations && promised.size() < static_cast<std::size_t>(order.quantity))
      promised.push_back(piece);
  later(0.1);
  let_slip(false);  // the count of those that are then not needed is held against it
  for (const InStock& piece : promised) note("promised", piece.blank, {{"order", order.id}});
  hand_in();
  let_slip(true);
  later(0.1);
  const std::vector<std::string> arguments{"compile", order.id + ".toml", "--only", "traveller,blanks"};
  const Answer answer = program_.run(now_, arguments);
  compiled_.push_back("[" + text(now_) + "] " + as_typed(arguments));
  if (!answer.well()) return add_wrong("order refused", order.id, answer.text);
  judge_.count("promised from stock", static_cast<int>(promised.size()));
  // Those that are named as not needed any more; blanks of the order alone can be meant.
  int withdrawn = 0;
  for (Blank& blank : blanks_) {
    if (blank.order != order.id || answer.text.find(blank.id) == std::string::npos) continue;
    note("withdrawn", blank);
    blank.out = true;
    ++withdrawn;
  }
  hand_in();
  if (withdrawn < static_cast<int>(promised.size()))
    add_wrong("stock not counted", order.id,
              fmt::format("{} pieces promised from stock, {} blanks named as not needed: {}", promised.size(),
                          withdrawn, answer.text));
  for (InStock& piece : promised) {
    std::erase_if(stock_, [&](const InStock& other) { return other.blank.id == piece.blank.id; });
    std::erase_if(blanks_, [&](const Blank& other) { return other.id == piece.blank.id; });
    piece.blank.order = order.id;
    blanks_.push_back(piece.blank);
  }
}

/// The client wants it 10 mm thicker, and the blanks are sawn: none of them can become that, and paper has to say so.
void Life::change_order() {
  hand_in();
  Order& order = run_.orders.front();
  for (Station& station : order.stations)
    station.diameter_mm += shop_.units == Units::metric ? 10 : 0.375 * mm_per_in;
  later(1);
  program_.write(order.id + ".toml", job_file(order, shop_));
  const std::vector<std::string> look{"compile", order.id + ".toml", "--only", "traveller,blanks"};
  const Answer named = program_.run(now_, look);
  compiled_.push_back("[" + text(now_) + "] " + as_typed(look));
  if (!named.well()) return add_wrong("order refused", order.id, named.text);
  judge_.count("orders changed after sawing");
  for (const Blank& blank : blanks_) {
    if (blank.order != order.id || blank.out || desk_.evidence({blank.id}, {"sawn"}) != Evidence::right) continue;
    const bool impossible = std::min(blank.width_mm, blank.depth_mm) < largest_diameter_mm(order.stations);
    if (impossible && named.text.find(blank.id) == std::string::npos)
      add_wrong("bad released", blank.id, "too thin for the order as it was changed, and not named: " + named.text);
  }
  later(1);
  const std::vector<std::string> replace{"compile", "--replace", order.id + ".toml", "--only", "traveller,blanks"};
  const Answer replaced = program_.run(now_, replace);
  compiled_.push_back("[" + text(now_) + "] " + as_typed(replace));
  if (!replaced.well()) return add_wrong("order refused", order.id, replaced.text);
  // One whose sawing nobody has entered yet is still to be sawn, as far as the program can know.
  std::size_t unknown = 0;
  for (Blank& blank : blanks_) {
    if (blank.order != order.id || blank.out) continue;
    unknown += !blank.witness && desk_.evidence({blank.id}, {"sawn"}) != Evidence::right;
    scrap(blank, "order changed");
  }
  hand_in();
  const std::size_t before = blanks_.size();
  read_order(order, replaced.text);
  Group fresh;
  for (std::size_t i = before; i < blanks_.size(); ++i) fresh.push_back(&blanks_[i]);
  if (fresh.size() + unknown < static_cast<std::size_t>(order.quantity))
    add_wrong("not replaced", order.id,
              fmt::format("{} new blanks for {}: {}", fresh.size(), order.quantity, replaced.text));
  saw_blanks(fresh);
}

}  // namespace simulated
