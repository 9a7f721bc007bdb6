#include "entries/checksum.h"

#include <doctest/doctest.h>

#include <string>
#include <string_view>

using namespace blankwright;

TEST_CASE("the checksum of bytes is the published CRC-32") {
  // The check value of CRC-32 (polynomial of ITU-T V.42 8.1.1.6.2, reflected): of "123456789", 0xCBF43926.
  Checksum sum;
  sum.add_bytes("1234");
  sum.add_bytes("");
  sum.add_bytes(std::string_view{});
  sum.add_bytes("56789");
  CHECK(sum.value() == 0xCBF43926);
}

TEST_CASE("rows that differ in where a value ends, in its kind or in its absence have different checksums") {
  using namespace std::string_literals;
  const auto none = std::optional<std::string>{};
  CHECK(Checksum::of("ab"s, "c"s).value() != Checksum::of("a"s, "bc"s).value());
  CHECK(Checksum::of(""s).value() != Checksum::of(none).value());
  CHECK(Checksum::of(std::int64_t{0}).value() != Checksum::of(0.0).value());
  CHECK(Checksum::of(0.0).value() == Checksum::of(-0.0).value());
  CHECK(Checksum::of(std::optional{1.5}).value() == Checksum::of(1.5).value());
}

TEST_CASE("how a row is counted is what registers of today hold") {
  // By hand: the letter, eight bytes with the lowest first, the text's bytes; their CRC-32 by Python's zlib.crc32.
  CHECK(Checksum::of(std::int64_t{258}, std::string{"ab"}, std::optional<double>{}, 1.0).value() == 0x258A2797);
}
