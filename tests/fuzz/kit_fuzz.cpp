// links: intake
// Any bytes as a kit file, TOML or JSON. What is accepted must write itself as TOML that reads back the same.

#include <cstdlib>

#include "intake/kit_file.h"
#include "records/record.h"
#include "wire/codec.h"

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  const auto kit = redd::intake::kit_from_text({reinterpret_cast<const char*>(data), size});
  if (!kit) {
    for (const auto& p : kit.problems())
      if (p.code.empty() || p.sentence.empty()) std::abort();
    return 0;
  }
  if (!redd::records::problems_of(*kit).empty()) std::abort();
  const auto back = redd::intake::kit_from_text(redd::intake::toml_from_kit(*kit));
  if (!back || redd::wire::json_from_body(*back) != redd::wire::json_from_body(*kit)) std::abort();
  return 0;
}
