#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace blankwright {

/// Why a file could not be read.
struct ReadFault {
  enum class Kind { absent, folder, not_permitted, too_large, failed };
  Kind kind = Kind::failed;
  std::string words;  ///< what to tell the user after the path: "is a folder"
};

/// The disk, handed in, so that a test can run the whole program in memory. Paths are as the user gave them.
class Files {
 public:
  Files() = default;
  virtual ~Files() = default;
  Files(const Files&) = delete;
  Files& operator=(const Files&) = delete;

  /// The bytes of a file of at most `at_most` bytes. A fault is not thrown, since the reader makes a diagnostic of
  /// it.
  virtual tl::expected<std::string, ReadFault> read(const std::string& path, std::size_t at_most) const = 0;
  /// Puts a file in place whole, on disk when this returns. Throws WorldError; then what was there before is still
  /// there, and nothing else. Its folder has to exist. A link at `path` is replaced, not followed.
  virtual void write_whole(const std::string& path, std::string_view bytes) = 0;
  /// Makes a folder and those above it, where they are absent. Throws WorldError.
  virtual void make_folders(const std::string& path) = 0;
  /// Whether there is a file or folder. False also where that cannot be seen.
  virtual bool exists(const std::string& path) const = 0;
  virtual bool is_folder(const std::string& path) const = 0;
  /// The names of the folders in a folder, sorted; none where it is not there. Throws WorldError where it cannot be
  /// looked into.
  virtual std::vector<std::string> folders_in(const std::string& path) const = 0;
  /// The names of the files in a folder, likewise.
  virtual std::vector<std::string> files_in(const std::string& path) const = 0;
  /// The path from the root. Throws WorldError where the present folder is gone.
  virtual std::string absolute(const std::string& path) const = 0;
};

/// The folder in which `path` stands: "orders" of "orders/0147.toml", "." of "0147.toml".
inline std::string folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path{path}.parent_path().string();
  return folder.empty() ? "." : folder;
}

/// The clock, handed in.
class Clock {
 public:
  Clock() = default;
  virtual ~Clock() = default;
  Clock(const Clock&) = delete;
  Clock& operator=(const Clock&) = delete;
  virtual std::int64_t now_unix() const = 0;  ///< seconds since 1970-01-01 UTC
};

/// The source of chance, handed in.
class Chance {
 public:
  Chance() = default;
  virtual ~Chance() = default;
  Chance(const Chance&) = delete;
  Chance& operator=(const Chance&) = delete;
  /// A whole number in [0, count), each as likely; count >= 1.
  virtual std::uint32_t below(std::uint32_t count) = 0;
};

/// Where the program's words go.
struct Terminal {
  bool attached = false;  ///< somebody looks at it; otherwise it is a file or a pipe
  bool colour = false;    ///< colours may be used
  int width = 80;         ///< columns, >= 1; 80 where it is not known
};

}  // namespace blankwright
