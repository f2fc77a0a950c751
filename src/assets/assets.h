// assets/assets.h
// Files packed into the program by the build: the page ("web/index.html"), the data files ("data/kits/....toml") and
// the description of the HTTP interface ("docs/openapi.json"). Start at find_asset(). Nothing is copied: every span
// points into the program's own read-only memory and lives as long as the program.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>

namespace redd::assets {

/// One packed file.
struct Asset {
  std::string_view path;              ///< "web/…", "data/…" or "docs/openapi.json"
  std::string_view content_type;      ///< as for an HTTP Content-Type header
  std::string_view sha256;            ///< 64 lower-case hexadecimal digits; quote it for an ETag
  std::span<const std::byte> bytes;   ///< the file as it is in the source tree
  std::span<const std::byte> gzip;    ///< the same compressed; empty where compression does not pay
  std::span<const std::byte> brotli;  ///< and by Brotli (RFC 7932), smaller still

  /// The file as text, without a copy.
  std::string_view text() const {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
  }
};

/// Every packed file, ordered by path inside each top folder.
///
/// Shape   a view of a table in the program; empty when nothing was packed.
std::span<const Asset> all_assets();

/// The packed file with exactly this path, if there is one.
///
/// In      path: without a leading slash, as listed in Asset::path.
/// Errors  none; an unknown path gives no value.
std::optional<Asset> find_asset(std::string_view path);

}  // namespace redd::assets
