#include "write/deflated.h"

#include <zlib.h>

#include <new>

namespace blankwright {
namespace {

/// At zlib's own level, the sixth, a page of tags takes twice the time to come out a fifth smaller.
int level_of(Deflate effort) { return effort == Deflate::quick ? 3 : Z_BEST_COMPRESSION; }

}  // namespace

std::string deflated(std::string_view bytes, Deflate effort) {
  uLongf size = compressBound(static_cast<uLong>(bytes.size()));
  std::string out(size, '\0');
  const int status =
      compress2(reinterpret_cast<Bytef*>(out.data()), &size, reinterpret_cast<const Bytef*>(bytes.data()),
                static_cast<uLong>(bytes.size()), level_of(effort));
  if (status != Z_OK) throw std::bad_alloc{};  // the bound leaves no other way to fail
  out.resize(size);
  return out;
}

std::optional<std::string> inflated(std::string_view bytes, std::size_t size) {
  std::string out(size, '\0');
  uLongf got = static_cast<uLong>(size);
  const int status = uncompress(reinterpret_cast<Bytef*>(out.data()), &got,
                                reinterpret_cast<const Bytef*>(bytes.data()), static_cast<uLong>(bytes.size()));
  if (status != Z_OK || got != size) return std::nullopt;
  return out;
}

}  // namespace blankwright
