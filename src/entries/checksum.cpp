#include "entries/checksum.h"

#include <zlib.h>

#include <array>
#include <bit>

namespace blankwright {

void Checksum::add_bytes(std::string_view bytes) {
  if (bytes.empty()) return;  // a null pointer would ask zlib for the sum of nothing, and begin anew
  sum_ = static_cast<std::uint32_t>(crc32_z(sum_, reinterpret_cast<const Bytef*>(bytes.data()), bytes.size()));
}

void Checksum::add_head(char kind, std::uint64_t bits) {
  std::array<char, 9> head{kind};
  for (std::size_t i = 1; i < head.size(); ++i, bits >>= 8U) head[i] = static_cast<char>(bits & 0xFFU);
  add_bytes({head.data(), head.size()});
}

void Checksum::add(std::int64_t value) { add_head('I', static_cast<std::uint64_t>(value)); }

void Checksum::add(double value) { add_head('D', std::bit_cast<std::uint64_t>(value + 0.0)); }

void Checksum::add(std::string_view text) {
  add_head('T', text.size());
  add_bytes(text);
}

void Checksum::add_none() { add_head('N', 0); }

}  // namespace blankwright
