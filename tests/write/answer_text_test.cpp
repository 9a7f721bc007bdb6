#include "write/answer_text.h"

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

using namespace blankwright;

namespace {

Answer answer() {
  return {{{"order", "T-1"}, {"client", "\u0141ucja"}},
          {"blank", "reason"},
          {{"K7T-4X54", "=HYPERLINK(\"x\")"}, {"NG7-32GX", "-0.3"}, {"JF2-T4JV", "a, \"b\"\x1B[2J"}}};
}

}  // namespace

TEST_CASE("a terminal gets aligned columns and nothing that steers it") {
  CHECK(answer_as_text(answer()) ==
        "order   T-1\n"
        "client  \u0141ucja\n"
        "\n"
        "blank     reason\n"
        "K7T-4X54  =HYPERLINK(\"x\")\n"
        "NG7-32GX  -0.3\n"
        "JF2-T4JV  a, \"b\"?[2J\n");
  CHECK(answer_as_text({{}, {"blank"}, {}}) == "blank\n(none)\n");
}

TEST_CASE("CSV is that of RFC 4180, and no cell is a spreadsheet's formula") {
  // OWASP, CSV injection: cells that begin with = + - @, tab or CR are taken for formulas (from memory); numbers are
  // not.
  CHECK(answer_as_csv(answer()) ==
        "blank,reason\r\n"
        "K7T-4X54,\"'=HYPERLINK(\"\"x\"\")\"\r\n"
        "NG7-32GX,-0.3\r\n"
        "JF2-T4JV,\"a, \"\"b\"\"\x1B[2J\"\r\n");
  for (const std::string cell : {"=1", "+cmd", "-cmd", "@x", "\tx"}) {
    CAPTURE(cell);
    const std::string csv = answer_as_csv({{}, {"a"}, {{cell}}});
    CHECK(csv.find("'" + cell) != std::string::npos);
  }
}

TEST_CASE("JSON holds facts and rows by name") {
  const auto json = nlohmann::json::parse(answer_as_json(answer()));
  CHECK(json.at("facts").at("client") == "\u0141ucja");
  CHECK(json.at("rows").at(0).at("reason") == "=HYPERLINK(\"x\")");
}
