#include "logbook/detail/files.h"

#include <fcntl.h>
#include <signal.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <cstdio>
#include <cstring>

namespace redd::logbook::detail {
namespace {

namespace fs = std::filesystem;

class Handle {
 public:
  Handle(const fs::path& path, int flags, mode_t mode = 0) : fd_(::open(path.c_str(), flags | O_CLOEXEC, mode)) {
    if (fd_ < 0) throw failure_of(errno, path.string());
  }
  ~Handle() { ::close(fd_); }
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;
  int operator*() const { return fd_; }

 private:
  int fd_;
};

void sync(const Handle& handle, const fs::path& path) {
  // Some file systems can't sync a folder and say EINVAL; they keep names in order by themselves.
  if (::fsync(*handle) != 0 && errno != EINVAL) throw failure_of(errno, path.string());
}

/// Beginning of every unfinished name of `path`.
std::string unfinished_stem(const fs::path& path) { return "." + path.filename().string() + ".unfinished-"; }

}  // namespace

Failure failure_of(int error_number, const std::string& what) {
  const std::string words = what + ": " + std::strerror(error_number);
  switch (error_number) {
    case ENOSPC:
    case EDQUOT:
    case EFBIG: return {SQLITE_FULL, words};
    case EACCES:
    case EPERM:
    case EROFS:
    case ENOENT:
    case ENOTDIR: return {SQLITE_CANTOPEN, words};
    default: return {SQLITE_IOERR, words};
  }
}

fs::path folder_of(const fs::path& file) { return file.has_parent_path() ? file.parent_path() : fs::path("."); }

void sync_folder(const fs::path& folder) { sync(Handle(folder, O_RDONLY | O_DIRECTORY), folder); }

void sync_file(const fs::path& file) { sync(Handle(file, O_RDONLY), file); }

void make_private_folder(const fs::path& folder) {
  if (::mkdir(folder.c_str(), 0700) == 0) return sync_folder(folder_of(folder));
  if (errno != EEXIST) throw failure_of(errno, folder.string());
}

void make_private_file(const fs::path& file) { const Handle made(file, O_WRONLY | O_CREAT | O_EXCL, 0600); }

void copy_bytes(const fs::path& from, const fs::path& to) {
  const Handle source(from, O_RDONLY);
  const Handle target(to, O_WRONLY | O_CREAT | O_EXCL, 0600);
  try {
    std::array<char, 65536> part{};
    for (;;) {
      const ssize_t got = ::read(*source, part.data(), part.size());
      if (got == 0) break;
      if (got < 0) throw failure_of(errno, from.string());
      for (ssize_t done = 0; done < got;) {
        const ssize_t written = ::write(*target, part.data() + done, static_cast<std::size_t>(got - done));
        if (written < 0) throw failure_of(errno, to.string());
        done += written;
      }
    }
    sync(target, to);
  } catch (...) {
    ::unlink(to.c_str());
    throw;
  }
}

fs::path unfinished_name(const fs::path& path) {
  static std::atomic<int> count{0};
  return path.parent_path() / (unfinished_stem(path) + std::to_string(::getpid()) + "-" + std::to_string(++count));
}

void remove_abandoned(const fs::path& path) {
  const std::string stem = unfinished_stem(path);
  std::error_code ignored;
  std::vector<fs::path> abandoned;
  for (fs::directory_iterator at(folder_of(path), ignored), end; !ignored && at != end; at.increment(ignored)) {
    const std::string name = at->path().filename().string();
    if (!name.starts_with(stem)) continue;
    const long owner = std::strtol(name.c_str() + stem.size(), nullptr, 10);
    if (owner > 0 && ::kill(static_cast<pid_t>(owner), 0) != 0 && errno == ESRCH) abandoned.push_back(at->path());
  }
  for (const fs::path& file : abandoned) fs::remove(file, ignored);
}

void remove_with_side_files(const fs::path& file) {
  // The file first would leave its -wal to whatever gets its name next.
  std::error_code ignored;
  for (const char* ending : {"-wal", "-journal", "-shm", ""}) fs::remove(file.string() + ending, ignored);
}

std::optional<Problem> left_side_file(const fs::path& path) {
  std::error_code none;
  if (fs::exists(path, none)) return std::nullopt;
  for (const char* ending : {"-wal", "-journal"}) {
    const std::string left = path.string() + ending;
    const auto size = fs::file_size(left, none);
    if (!none && size > 0)
      return Problem{"side_file_left", "", said("{0} was left by a season that is gone, and may hold entries of it; it would spoil a new file of that name. Move it to another folder, then give the command again.", left)};
  }
  return std::nullopt;
}

Result<bool> give_name(const fs::path& unfinished, const fs::path& path) {
  const Problem taken{"file_exists", "", said("There is already a file {0}; it was left as it is. Choose another name.", path.string())};
  if (::renameat2(AT_FDCWD, unfinished.c_str(), AT_FDCWD, path.c_str(), RENAME_NOREPLACE) != 0) {
    if (errno == EEXIST) return taken;
    // Some file systems can't rename without replacing: claim the name first.
    const int claim = ::open(path.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0600);
    if (claim < 0) return errno == EEXIST ? taken : problem_of(failure_of(errno, path.string()), path);
    ::close(claim);
    if (std::rename(unfinished.c_str(), path.c_str()) != 0) {
      const Failure failure = failure_of(errno, path.string());
      std::remove(path.c_str());
      return problem_of(failure, path);
    }
  }
  try {
    sync_folder(folder_of(path));
  } catch (const Failure& failure) {
    // A name that may be gone after a power cut is not given.
    std::remove(path.c_str());
    return problem_of(failure, path);
  }
  return true;
}

}  // namespace redd::logbook::detail
