#pragma once
// Small files that only their owner may read. Start at write_private_file().

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "quantities/result.h"

namespace redd::secrets {

/// Writes the whole file onto the disk, or leaves what was there. Mode 0600.
/// Errors  cannot_write.
Problems write_private_file(const std::filesystem::path& file, std::string_view text);

/// Adds one line at the end, onto the disk; makes the file when there is none. Mode 0600. A line that could be written only in part is taken away again.
/// Errors  cannot_write.
Problems add_private_line(const std::filesystem::path& file, std::string_view line);

/// The whole of a file of at most so many bytes; nothing when there is none.
/// Errors  cannot_read; too_large; open_to_others: somebody else than its owner may read or write it.
Result<std::optional<std::string>> private_file_text(const std::filesystem::path& file, std::size_t most_bytes);

/// What tells one writing of a file from another without reading it; empty when there is none.
std::string mark_of_file(const std::filesystem::path& file);

}  // namespace redd::secrets
