#pragma once
// Several files as one .zip without compression, so that its bytes depend on nothing but the files. Start at stored_zip().
// Source  [appnote]: PKWARE APPNOTE.TXT, .ZIP file format, version 6.3: local header, central directory and its end, method 0, CRC-32.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"

namespace redd::ledger {

struct NamedFile {
  std::string name{};   ///< "data/count.csv": relative, with forward slashes, UTF-8
  std::string bytes{};
  bool operator==(const NamedFile&) const = default;
};

/// In      files: fewer than 65,535, below 4 GB in all. Every file carries the same time, 1 January 1980.
std::string stored_zip(std::span<const NamedFile> files);

/// The files of such a .zip, also of one that another program wrote without compression.
///
/// Errors  not_a_zip; packed_zip: compressed or encrypted, to be unpacked by hand; broken_zip: cut off, or a sum that does not fit.
Result<std::vector<NamedFile>> files_of_stored_zip(std::string_view bytes);

}  // namespace redd::ledger
