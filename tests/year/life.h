#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "chance.h"
#include "desk.h"
#include "judge.h"
#include "order.h"
#include "program.h"
#include "sheets.h"
#include "shop.h"
#include "truths.h"
#include "wood.h"

namespace simulated {

/// What is made to go wrong on purpose in a run, by the numbers of the unsafe answers; what sheets can do wrong is
/// provoked by the orders themselves.
enum class Provoke { nothing, load_without_witness, turned_against_axis, bath_against_gate, long_vacuum };

/// Orders that are compiled and made together.
struct Run {
  std::string name;
  std::vector<Order> orders;
  Provoke provoke = Provoke::nothing;
  bool from_stock = false;  ///< the first order is made like one of which pieces are left, if there are any
  bool changes = false;     ///< the client wants it thicker once its blanks are sawn
};

/// A sound piece that nobody took, and the form that it has.
struct InStock {
  Blank blank;
  Order order;
};

/// What became of the pieces of a run.
struct Made {
  int wanted = 0, started = 0, good = 0;
};

/// Makes runs of orders, one after the other, by what paper and answers say, and has each verdict judged.
class Life {
 public:
  Life(const Shop& shop, Program& program, Judge& judge, Chance chance, Moment start);
  void live(const Run& run);
  Moment now() const { return now_; }
  void wait_until(Moment moment) { go_to(moment); }
  int blanks_made() const { return blanks_made_; }
  Made made() const;  ///< in the last run
  void make_no_slips() { slips_ = false; }
  const Desk& desk() const { return desk_; }

 private:
  using Group = std::vector<Blank*>;

  // life.cpp
  bool prepare();
  void judge_given_blank(const Order& order);
  void judge_dyes();
  // life_paper.cpp
  void judge_tags(const Order& order);
  void judge_cards(const Order& order);
  void judge_cards_of_loads();
  void read_order(const Order& order, const std::string& messages);
  void saw_blanks(const Group& group);
  void close();
  // life_stock.cpp
  void promise_stock();
  void keep_stock();
  void change_order();
  // life_wood.cpp
  void dry(const Group& group, const std::string& load, double hours, bool seals);
  void take_out_of_drying(const Group& group);
  void seal(const Group& group);
  void weigh_what_lay(const Group& group);
  void bathe(const Group& group, const std::string& name, int round);
  void run_bath(const Group& group, const std::string& bath, bool first);
  void tell_of_bath_against_gate(const Group& hot);
  void soaked(const Group& group, const std::string& bath, int round);
  // life_oven.cpp
  void cure(const Group& group, const std::string& bath);
  void cure_load(const Group& load, const std::string& name, bool hurried);
  struct Probe {  ///< a thermometer's place
    const Blank* in;
    std::vector<double> core_C;  ///< minute by minute
  };
  std::vector<Probe> probes_in(const Group& load, const std::function<double(double)>& air_C);
  void wait_for_load(const Group& load, const std::string& name, const std::function<double(double)>& air_C,
                     Moment in);
  std::vector<double> core_of(const Blank& blank, const std::function<double(double)>& air_C, int minutes) const;
  void weigh_cured_and_cut(const Group& group);
  void cut_open(Blank& blank);
  // life_bore.cpp
  void bore(const Group& group);
  void glue_and_turn(const Group& group);
  void tighten_dummy(const Blank& blank);
  void inspect_and_send(const Group& group);
  std::vector<std::pair<std::string, std::string>> rod_on(const Blank& blank);

  Known truth_of(const Blank& blank) const;
  /// Judges a blank before a step, and tells what was said of it, in the end where a good one was held.
  Said judged(Step step, const Blank& blank, const Known& known, const std::vector<std::string>& subjects,
              const std::vector<std::string>& kinds);
  std::vector<std::string> witnesses_of(const Blank& blank) const;  ///< of its bath and its load
  // life_obey.cpp
  Said obeyed(Step step, const Blank& blank, bool shown);
  Blank* named_to_cut(const Blank& blank, const std::vector<std::string>& lines);
  void do_again(Step step, const Blank& blank);
  bool is_alone_in_load(const Blank& blank) const;

  // life_voices.cpp
  void ask_elsewhere(const Group& group);
  std::map<std::string, bool> held_on_page();

  void scrap(Blank& blank, const std::string& why);
  void note(const std::string& kind, const Blank& blank, std::vector<std::pair<std::string, std::string>> says = {});
  void note_of(const std::string& kind, std::vector<std::pair<std::string, std::string>> says);
  void hand_in() { desk_.hand_in(now_); }
  /// Slips are made again, where this run has any, or not.
  void let_slip(bool may) { desk_.let_slip(may && slips_ && run_.provoke == Provoke::nothing); }
  void later(double hours);  ///< all wood lies as it lies meanwhile
  /// What somebody is at for so long, so that no two things happen to a blank in one minute.
  void work(int minutes) { later(minutes / 60.0); }
  void go_to(Moment moment);
  void next_morning();
  const Order& order_of(const Blank& blank) const;
  const Sheets& sheets_of(const Blank& blank) const { return sheets_.at(blank.order); }
  Group alive();
  void add_wrong(const std::string& kind, const std::string& about, const std::string& what);

  // What instruments show; their error is cut off at what is said of them: scale 0.1 g, caliper and rod 0.1 mm,
  // thermometer 1 K, a third of that being the spread.
  double mass_error_g() { return chance_.error(0.1 / 3); }
  std::string read_mass(const Blank& blank) { return mass_text(mass_g(blank) + mass_error_g(), shop_.units); }
  std::string read_length(double length_mm) { return length_text(length_mm + chance_.error(0.1 / 3), shop_.units); }
  std::string read_temperature(double temperature_C) {
    return temperature_text(temperature_C + chance_.error(1.0 / 3), shop_.units);
  }

  const Shop& shop_;
  Program& program_;
  Judge& judge_;
  Chance chance_;
  Chance early_;  ///< what is taken out of the drying oven too early
  Desk desk_;
  Moment now_;
  Run run_;
  std::vector<std::string> compiled_;
  std::vector<Blank> blanks_;
  std::map<std::string, Sheets> sheets_;
  std::vector<InStock> stock_;
  std::map<std::string, Moment> out_of_oven_;  ///< when a blank came out of the drying oven
  std::map<std::pair<Step, std::string>, int> steps_to_free_;
  int blanks_made_ = 0;
  bool slips_ = true;
  std::size_t refusals_told_ = 0;
};

}  // namespace simulated
