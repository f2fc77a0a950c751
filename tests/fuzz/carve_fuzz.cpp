// Any bytes as a damaged season file with its side file: no crash, and every row under its own number.
// links: logbook

#include <algorithm>
#include <cstdlib>
#include <string_view>

#include "logbook/detail/carve.h"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  if (size < 2) return 0;
  const std::string_view bytes(reinterpret_cast<const char*>(data) + 2, size - 2);
  const std::size_t side = std::min<std::size_t>(bytes.size(), data[0] * 256U + data[1]);
  const auto rows = redd::logbook::detail::carved_rows(bytes.substr(side), bytes.substr(0, side));
  for (const auto& [id, row] : rows)
    if (row.id != id || id <= 0) std::abort();
  return 0;
}
