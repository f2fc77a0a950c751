#pragma once
// A disk that fails on command: SQLite's own file layer with writes and syncs that can be told to fail.

#include <sqlite3.h>

#include <atomic>
#include <map>

namespace redd::test {

/// While one exists, every season file opened afterwards lies on it. Not for several threads.
class FailingDisk {
 public:
  FailingDisk() {
    base() = sqlite3_vfs_find(nullptr);
    vfs() = *base();
    vfs().zName = "failing-disk";
    vfs().pNext = nullptr;
    vfs().xOpen = &open;
    writes_left() = sync_fails() = -1;
    sqlite3_vfs_register(&vfs(), 1);
  }
  ~FailingDisk() {
    sqlite3_vfs_unregister(&vfs());
    sqlite3_vfs_register(base(), 1);
  }
  FailingDisk(const FailingDisk&) = delete;
  FailingDisk& operator=(const FailingDisk&) = delete;

  /// The disk is full after so many more writes; -1: never.
  static void is_full_after(int writes) { writes_left() = writes; }
  /// Every sync fails while this is on.
  static void fails_to_sync(bool on) { sync_fails() = on ? 1 : -1; }

 private:
  static sqlite3_vfs*& base() { static sqlite3_vfs* v; return v; }
  static sqlite3_vfs& vfs() { static sqlite3_vfs v; return v; }
  static int& writes_left() { static int n = -1; return n; }
  static int& sync_fails() { static int n = -1; return n; }

  struct Methods {
    sqlite3_io_methods own;
    const sqlite3_io_methods* original;
  };
  /// SQLite picks one of several method tables a file; each gets one wrapped twin.
  static std::map<const sqlite3_io_methods*, Methods>& tables() {
    static std::map<const sqlite3_io_methods*, Methods> t;
    return t;
  }
  static const sqlite3_io_methods* original(sqlite3_file* file) { return reinterpret_cast<const Methods*>(file->pMethods)->original; }

  static int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out) {
    const int code = base()->xOpen(base(), name, file, flags, out);
    if (code != SQLITE_OK || !file->pMethods) return code;
    auto [at, fresh] = tables().try_emplace(file->pMethods);
    if (fresh) {
      at->second = {*file->pMethods, file->pMethods};
      at->second.own.xWrite = &write;
      at->second.own.xSync = &sync;
      at->second.own.xTruncate = &truncate;
    }
    file->pMethods = &at->second.own;
    return code;
  }
  static int write(sqlite3_file* file, const void* data, int size, sqlite3_int64 at) {
    if (writes_left() == 0) return SQLITE_FULL;
    if (writes_left() > 0) --writes_left();
    return original(file)->xWrite(file, data, size, at);
  }
  static int sync(sqlite3_file* file, int flags) {
    return sync_fails() > 0 ? SQLITE_IOERR_FSYNC : original(file)->xSync(file, flags);
  }
  static int truncate(sqlite3_file* file, sqlite3_int64 size) { return original(file)->xTruncate(file, size); }
};

}  // namespace redd::test
