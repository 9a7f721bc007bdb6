#include "write/real_files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <malloc.h>
#include <sys/file.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <stdexcept>
#include <system_error>
#include <utility>

#include "diagnose/failure.h"

namespace blankwright {
namespace {

std::string system_words(int error) { return std::generic_category().message(error); }

/// An open file of the system, closed when left.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_{number} {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  explicit operator bool() const { return number_ >= 0; }
  int number() const { return number_; }
  /// Some file systems tell of a failed write only here.
  bool close() { return ::close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

ReadFault fault_of(int error) {
  using Kind = ReadFault::Kind;
  switch (error) {
    case ENOENT:
    case ENOTDIR:
      return {Kind::absent, "no such file"};
    case EISDIR:
      return {Kind::folder, "is a folder"};
    case EACCES:
    case EPERM:
      return {Kind::not_permitted, "permission to read denied"};
    default:
      return {Kind::failed, system_words(error)};
  }
}

/// Is it what another program is writing at the same time, as in `enter --csv /dev/stdin`? That is waited for.
bool is_handed_over(const std::string& path) { return path == "/dev/stdin" || path.starts_with("/dev/fd/"); }

constexpr std::string_view part_begin = ".blankwright-";
constexpr std::string_view part_end = ".part";

/// Removes what runs that were cut short have left in a folder. A run holds a lock on its own as long as it lives.
void remove_left_parts(const std::string& folder) {
  std::error_code error;
  for (std::filesystem::directory_iterator at{folder, error}, end; !error && at != end; at.increment(error)) {
    const std::string name = at->path().filename().string();
    if (!name.starts_with(part_begin) || !name.ends_with(part_end)) continue;
    const Descriptor left{::open(at->path().c_str(), O_RDONLY | O_NONBLOCK | O_NOFOLLOW | O_CLOEXEC)};
    if (left && ::flock(left.number(), LOCK_EX | LOCK_NB) == 0) ::unlink(at->path().c_str());
  }
}

/// A file beside the one to write, under a name that nobody else has; removed unless it took its place.
class FileBeside {
 public:
  explicit FileBeside(const std::string& path) : path_{path} {
    remove_left_parts(folder_of(path));
    for (int k = 0;; ++k) {
      name_ = fmt::format("{}/{}{}-{}{}", folder_of(path), part_begin, ::getpid(), k, part_end);
      number_ = ::open(name_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
      if (number_ < 0 && errno != EEXIST) throw WorldError{path_, system_words(errno)};
      if (number_ >= 0 && is_mine()) break;
    }
  }
  ~FileBeside() {
    if (!in_place_) ::unlink(name_.c_str());
    if (lock_ >= 0) ::close(lock_);
  }
  FileBeside(const FileBeside&) = delete;
  FileBeside& operator=(const FileBeside&) = delete;

  void fill(std::string_view bytes) {
    Descriptor file{number_};
    while (!bytes.empty()) {
      const ssize_t written = ::write(file.number(), bytes.data(), bytes.size());
      if (written < 0 && errno == EINTR) continue;
      if (written < 0) throw WorldError{path_, system_words(errno)};
      bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    if (::fsync(file.number()) != 0 || !file.close()) throw WorldError{path_, system_words(errno)};
  }
  void take_place() {
    if (std::rename(name_.c_str(), path_.c_str()) != 0) throw WorldError{path_, system_words(errno)};
    in_place_ = true;
  }

 private:
  /// Locks it; false, and closed, where another run took it for one that was left before it was locked.
  bool is_mine() {
    struct ::stat seen {};
    const bool locked = ::flock(number_, LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK;
    if (locked && ::fstat(number_, &seen) == 0 && seen.st_nlink > 0) {
      lock_ = ::fcntl(number_, F_DUPFD_CLOEXEC, 0);
      return true;
    }
    ::close(std::exchange(number_, -1));
    return false;
  }

  std::string path_;
  std::string name_;
  int number_ = -1;
  int lock_ = -1;  // holds the lock until the file is in its place
  bool in_place_ = false;
};

/// The names of those in a folder that are wanted, sorted.
template <class Wanted>
std::vector<std::string> names_in(const std::string& path, Wanted wanted) {
  std::vector<std::string> names;
  std::error_code error;
  if (!std::filesystem::is_directory(path, error)) return names;
  for (std::filesystem::directory_iterator at{path, error}, end; !error && at != end; at.increment(error)) {
    std::error_code gone;
    if (wanted(*at, gone)) names.push_back(at->path().filename().string());
  }
  if (error) throw WorldError{path, error.message()};
  std::ranges::sort(names);
  return names;
}

}  // namespace

tl::expected<std::string, ReadFault> RealFiles::read(const std::string& path, std::size_t at_most) const {
  // Not blocking: opening a named pipe would wait for somebody who writes to it.
  const Descriptor file{::open(path.c_str(), O_RDONLY | O_CLOEXEC | (is_handed_over(path) ? 0 : O_NONBLOCK))};
  if (!file) return tl::make_unexpected(fault_of(errno));
  struct ::stat seen {};
  if (::fstat(file.number(), &seen) != 0) return tl::make_unexpected(fault_of(errno));
  if (!S_ISREG(seen.st_mode) && !S_ISDIR(seen.st_mode) && !is_handed_over(path)) {
    return tl::make_unexpected(ReadFault{ReadFault::Kind::folder, "is a pipe or a device, not a file"});
  }
  std::string bytes;
  std::array<char, 65536> part;
  while (true) {
    const ssize_t got = ::read(file.number(), part.data(), part.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return tl::make_unexpected(fault_of(errno));
    if (got == 0) return bytes;
    bytes.append(part.data(), static_cast<std::size_t>(got));
    if (bytes.size() > at_most) {
      return tl::make_unexpected(
          ReadFault{ReadFault::Kind::too_large, fmt::format("is larger than {} bytes", at_most)});
    }
  }
}

void RealFiles::write_whole(const std::string& path, std::string_view bytes) {
  // Opened first: where the folder cannot be synced, nothing is written.
  const Descriptor folder{::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)};
  if (!folder) throw WorldError{path, system_words(errno)};
  if (is_folder(path)) throw WorldError{path, "is a folder"};
  FileBeside beside{path};
  beside.fill(bytes);
  beside.take_place();
  // Some file systems cannot sync a folder and say EINVAL; they keep their names safe in another way, or not at all.
  if (::fsync(folder.number()) != 0 && errno != EINVAL) throw WorldError{path, system_words(errno)};
}

void RealFiles::make_folders(const std::string& path) {
  std::error_code error;
  std::filesystem::create_directories(path, error);
  if (error) throw WorldError{path, error.message()};
}

bool RealFiles::exists(const std::string& path) const {
  std::error_code error;
  return std::filesystem::exists(path, error);
}

bool RealFiles::is_folder(const std::string& path) const {
  std::error_code error;
  return std::filesystem::is_directory(path, error);
}

std::vector<std::string> RealFiles::folders_in(const std::string& path) const {
  return names_in(
      path, [](const std::filesystem::directory_entry& at, std::error_code& gone) { return at.is_directory(gone); });
}

std::vector<std::string> RealFiles::files_in(const std::string& path) const {
  return names_in(path, [](const std::filesystem::directory_entry& at, std::error_code& gone) {
    return at.is_regular_file(gone);
  });
}

std::string RealFiles::absolute(const std::string& path) const {
  std::error_code error;
  const std::filesystem::path found = std::filesystem::absolute(path, error);
  if (error) throw WorldError{path, error.message()};
  return found.lexically_normal().string();
}

std::int64_t SystemClock::now_unix() const {
  // Not std::time, which goes by the last tick and may still tell the second before.
  const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  return now.time_since_epoch().count();
}

std::uint32_t SystemChance::below(std::uint32_t count) {
  try {
    std::random_device device;
    return std::uniform_int_distribution<std::uint32_t>{0, count - 1}(device);
  } catch (const std::runtime_error& error) {  // the machine has no source of chance
    throw WorldError{"random numbers", error.what()};
  }
}

std::optional<std::string> environment_value(const std::string& name) {
  const char* value = std::getenv(name.c_str());
  return value == nullptr ? std::nullopt : std::optional<std::string>{value};
}

void keep_freed_memory() {
#ifdef M_TRIM_THRESHOLD  // glibc's allocator
  constexpr int most_kept = 64 << 20;
  ::mallopt(M_TRIM_THRESHOLD, most_kept);
#endif
}

std::string machine_zone() {
  const std::string named = environment_value("TZ").value_or("");
  std::array<char, 1024> target{};
  const ssize_t length = ::readlink("/etc/localtime", target.data(), target.size());
  const std::string path = !named.empty() ? named
                           : length > 0   ? std::string(target.data(), static_cast<std::size_t>(length))
                                          : "";
  constexpr std::string_view folder = "zoneinfo/";
  const auto at = path.find(folder);
  const std::string zone = at != std::string::npos ? path.substr(at + folder.size()) : named;
  return zone.starts_with(':') ? zone.substr(1) : zone;
}

std::string program_file() {
  std::error_code unknown;
  return std::filesystem::read_symlink("/proc/self/exe", unknown).string();
}

Terminal terminal_of(Stream stream) {
  const int number = stream == Stream::input    ? STDIN_FILENO
                     : stream == Stream::output ? STDOUT_FILENO
                                                : STDERR_FILENO;
  if (::isatty(number) == 0) return {};
  winsize size{};
  const bool known = ::ioctl(number, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
  const bool colour = environment_value("NO_COLOR").value_or("").empty() && environment_value("TERM") != "dumb";
  return {.attached = true, .colour = colour, .width = known ? size.ws_col : 80};
}

}  // namespace blankwright
