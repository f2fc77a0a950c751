#pragma once
// Files and folders so that what was done to them is on the disk. Nothing here knows SQLite's contents.

#include <filesystem>
#include <optional>
#include <string>

#include "logbook/detail/sqlite.h"

namespace redd::logbook::detail {

/// The system's own error (errno) as SQLite would name it, so that the keeper gets one wording for both.
Failure failure_of(int error_number, const std::string& what);

/// The folder a file lies in; "." for a bare name.
std::filesystem::path folder_of(const std::filesystem::path& file);

/// Makes what was created, renamed or removed in a folder durable. Errors  throws Failure.
void sync_folder(const std::filesystem::path& folder);
void sync_file(const std::filesystem::path& file);

/// Makes a folder that only its owner may enter; an existing one is left as it is. Errors  throws Failure.
void make_private_folder(const std::filesystem::path& folder);

/// An empty file that only its owner may read. Errors  throws Failure, also when the name is taken.
void make_private_file(const std::filesystem::path& file);

/// Byte for byte, whatever the file holds, onto the disk. Errors  throws Failure; then there is no target.
void copy_bytes(const std::filesystem::path& from, const std::filesystem::path& to);

/// A name beside `path` for a file that is still being made.
std::filesystem::path unfinished_name(const std::filesystem::path& path);

/// Removes what programs that were stopped in the middle left beside `path` under such a name.
void remove_abandoned(const std::filesystem::path& path);

/// Removes a file and SQLite's side files of it, in an order that never leaves a side file to a stranger, as far as that can be done.
void remove_with_side_files(const std::filesystem::path& file);

/// A file that is still being made beside the one it is for: gone with this, unless it was given its name.
struct Unfinished {
  explicit Unfinished(const std::filesystem::path& path) : file(unfinished_name(path)) {}
  ~Unfinished() { remove_with_side_files(file); }
  Unfinished(const Unfinished&) = delete;
  Unfinished& operator=(const Unfinished&) = delete;
  const std::filesystem::path file;
};

/// What keeps a new file from this free name: SQLite would take a side file left there for the new file's own. Nothing when the name
/// is taken, or free and clean.
std::optional<Problem> left_side_file(const std::filesystem::path& path);

/// Gives a finished file its name, unless that name is taken, and makes the name durable.
Result<bool> give_name(const std::filesystem::path& unfinished, const std::filesystem::path& path);

}  // namespace redd::logbook::detail
