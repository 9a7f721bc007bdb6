// The length behind width and depth, which a card asks for and an entry need not have. Through the program.

#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "workshop.h"

using namespace blankwright;

namespace {

/// What holds of a blank's sizes.
std::string sizes(Workshop& w, const std::string& id) {
  std::string all;
  const auto asked = nlohmann::json::parse(w.run({"ask", "blank", id, "--as", "json"}).out);
  for (const auto& row : asked.at("rows")) {
    if (row.at("what") == "measured" && row.at("valid") == "yes") all += row.at("says").get<std::string>() + ";";
  }
  return all;
}

}  // namespace

TEST_CASE("at the bench a third figure behind width and depth is the length, and the next blank follows") {
  Workshop w;
  const auto lines = w.bench(
      "measured\nNG7-32GX\n45\n44.8\n128\n"
      "JF2-T4JV\n45\n44.8\nSG8-CRCT\n45\n44.8\nlength=12.8 cm\n");
  REQUIRE(lines.size() == 12);
  CHECK(lines.at(4).starts_with("OK NG7-32GX measured: width 45.00 mm, depth 44.80 mm, length 128.00 mm"));
  CHECK(lines.at(5) == "OK JF2-T4JV: width in mm?");
  CHECK(lines.at(11).starts_with("OK SG8-CRCT measured: width 45.00 mm, depth 44.80 mm, length 128.00 mm"));
  CHECK(sizes(w, "NG7-32GX") == "width 45.00 mm, depth 44.80 mm, length 128.00 mm, replaces entry 11;");
  CHECK(sizes(w, "JF2-T4JV") == "width 45.00 mm, depth 44.80 mm;");
  CHECK(w.run({"bench", "--help"}).out.find("after width and depth: the length") != std::string::npos);
}

TEST_CASE("a length stands behind the sizes of one blank alone, and undo takes them back with it") {
  Workshop w;
  const auto lines = w.bench("measured\nNG7-32GX\n45\n44.8\n128\n128\nundo\nJF2-T4JV\n45\n44.8\nundo\n128\n");
  REQUIRE(lines.size() == 12);
  CHECK(is_refused(lines.at(5)));  // it has its length
  CHECK(lines.at(6).starts_with("OK taken back: NG7-32GX measured"));
  CHECK(sizes(w, "NG7-32GX").empty());
  CHECK(lines.at(10).starts_with("OK taken back: JF2-T4JV measured"));
  CHECK(is_refused(lines.at(11)));
  CHECK(sizes(w, "JF2-T4JV").empty());
}
