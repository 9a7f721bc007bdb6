#pragma once

#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/failure.h"
#include "write/files.h"

namespace blankwright {

/// A disk in memory: put files in, run the program, look at what it wrote. Folders of files that are there exist too.
class MemoryFiles final : public Files {
 public:
  std::map<std::string, std::string> files;  ///< by path, without "." and ".."
  std::set<std::string> folders;             ///< further ones, that hold no file
  std::set<std::string> not_permitted;       ///< paths that may be neither read nor written
  bool full = false;                         ///< nothing more can be written

  MemoryFiles() = default;
  explicit MemoryFiles(std::map<std::string, std::string> at_start) : files{std::move(at_start)} {}

  tl::expected<std::string, ReadFault> read(const std::string& path, std::size_t at_most) const override {
    using Why = ReadFault::Kind;
    const std::string key = plain(path);
    if (is_folder(key)) return tl::make_unexpected(ReadFault{Why::folder, "is a folder"});
    if (!files.contains(key)) return tl::make_unexpected(ReadFault{Why::absent, "no such file"});
    if (not_permitted.contains(key)) {
      return tl::make_unexpected(ReadFault{Why::not_permitted, "permission to read denied"});
    }
    if (files.at(key).size() > at_most) {
      return tl::make_unexpected(ReadFault{Why::too_large, "is larger than " + std::to_string(at_most) + " bytes"});
    }
    return files.at(key);
  }
  void write_whole(const std::string& path, std::string_view bytes) override {
    const std::string key = plain(path);
    if (!is_folder(folder_of(key))) throw WorldError{path, "No such file or directory"};
    if (is_folder(key)) throw WorldError{path, "is a folder"};
    if (not_permitted.contains(key)) throw WorldError{path, "Permission denied"};
    if (full) throw WorldError{path, "No space left on device"};
    files[key] = bytes;
  }
  void make_folders(const std::string& path) override {
    for (std::string key = plain(path); !is_folder(key); key = folder_of(key)) {
      if (files.contains(key)) throw WorldError{path, "Not a directory"};
      if (full) throw WorldError{path, "No space left on device"};
      folders.insert(key);
    }
  }
  bool exists(const std::string& path) const override { return files.contains(plain(path)) || is_folder(path); }
  bool is_folder(const std::string& path) const override {
    const std::string key = plain(path);
    if (key == "." || key == "/" || folders.contains(key)) return true;
    const std::string inside = key + "/";
    const auto next = files.lower_bound(inside);
    return next != files.end() && next->first.starts_with(inside);
  }
  std::vector<std::string> folders_in(const std::string& path) const override {
    const std::string above = plain(path) == "." ? "" : plain(path) + "/";
    std::set<std::string> names;
    const auto look = [&](const std::string& key, bool is_folder) {
      if (!key.starts_with(above)) return;
      const std::string below = key.substr(above.size());
      const auto end = below.find('/');
      if (end != std::string::npos || is_folder) names.insert(below.substr(0, end));
    };
    for (const auto& [key, bytes] : files) look(key, false);
    for (const std::string& key : folders) look(key, true);
    return {names.begin(), names.end()};
  }
  std::vector<std::string> files_in(const std::string& path) const override {
    const std::string above = plain(path) == "." ? "" : plain(path) + "/";
    std::vector<std::string> names;
    for (const auto& [key, bytes] : files) {
      const bool inside = key.starts_with(above) && key.find('/', above.size()) == std::string::npos;
      if (inside) names.push_back(key.substr(above.size()));
    }
    return names;
  }
  std::string absolute(const std::string& path) const override {
    return (std::filesystem::path{"/memory"} / path).lexically_normal().string();
  }

 private:
  static std::string plain(const std::string& path) {
    std::string out = std::filesystem::path{path}.lexically_normal().string();
    if (out.size() > 1 && out.ends_with('/')) out.pop_back();
    return out;
  }
};

/// A clock that stands.
class FixedClock final : public Clock {
 public:
  explicit FixedClock(std::int64_t at_unix) : at_unix_{at_unix} {}
  std::int64_t now_unix() const override { return at_unix_; }

 private:
  std::int64_t at_unix_;
};

/// A chance that always falls on the same number.
class FixedChance final : public Chance {
 public:
  explicit FixedChance(std::uint32_t drawn) : drawn_{drawn} {}
  std::uint32_t below(std::uint32_t count) override { return drawn_ % count; }

 private:
  std::uint32_t drawn_;
};

}  // namespace blankwright
