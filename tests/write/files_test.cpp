#include <doctest/doctest.h>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/ioctl.h>
#include <unistd.h>
#include <filesystem>
#include <fstream>

#include <chrono>
#include <cstdlib>
#include <string>

#include "../child_process.h"
#include "../memory_files.h"
#include "../temporary_folder.h"
#include "diagnose/failure.h"
#include "write/real_files.h"

using namespace blankwright;
using Kind = ReadFault::Kind;

namespace {

ReadFault fault_of(const Files& disk, const std::string& path, std::size_t at_most = 1000) {
  const auto read = disk.read(path, at_most);
  REQUIRE_FALSE(read.has_value());
  CHECK_FALSE(read.error().words.empty());
  return read.error();
}

/// Whether `work` throws a WorldError. For child processes, where no test macro may stand.
template <class Work>
bool world_fails(const Work& work) {
  try {
    work();
  } catch (const WorldError&) {
    return true;
  }
  return false;
}

}  // namespace

TEST_CASE("the disk of the machine and the disk of the tests behave alike") {
  const TemporaryFolder folder;
  RealFiles real;
  MemoryFiles memory;
  memory.folders.insert(folder.path());
  Files* disks[] = {&real, &memory};
  for (Files* disk : disks) {
    CAPTURE(disk == &real);
    const std::string file = folder / "0147/plan.json";
    CHECK(fault_of(*disk, file).kind == Kind::absent);
    CHECK_FALSE(disk->exists(folder / "0147"));
    CHECK_THROWS_AS(disk->write_whole(file, "x"), WorldError);  // its folder is absent

    disk->make_folders(folder / "0147");
    disk->make_folders(folder / "0147");
    CHECK(disk->is_folder(folder / "0147"));
    const std::string bytes{"a\0b\n", 4};
    disk->write_whole(file, bytes);
    CHECK(disk->exists(file));
    CHECK_FALSE(disk->is_folder(file));
    CHECK(disk->read(file, 4) == bytes);
    CHECK(fault_of(*disk, file, 3).kind == Kind::too_large);
    CHECK(fault_of(*disk, file + "/x").kind == Kind::absent);
    disk->write_whole(file, "");
    CHECK(disk->read(file, 0) == "");

    CHECK(fault_of(*disk, folder / "0147").kind == Kind::folder);
    CHECK_THROWS_AS(disk->write_whole(folder / "0147", "x"), WorldError);
    CHECK_THROWS_AS(disk->make_folders(file), WorldError);
    CHECK_THROWS_AS(disk->make_folders(file + "/x"), WorldError);
  }
}

TEST_CASE("the folder of a file without one is the present folder") {
  CHECK(folder_of("0147.toml") == ".");
  CHECK(folder_of("orders/0147.toml") == "orders");
  CHECK(folder_of("/0147.toml") == "/");
  CHECK(RealFiles{}.absolute("/a/./b/../c") == "/a/c");
  CHECK(RealFiles{}.absolute("x") == (std::filesystem::current_path() / "x").string());
}

TEST_CASE("a file is replaced whole and leaves nothing beside it") {
  const TemporaryFolder folder;
  RealFiles disk;
  const std::string large(300'000, 'x');
  disk.write_whole(folder / "tags.pdf", large);
  disk.write_whole(folder / "tags.pdf", "new");
  CHECK(bytes_of(folder / "tags.pdf") == "new");
  CHECK(folder.size() == 1);
  // The longest name that a folder takes: the file beside must not need a longer one.
  const std::string longest(255, 'n');
  disk.write_whole(folder / longest, "x");
  CHECK(bytes_of(folder / longest) == "x");
}

TEST_CASE("what another run of the same number is writing beside a file is neither used nor removed") {
  const TemporaryFolder folder;
  RealFiles disk;
  const std::string left_over = folder / (".blankwright-" + std::to_string(::getpid()) + "-0.part");
  put_bytes(left_over, "theirs");
  const int theirs = ::open(left_over.c_str(), O_WRONLY | O_CLOEXEC);
  REQUIRE(::flock(theirs, LOCK_EX) == 0);
  disk.write_whole(folder / "plan.json", "ours");
  CHECK(bytes_of(left_over) == "theirs");
  ::close(theirs);
  CHECK(bytes_of(folder / "plan.json") == "ours");
}

TEST_CASE("a full disk leaves the old file and nothing else") {
  const TemporaryFolder folder;
  RealFiles disk;
  disk.write_whole(folder / "traveller.pdf", "old");
  const int result = in_child([&] {
    limit_file_size(4096);
    const std::string large(100'000, 'x');
    const bool old_refused = world_fails([&] { disk.write_whole(folder / "traveller.pdf", large); });
    const bool new_refused = world_fails([&] { disk.write_whole(folder / "tags.pdf", large); });
    return old_refused && new_refused ? 0 : 1;
  });
  CHECK(result == 0);
  CHECK(bytes_of(folder / "traveller.pdf") == "old");
  CHECK(folder.size() == 1);
}

TEST_CASE("a file or folder that may not be used is refused with the reason") {
  const TemporaryFolder folder;
  put_bytes(folder / "shop.toml", "secret");
  std::filesystem::permissions(folder / "shop.toml", std::filesystem::perms::none);
  std::filesystem::create_directory(folder / "orders");
  std::filesystem::permissions(folder / "orders", std::filesystem::perms{0555});
  const int result = in_child([&] {
    become_ordinary_user();
    RealFiles disk;
    const auto read = disk.read(folder / "shop.toml", 1000);
    if (read.has_value() || read.error().kind != Kind::not_permitted) return 1;
    if (!world_fails([&] { disk.write_whole(folder / "orders/plan.json", "x"); })) return 2;
    if (!world_fails([&] { disk.make_folders(folder / "orders/0147"); })) return 3;
    return 0;
  });
  CHECK(result == 0);
  CHECK(std::filesystem::is_empty(folder / "orders"));
}

TEST_CASE("the message of a failed write names the file asked for and not the one beside it") {
  const TemporaryFolder folder;
  RealFiles disk;
  try {
    disk.write_whole(folder / "absent/plan.json", "x");
    FAIL("written into a folder that is not there");
  } catch (const WorldError& error) {
    CHECK(std::string{error.what()} == (folder / "absent/plan.json") + ": No such file or directory");
  }
}

TEST_CASE("reading something endless stops at the size allowed") {
  const TemporaryFolder folder;
  put_bytes(folder / "large", "");
  std::filesystem::resize_file(folder / "large", 1'000'000'000'000);  // without a byte on the disk
  CHECK(fault_of(RealFiles{}, folder / "large", 100'000).kind == Kind::too_large);
}

TEST_CASE("the clock is the system's") {
  using std::chrono::system_clock;
  const auto before = system_clock::to_time_t(system_clock::now());
  const std::int64_t now = SystemClock{}.now_unix();
  CHECK(now >= before);
  CHECK(now <= before + 5);
}

TEST_CASE("a file or pipe is no terminal and gets no colours") {
  const int result = in_child([] {
    if (::dup2(::open("/dev/null", O_WRONLY), STDOUT_FILENO) < 0) return 1;
    const Terminal terminal = terminal_of(Stream::output);
    return !terminal.attached && !terminal.colour && terminal.width == 80 ? 0 : 2;
  });
  CHECK(result == 0);
}

TEST_CASE("a terminal has its own width and gets colours unless NO_COLOR is set") {
  const int result = in_child([] {
    const int terminal = ::posix_openpt(O_RDWR | O_NOCTTY);
    if (terminal < 0) return 97;  // a machine without pseudo-terminals, such as a bare chroot
    if (::grantpt(terminal) != 0 || ::unlockpt(terminal) != 0) return 1;
    const int end = ::open(::ptsname(terminal), O_RDWR | O_NOCTTY);
    const winsize size{24, 132, 0, 0};
    if (end < 0 || ::ioctl(terminal, TIOCSWINSZ, &size) != 0 || ::dup2(end, STDERR_FILENO) < 0) return 2;
    ::setenv("TERM", "xterm", 1);
    ::unsetenv("NO_COLOR");
    const Terminal plain = terminal_of(Stream::errors);
    if (!plain.attached || !plain.colour || plain.width != 132) return 3;
    ::setenv("NO_COLOR", "", 1);
    if (!terminal_of(Stream::errors).colour) return 4;
    ::setenv("NO_COLOR", "1", 1);
    if (terminal_of(Stream::errors).colour) return 5;
    ::unsetenv("NO_COLOR");
    ::setenv("TERM", "dumb", 1);
    return terminal_of(Stream::errors).colour ? 6 : 0;
  });
  if (result == 97) {
    MESSAGE("no pseudo-terminals here");
    return;
  }
  CHECK(result == 0);
}

TEST_CASE("what runs that were cut short have left is removed by the next that writes there, and of no other") {
  const TemporaryFolder folder;
  RealFiles disk;
  const std::string left = folder / ".blankwright-4711-0.part";
  const std::string held = folder / ".blankwright-4712-3.part";
  for (const std::string& path : {left, held, folder / "notes.part", folder / ".blankwright-notes"}) {
    std::ofstream{path} << "half";
  }
  const int other = ::open(held.c_str(), O_WRONLY | O_CLOEXEC);
  REQUIRE(::flock(other, LOCK_EX) == 0);  // as a run has it that is writing
  disk.write_whole(folder / "tags.pdf", "whole");
  CHECK_FALSE(std::filesystem::exists(left));
  CHECK(std::filesystem::exists(held));
  CHECK(std::filesystem::exists(folder / "notes.part"));
  CHECK(std::filesystem::exists(folder / ".blankwright-notes"));
  ::close(other);
  disk.write_whole(folder / "tags.pdf", "whole");
  CHECK_FALSE(std::filesystem::exists(held));
  CHECK(disk.read(folder / "tags.pdf", 10).value() == "whole");
}
