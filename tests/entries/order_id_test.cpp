#include "entries/order_id.h"

#include <doctest/doctest.h>

#include <string>

using blankwright::folded_order_id;
using blankwright::order_id_problem;
using blankwright::OrderIdFault;

namespace {

OrderIdFault order_fault_of(std::string_view id) {
  CAPTURE(id);
  const auto problem = order_id_problem(id);
  REQUIRE(problem.has_value());
  CHECK_FALSE(problem->text.empty());
  return problem->fault;
}

}  // namespace

TEST_CASE("order ids that can name a folder everywhere are accepted") {
  const std::string forty(40, 'x');
  for (const std::string& id : {std::string{"0147"}, std::string{"a"}, std::string{"2024-11.rev_B"},
                                std::string{".hidden"}, std::string{"1-"}, forty}) {
    CAPTURE(id);
    CHECK_FALSE(order_id_problem(id).has_value());
  }
}

TEST_CASE("order ids that cannot name a folder somewhere are refused") {
  CHECK(order_fault_of("") == OrderIdFault::empty);
  CHECK(order_fault_of(std::string(41, 'x')) == OrderIdFault::too_long);
  for (const char* id : {"-", "-rf", "--help"}) CHECK(order_fault_of(id) == OrderIdFault::leading_hyphen);
  CHECK(order_fault_of(".") == OrderIdFault::trailing_dot);
  CHECK(order_fault_of("..") == OrderIdFault::trailing_dot);
  CHECK(order_fault_of("0147.") == OrderIdFault::trailing_dot);
  for (const char* id : {"a/b", "a\\b", "a b", "a:b", "a*b", "Gürtel", "a\nb"})
    CHECK(order_fault_of(id) == OrderIdFault::character);
  CHECK(order_fault_of(std::string_view{"a\0b", 3}) == OrderIdFault::character);
}

TEST_CASE("names of devices are refused as order ids in any case and with any extension") {
  // Microsoft, "Naming Files, Paths, and Namespaces": CON, PRN, AUX, NUL, COM1 to COM9, LPT1 to LPT9 (from memory).
  for (const char* id :
       {"CON", "con", "Prn", "AUX", "nul", "COM1", "com9", "LPT1", "lpt9", "CON.txt", "nul.tar.gz"}) {
    CHECK(order_fault_of(id) == OrderIdFault::device_name);
  }
  for (const char* id : {"CONE", "COM0", "COM10", "LPT", "xCON", "x.CON", "com1-a", "auxiliary"}) {
    CAPTURE(id);
    CHECK_FALSE(order_id_problem(id).has_value());
  }
}

TEST_CASE("the message names the character that an order id cannot hold") {
  CHECK(order_id_problem("Gürtel")->text == "\"ü\" in an order id, which is made of A-Z a-z 0-9 . _ -");
  CHECK(order_id_problem("a b")->text.starts_with("a space in an order id"));
  CHECK(order_id_problem("a\x1B[2Jb")->text.starts_with("a control character in an order id"));
}

TEST_CASE("order ids that differ only in case fold to one") {
  CHECK(folded_order_id("Rev-B.2") == folded_order_id("rEV-b.2"));
  CHECK(folded_order_id("a_b") != folded_order_id("a-b"));
}
