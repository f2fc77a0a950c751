// Any bytes as a season's tables: as a .zip, and, so that no check sum stands in the way, as files one after another. What is
// accepted must write itself as tables that read back the same, and write the same bytes again.
// links: ledger

#include <cstdlib>
#include <string_view>

#include "ledger/season_tables.h"
#include "wire/codec.h"

namespace {

using namespace redd;

void expect(bool condition) {
  if (!condition) std::abort();
}

/// "name\nbytes", separated by the record separator of ASCII.
std::vector<ledger::NamedFile> files_in(std::string_view text) {
  std::vector<ledger::NamedFile> files;
  while (!text.empty()) {
    const std::string_view one = text.substr(0, text.find('\x1e'));
    text.remove_prefix(std::min(text.size(), one.size() + 1));
    const std::size_t end = one.find('\n');
    if (end != std::string_view::npos) files.push_back({std::string(one.substr(0, end)), std::string(one.substr(end + 1))});
  }
  return files;
}

std::string lines_of(const std::vector<records::Record>& records) {
  std::string text;
  for (const records::Record& record : records) text += wire::json_from_record(record) + "\n";
  return text;
}

void check(std::span<const ledger::NamedFile> files) {
  const auto records = ledger::records_of_season_tables(files);
  if (!records) {
    expect(!records.problems().empty());
    for (const Problem& p : records.problems()) expect(!p.code.empty() && !p.sentence.empty());
    return;
  }
  const auto tables = ledger::season_tables(*records);
  const auto back = ledger::records_of_season_tables(tables);
  expect(back && lines_of(*back) == lines_of(*records));
  expect(ledger::season_tables(*back) == tables);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  if (const auto files = ledger::files_of_stored_zip(bytes)) {
    const std::string zip = ledger::stored_zip(*files);
    const auto back = ledger::files_of_stored_zip(zip);
    expect(back && *back == *files);
    check(*files);
  }
  check(files_in(bytes));
  return 0;
}
