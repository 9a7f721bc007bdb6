#include "entries/record.h"

#include <algorithm>

namespace blankwright {
namespace {

template <class Blank>
bool is_lost(const Blank& blank) {
  return blank.stage == Stage::scrapped || blank.result == "fail";
}

}  // namespace

OrderSoFar so_far(const Record& record, int witnesses) {
  OrderSoFar out;
  int cut_open = 0;
  for (const BlankState& blank : record.blanks) {
    if (blank.promised != blank.order || is_lost(blank)) {
      ++out.lost;
    } else if (blank.stage == Stage::cut_open) {
      ++cut_open;
    } else if (blank.stage >= Stage::stud_set) {
      ++out.good;
    }
  }
  out.lost += std::max(0, cut_open - witnesses);
  for (const BlankSummary& blank : record.promised) {
    out.from_stock += is_lost(blank) || blank.stage == Stage::cut_open ? 0 : 1;
  }
  return out;
}

}  // namespace blankwright
