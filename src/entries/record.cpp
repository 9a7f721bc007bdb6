#include "entries/record.h"

namespace blankwright {
namespace {

template <class Blank>
bool is_lost(const Blank& blank) {
  return blank.stage == Stage::scrapped || blank.result == "fail";
}

}  // namespace

OrderSoFar so_far(const Record& record) {
  OrderSoFar out;
  for (const BlankState& blank : record.blanks) {
    if (blank.witness) continue;
    if (blank.promised != blank.order || is_lost(blank) || blank.stage == Stage::cut_open) {
      ++out.lost;
    } else if (blank.stage >= Stage::stud_set) {
      ++out.good;
    }
  }
  for (const BlankSummary& blank : record.promised) {
    out.from_stock += is_lost(blank) || blank.stage == Stage::cut_open ? 0 : 1;
  }
  return out;
}

}  // namespace blankwright
