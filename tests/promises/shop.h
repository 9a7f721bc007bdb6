#pragma once

#include <map>
#include <string>
#include <vector>

#include "../year/chance.h"
#include "../year/moment.h"
#include "../year/program.h"

namespace promises_kept {

using simulated::Moment;

/// A promise that was given, and what became of it.
struct Given {
  std::string order, date;  ///< "2027-06-01"; "not within three years" where it was none
  bool by_record = false;   ///< it rested on orders that were through
  bool holds = false;
};

/// Two people who saw and set studs, and turn, one after the other what comes first; what they do takes longer or
/// shorter than the shop file says, and of six blanks about one is lost. The program is asked for a date for each
/// order when it comes, prints it then, and is told each morning what was done.
class Shop {
 public:
  Shop(const std::filesystem::path& program, const std::filesystem::path& folder, unsigned seed);

  /// Lives until so many orders are through.
  std::vector<Given> live(int orders);

 private:
  struct Row {
    Moment at;
    std::string cells;  ///< of the table of entries, without its time
  };
  struct Order {
    std::string id;
    int quantity = 0, good = 0;
    std::size_t blanks = 0;  ///< that were given out so far
    Moment known;            ///< when it is seen how many of them are good
    Moment through;          ///< when the last that was wanted was turned
    std::string promised;
    bool by_record = false;
    bool is_through() const { return good >= quantity; }
  };

  void take_in(int number, Moment now);
  void ask_for_date(Order& order, Moment now);
  void compile(Order& order, Moment now);
  /// Work on blanks from now on, behind all that was begun before.
  void begin(Order& order, const std::vector<std::string>& blanks, Moment now);
  void enter(Moment now);
  std::string job_of(const Order& order) const { return order.id + ".toml"; }

  simulated::Program program_;
  simulated::Chance chance_;
  std::vector<Order> orders_;
  std::vector<Row> to_enter_;
  Moment keeper_{}, turner_{};  ///< free from
};

}  // namespace promises_kept
