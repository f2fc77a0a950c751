// links: logbook
// Any bytes as an entry sent to the server, as a record, and as an exported season. What is accepted must write itself
// as JSON that reads back the same, and must be judged by the rules without a crash.

#include <cstdlib>

#include "ledger/season_file.h"
#include "records/record.h"
#include "wire/codec.h"

namespace {

using namespace redd;

void expect(bool condition) {
  if (!condition) std::abort();
}

const Instant now = *instant_from_rfc3339("2031-02-14T18:00:00Z");

std::vector<records::Record> small_log() {
  records::SeasonSetup season;
  season.name = "Fuzz";
  season.first_day = *date_from_iso("2030-09-02");
  season.species = "brook_trout";
  records::KitTest card{.key = "ph", .steps = {6, 7, 8}};
  return {{1, now, {now, "A", {}, {}, season}}, {2, now, {now, "A", {}, {}, records::Kit{"class", "Class", {card}}}}, {3, now, {now, "A", {}, {}, records::Note{"n"}}}};
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  static const auto log = small_log();
  if (const auto entry = wire::entry_from_json(text, now)) {
    const records::Record record{4, now, *entry};
    const std::string json = wire::json_from_record(record);
    const auto back = wire::record_from_json(json);
    expect(back && wire::json_from_record(*back) == json);
    for (const Problem& p : records::problems_of(*entry, log, ZoneOffsets{}, now)) expect(!p.code.empty() && !p.sentence.empty());
  } else {
    for (const Problem& p : entry.problems()) expect(!p.code.empty() && !p.sentence.empty());
  }
  if (const auto record = wire::record_from_json(text)) {
    const std::string json = wire::json_from_record(*record);
    const auto back = wire::record_from_json(json);
    expect(back && wire::json_from_record(*back) == json);
  }
  if (const auto season = ledger::records_of_season_file(text)) {
    const auto back = ledger::records_of_season_file(ledger::season_file(*season));
    expect(back && ledger::season_file(*back) == ledger::season_file(*season));
  }
  return 0;
}
