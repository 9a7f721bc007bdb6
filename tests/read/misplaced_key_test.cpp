#include <doctest/doctest.h>

#include "read/shop.h"

using namespace blankwright;

TEST_CASE("a key of the file's top that stands below a table is told where it belongs") {
  // TOML 1.0: what follows a [table] belongs to it until the next one, so this is an altitude of the hours.
  const std::string text =
      "format = 1\nname = \"Bench\"\nzone = \"UTC\"\n[hours]\nmonday = [\"08:00-12:00\"]\naltitude = \"320 m\"\n";
  Diagnostics said;
  CHECK_FALSE(read_shop(std::make_shared<const SourceText>(SourceText{"shop.toml", text}), said).has_value());
  const std::string words = rendered(said);
  CHECK(words.find("shop.toml:6:1: error: unknown key `altitude`") != std::string::npos);
  CHECK(words.find("`altitude` stands at the top of the file, above the first [table]") != std::string::npos);
}
