#pragma once

#include <stdlib.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <string_view>
#include <system_error>

namespace blankwright {

/// An empty folder of this test's own, removed with all it holds. Other users may look and write in it, for the tests
/// that go on as one of them.
class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "blankwright-test-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error{"no temporary folder"};
    ::chmod(name.c_str(), 0777);
    path_ = name;
  }
  ~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::permissions(path_, std::filesystem::perms::owner_all, ignored);
    std::filesystem::remove_all(path_, ignored);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;

  const std::string& path() const { return path_; }
  std::string operator/(std::string_view name) const { return path_ + "/" + std::string{name}; }
  /// How many files and folders stand in it: tells leftovers.
  std::size_t size() const {
    return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator{path_}, {}));
  }

 private:
  std::string path_;
};

inline std::string bytes_of(const std::string& path) {
  std::ifstream file{path, std::ios::binary};
  return {std::istreambuf_iterator<char>{file}, {}};
}

inline void put_bytes(const std::string& path, std::string_view bytes) {
  std::ofstream{path, std::ios::binary}.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

}  // namespace blankwright
