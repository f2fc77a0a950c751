#include "faults/failing_calls.h"

#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdarg>
#include <cstdio>
#include <cstring>

namespace redd::test {
namespace {

bool armed = false, has_struck = false, skips_syncs = false;
Fault fault_now;
int left = 0;

/// Counts one call that this fault can strike; true when it is to fail.
bool strikes(bool concerned) {
  if (!armed || !concerned) return false;
  if (left > 0) --left;
  if (left > 0) return false;
  has_struck = true;
  return true;
}

bool writes_fail() { return fault_now == Fault::disk_full || fault_now == Fault::short_write; }
bool syncs_fail() { return fault_now == Fault::failed_sync; }
/// A full disk takes no new name, a read-only one no change of names at all.
bool names_fail() { return fault_now == Fault::read_only || fault_now == Fault::disk_full; }
int name_error() { return fault_now == Fault::read_only ? EROFS : ENOSPC; }

template <class Call>
Call next(const char* name) {
  return reinterpret_cast<Call>(::dlsym(RTLD_NEXT, name));
}

/// Half of what was to be written, then the disk is full.
template <class Write>
ssize_t failed_write(size_t size, Write write) {
  if (fault_now == Fault::short_write && size > 1) return write(size / 2);
  errno = ENOSPC;
  return -1;
}

/// Only files are meant to fail, not the pipes and terminals of the test itself.
bool is_file(int fd) {
  struct stat as {};
  return ::fstat(fd, &as) == 0 && S_ISREG(as.st_mode);
}

int failed(int error) {
  errno = error;
  return -1;
}

}  // namespace

FailingCalls::FailingCalls(Fault fault, int nth) {
  fault_now = fault;
  left = nth;
  has_struck = false;
  armed = true;
}
FailingCalls::~FailingCalls() { armed = false; }
void FailingCalls::skip_syncs(bool on) { skips_syncs = on; }
bool FailingCalls::struck() { return has_struck; }

extern "C" {

ssize_t write(int fd, const void* data, size_t size) {
  static const auto real = next<ssize_t (*)(int, const void*, size_t)>("write");
  if (armed && is_file(fd) && strikes(writes_fail())) return failed_write(size, [&](size_t part) { return real(fd, data, part); });
  return real(fd, data, size);
}
ssize_t pwrite64(int fd, const void* data, size_t size, off64_t at) {
  static const auto real = next<ssize_t (*)(int, const void*, size_t, off64_t)>("pwrite64");
  if (strikes(writes_fail())) return failed_write(size, [&](size_t part) { return real(fd, data, part, at); });
  return real(fd, data, size, at);
}
ssize_t pwrite(int fd, const void* data, size_t size, off_t at) { return pwrite64(fd, data, size, at); }
int fsync(int fd) {
  static const auto real = next<int (*)(int)>("fsync");
  if (strikes(syncs_fail())) return failed(EIO);
  return skips_syncs ? 0 : real(fd);
}
int fdatasync(int fd) {
  static const auto real = next<int (*)(int)>("fdatasync");
  if (strikes(syncs_fail())) return failed(EIO);
  return skips_syncs ? 0 : real(fd);
}
int open64(const char* path, int flags, ...) {
  static const auto real = next<int (*)(const char*, int, ...)>("open64");
  mode_t mode = 0;
  if (flags & O_CREAT) {
    va_list more;
    va_start(more, flags);
    mode = va_arg(more, mode_t);
    va_end(more);
  }
  // On a read-only disk nothing opens for writing; on a full one only what is not there yet.
  const bool changes = fault_now == Fault::read_only ? (flags & (O_CREAT | O_WRONLY | O_RDWR)) != 0 : (flags & O_CREAT) != 0 && ::access(path, F_OK) != 0;
  return strikes(changes && names_fail()) ? failed(name_error()) : real(path, flags, mode);
}
int open(const char* path, int flags, ...) {
  mode_t mode = 0;
  if (flags & O_CREAT) {
    va_list more;
    va_start(more, flags);
    mode = va_arg(more, mode_t);
    va_end(more);
  }
  return open64(path, flags, mode);
}
int mkdir(const char* path, mode_t mode) noexcept {
  static const auto real = next<int (*)(const char*, mode_t)>("mkdir");
  return strikes(names_fail()) ? failed(name_error()) : real(path, mode);
}
int rename(const char* from, const char* to) noexcept {
  static const auto real = next<int (*)(const char*, const char*)>("rename");
  return strikes(names_fail()) ? failed(name_error()) : real(from, to);
}
int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) noexcept {
  static const auto real = next<int (*)(int, const char*, int, const char*, unsigned)>("renameat2");
  return strikes(names_fail()) ? failed(name_error()) : real(from_folder, from, to_folder, to, flags);
}
int unlink(const char* path) noexcept {
  static const auto real = next<int (*)(const char*)>("unlink");
  return strikes(fault_now == Fault::read_only) ? failed(EROFS) : real(path);
}

}  // extern "C"

}  // namespace redd::test
