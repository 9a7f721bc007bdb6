#pragma once

#include <optional>

#include "write/files.h"

namespace blankwright {

// The machine itself. All calls to the system stand in real_files.cpp; only main makes these.

class RealFiles final : public Files {
 public:
  tl::expected<std::string, ReadFault> read(const std::string& path, std::size_t at_most) const override;
  void write_whole(const std::string& path, std::string_view bytes) override;
  void make_folders(const std::string& path) override;
  bool exists(const std::string& path) const override;
  bool is_folder(const std::string& path) const override;
  std::vector<std::string> folders_in(const std::string& path) const override;
  std::vector<std::string> files_in(const std::string& path) const override;
  std::string absolute(const std::string& path) const override;
};

class SystemClock final : public Clock {
 public:
  std::int64_t now_unix() const override;
};

/// Drawn from the system's random numbers, which no two machines or moments share.
class SystemChance final : public Chance {
 public:
  std::uint32_t below(std::uint32_t count) override;
};

/// The value of an environment variable; none where it is not set.
std::optional<std::string> environment_value(const std::string& name);

/// Lets the process keep the memory that it frees. The allocator would give it back after each order on all threads
/// but the first, only to ask for it again: a third of two threads' time. An order needs little, so little is kept.
void keep_freed_memory();

enum class Stream { input, output, errors };

/// The machine's time zone by its IANA name: of TZ, or of the file that /etc/localtime leads to; empty where neither
/// names one.
std::string machine_zone();

/// The path of the program's own file, from the root; empty where the system does not tell it.
std::string program_file();

/// What a standard stream of the program leads to. Colours are off where NO_COLOR is set and not empty
/// (no-color.org, from memory), and on a terminal that calls itself "dumb".
Terminal terminal_of(Stream stream);

}  // namespace blankwright
