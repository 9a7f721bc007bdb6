#include "failing_disk.h"

#include <sqlite3.h>

#include <algorithm>
#include <cstring>
#include <map>
#include <memory>
#include <vector>

namespace blankwright {
namespace {

int calls_so_far = 0;
int fails_from = 0;
int failure = SQLITE_IOERR_WRITE;

int call() {
  ++calls_so_far;
  return fails_from > 0 && calls_so_far >= fails_from ? failure : SQLITE_OK;
}

/// A file as this process sees it; the disk has what was synced last.
struct Seen {
  std::vector<char> bytes;
  bool is_there = true;
};
std::map<std::string, std::shared_ptr<Seen>>& files() {
  static std::map<std::string, std::shared_ptr<Seen>> all;
  return all;
}

sqlite3_vfs* system_files = nullptr;

struct File {
  sqlite3_file base;
  sqlite3_file* below;
  std::shared_ptr<Seen>* seen;
};
File& of(sqlite3_file* file) { return *reinterpret_cast<File*>(file); }
Seen& seen_of(sqlite3_file* file) { return **of(file).seen; }

int close(sqlite3_file* file) {
  const int result = of(file).below->pMethods->xClose(of(file).below);
  delete of(file).seen;
  sqlite3_free(of(file).below);
  return result;
}

int read(sqlite3_file* file, void* to, int amount, sqlite3_int64 offset) {
  const auto& bytes = seen_of(file).bytes;
  const auto size = static_cast<sqlite3_int64>(bytes.size());
  const auto has = static_cast<std::size_t>(std::clamp<sqlite3_int64>(size - offset, 0, amount));
  std::memset(to, 0, static_cast<std::size_t>(amount));
  if (has > 0) std::memcpy(to, bytes.data() + offset, has);
  return has == static_cast<std::size_t>(amount) ? SQLITE_OK : SQLITE_IOERR_SHORT_READ;
}

int write(sqlite3_file* file, const void* from, int amount, sqlite3_int64 offset) {
  if (const int failed = call()) return failed;
  auto& bytes = seen_of(file).bytes;
  const auto end = static_cast<std::size_t>(offset + amount);
  if (bytes.size() < end) bytes.resize(end);
  std::memcpy(bytes.data() + offset, from, static_cast<std::size_t>(amount));
  return SQLITE_OK;
}

int truncate(sqlite3_file* file, sqlite3_int64 size) {
  if (const int failed = call()) return failed;
  seen_of(file).bytes.resize(static_cast<std::size_t>(size));
  return SQLITE_OK;
}

int sync(sqlite3_file* file, int flags) {
  if (const int failed = call()) return failed;
  const auto& bytes = seen_of(file).bytes;
  sqlite3_file* below = of(file).below;
  if (const int failed = below->pMethods->xTruncate(below, static_cast<sqlite3_int64>(bytes.size()))) return failed;
  if (!bytes.empty()) {
    if (const int failed = below->pMethods->xWrite(below, bytes.data(), static_cast<int>(bytes.size()), 0))
      return failed;
  }
  return below->pMethods->xSync(below, flags);
}

int file_size(sqlite3_file* file, sqlite3_int64* size) {
  *size = static_cast<sqlite3_int64>(seen_of(file).bytes.size());
  return SQLITE_OK;
}

int lock(sqlite3_file* f, int level) { return of(f).below->pMethods->xLock(of(f).below, level); }
int unlock(sqlite3_file* f, int level) { return of(f).below->pMethods->xUnlock(of(f).below, level); }
int check_lock(sqlite3_file* f, int* out) { return of(f).below->pMethods->xCheckReservedLock(of(f).below, out); }
int control(sqlite3_file*, int, void*) { return SQLITE_NOTFOUND; }
int sector_size(sqlite3_file*) { return 4096; }
int characteristics(sqlite3_file*) { return 0; }  // nothing is promised

const sqlite3_io_methods methods{1,      close,      read,    write,       truncate,        sync, file_size, lock,
                                 unlock, check_lock, control, sector_size, characteristics, {},   {},        {},
                                 {},     {},         {}};

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out_flags) {
  auto* below = static_cast<sqlite3_file*>(sqlite3_malloc(system_files->szOsFile));
  std::memset(below, 0, static_cast<std::size_t>(system_files->szOsFile));
  if (const int failed = system_files->xOpen(system_files, name, below, flags, out_flags)) {
    sqlite3_free(below);
    file->pMethods = nullptr;
    return failed;
  }
  auto& seen = files()[name == nullptr ? "" : name];
  if (seen == nullptr || !seen->is_there) {
    seen = std::make_shared<Seen>();
    sqlite3_int64 size = 0;
    below->pMethods->xFileSize(below, &size);
    seen->bytes.resize(static_cast<std::size_t>(size));
    if (size > 0) below->pMethods->xRead(below, seen->bytes.data(), static_cast<int>(size), 0);
  }
  of(file).below = below;
  of(file).seen = new std::shared_ptr<Seen>(seen);
  file->pMethods = &methods;
  return SQLITE_OK;
}

int remove(sqlite3_vfs*, const char* name, int sync_folder) {
  if (const int failed = call()) return failed;
  const auto seen = files().find(name);
  if (seen != files().end()) seen->second->is_there = false;
  if (sync_folder == 0) return SQLITE_OK;  // the disk still has it
  return system_files->xDelete(system_files, name, 1);
}

int access(sqlite3_vfs*, const char* name, int flags, int* out) {
  const auto seen = files().find(name);
  if (seen != files().end() && flags == SQLITE_ACCESS_EXISTS) {
    *out = seen->second->is_there ? 1 : 0;
    return SQLITE_OK;
  }
  return system_files->xAccess(system_files, name, flags, out);
}

int full_name(sqlite3_vfs*, const char* name, int size, char* out) {
  return system_files->xFullPathname(system_files, name, size, out);
}
int randomness(sqlite3_vfs*, int size, char* out) { return system_files->xRandomness(system_files, size, out); }
int sleep(sqlite3_vfs*, int micros) { return system_files->xSleep(system_files, micros); }
int current_time(sqlite3_vfs*, double* out) { return system_files->xCurrentTime(system_files, out); }
int last_error(sqlite3_vfs*, int, char*) { return 0; }

}  // namespace

void FailingDisk::install() {
  static sqlite3_vfs layer{};
  system_files = sqlite3_vfs_find(nullptr);
  layer.iVersion = 1;
  layer.szOsFile = sizeof(File);
  layer.mxPathname = system_files->mxPathname;
  layer.zName = "failing-disk";
  layer.xOpen = open;
  layer.xDelete = remove;
  layer.xAccess = access;
  layer.xFullPathname = full_name;
  layer.xRandomness = randomness;
  layer.xSleep = sleep;
  layer.xCurrentTime = current_time;
  layer.xGetLastError = last_error;
  sqlite3_vfs_register(&layer, 1);
}

void FailingDisk::fail_from(int n, bool full) {
  calls_so_far = 0;
  fails_from = n;
  failure = full ? SQLITE_FULL : SQLITE_IOERR_WRITE;
}

int FailingDisk::calls() { return calls_so_far; }

}  // namespace blankwright
