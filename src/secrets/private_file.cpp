#include "secrets/private_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <utility>

#include "quantities/verbatim.h"

namespace redd::secrets {
namespace {

namespace fs = std::filesystem;

struct Handle {
  explicit Handle(int opened) : number(opened) {}
  ~Handle() {
    if (number >= 0) ::close(number);
  }
  Handle(const Handle&) = delete;
  Handle& operator=(const Handle&) = delete;
  int number;
};

bool write_all(int handle, std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(handle, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) {
      if (written == 0) errno = ENOSPC;
      return false;
    }
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

Problems cannot_write(const fs::path& file, int why) {
  return {{"cannot_write", "", said("{0} can't be written: {1}.", verbatim(file.string()), verbatim(std::strerror(why)))}};
}

bool sync_folder_of(const fs::path& file) {
  const fs::path folder = file.parent_path().empty() ? fs::path(".") : file.parent_path();
  const Handle handle(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  return handle.number >= 0 && ::fsync(handle.number) == 0;
}

}  // namespace

Problems write_private_file(const fs::path& file, std::string_view text) {
  // Named as the season's other unfinished files, so that deleting the season finds what a killed program left.
  const fs::path unfinished = file.parent_path() / ("." + file.filename().string() + ".unfinished-" + std::to_string(::getpid()));
  ::unlink(unfinished.c_str());
  const Handle handle(::open(unfinished.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0600));
  if (handle.number < 0) return cannot_write(file, errno);
  if (::fchmod(handle.number, 0600) != 0 || !write_all(handle.number, text) || ::fsync(handle.number) != 0 || ::rename(unfinished.c_str(), file.c_str()) != 0 || !sync_folder_of(file)) {
    const int why = errno;
    ::unlink(unfinished.c_str());
    return cannot_write(file, why);
  }
  return {};
}

Problems add_private_line(const fs::path& file, std::string_view line) {
  const Handle handle(::open(file.c_str(), O_WRONLY | O_APPEND | O_CREAT | O_NOFOLLOW | O_CLOEXEC, 0600));
  // Two programs on one file: the lock keeps a line that is taken away from taking another's with it.
  if (handle.number < 0 || ::flock(handle.number, LOCK_EX) != 0) return cannot_write(file, errno);
  struct stat before {};
  if (::fstat(handle.number, &before) != 0) return cannot_write(file, errno);
  if (write_all(handle.number, std::string(line) + "\n") && ::fdatasync(handle.number) == 0 && (before.st_size > 0 || sync_folder_of(file))) return {};
  const int why = errno;
  if (::ftruncate(handle.number, before.st_size) != 0) return cannot_write(file, why);
  return cannot_write(file, why);
}

Result<std::optional<std::string>> private_file_text(const fs::path& file, std::size_t most_bytes) {
  const Handle handle(::open(file.c_str(), O_RDONLY | O_CLOEXEC));
  if (handle.number < 0 && errno == ENOENT) return std::optional<std::string>();
  const auto cannot_read = [&](int why) { return Problem{"cannot_read", "", said("{0} can't be read: {1}.", verbatim(file.string()), verbatim(std::strerror(why)))}; };
  struct stat about {};
  if (handle.number < 0 || ::fstat(handle.number, &about) != 0) return cannot_read(errno);
  if (!S_ISREG(about.st_mode)) return cannot_read(EINVAL);
  if ((about.st_mode & 077) != 0)
    return Problem{"open_to_others", "", said("{0} can be read or written by others than its owner, so what it holds is no secret. Make it yours alone: chmod 600 {0}", verbatim(file.string()))};
  if (static_cast<std::size_t>(about.st_size) > most_bytes) return Problem{"too_large", "", said("{0} is larger than it can be.", verbatim(file.string()))};
  std::string text;
  char buffer[65536];
  while (text.size() <= most_bytes) {
    const ssize_t count = ::read(handle.number, buffer, sizeof buffer);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return cannot_read(errno);
    if (count == 0) return std::optional(std::move(text));
    text.append(buffer, static_cast<std::size_t>(count));
  }
  return Problem{"too_large", "", said("{0} is larger than it can be.", verbatim(file.string()))};
}

std::string mark_of_file(const fs::path& file) {
  struct stat about {};
  if (::stat(file.c_str(), &about) != 0) return "";
  return std::to_string(about.st_ino) + "-" + std::to_string(about.st_size) + "-" + std::to_string(about.st_mtim.tv_sec) + "." + std::to_string(about.st_mtim.tv_nsec);
}

}  // namespace redd::secrets
