// Files as they were written when a format was made are read for good; those in tests/read/formats are never changed.

#include <doctest/doctest.h>

#include <fstream>
#include <iterator>

#include "texts.h"

using namespace blankwright;

namespace {

std::string stored(const std::string& name) {
  std::ifstream file{BLANKWRIGHT_SOURCE_DIR "/tests/read/formats/" + name, std::ios::binary};
  REQUIRE_MESSAGE(file.good(), name);
  return {std::istreambuf_iterator<char>{file}, {}};
}

}  // namespace

TEST_CASE("job, shop and template of each format are read without a word") {
  for (const auto& [kind, name] : {std::pair{FileKind::job, "job-1.toml"}, std::pair{FileKind::shop, "shop-1.toml"},
                                   std::pair{FileKind::sheets, "template-1.toml"}}) {
    CAPTURE(name);
    const Diagnostics said = said_of(kind, stored(name));
    CHECK_MESSAGE(said.all().empty(), rendered(said));
  }
}
