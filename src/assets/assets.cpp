#include "assets/assets.h"

#include <algorithm>

namespace redd::assets {

std::optional<Asset> find_asset(std::string_view path) {
  const auto assets = all_assets();
  const auto found = std::find_if(assets.begin(), assets.end(), [&](const Asset& asset) { return asset.path == path; });
  if (found == assets.end()) return std::nullopt;
  return *found;
}

}  // namespace redd::assets
