// links: intake
// Any bytes as a file to import. Besides not crashing: what is accepted must be sane, reading it twice must give the same,
// and a preview must never hand out entries while a question is open.

#include <cmath>
#include <cstdlib>

#include "intake/csv.h"
#include "intake/import.h"

namespace {

using namespace redd;

void expect(bool condition) {
  if (!condition) std::abort();
}

intake::Context context() {
  records::KitTest ammonia{.key = "ammonia", .quantity = records::Quantity::total_ammonia, .unit = records::TestUnit::mg_nh4_per_l, .steps = {0.1, 0.4, 0.9}};
  records::KitTest kh{.key = "kh", .quantity = records::Quantity::alkalinity, .method = records::Method::drop_count, .unit = records::TestUnit::german_degrees, .per_drop = 0.5};
  records::KitTest ph{.key = "ph", .quantity = records::Quantity::ph, .method = records::Method::meter, .unit = records::TestUnit::ph, .accuracy = 0.1};
  const auto at = [](const char* text) { return *instant_from_rfc3339(text); };
  return {{{"class", "Class", {ammonia, kh, ph}}},
          {"America/Denver", {{at("2030-09-01T00:00:00Z"), std::chrono::hours(-6)}, {at("2030-11-03T08:00:00Z"), std::chrono::hours(-7)}, {at("2031-03-09T09:00:00Z"), std::chrono::hours(-6)}}},
          *date_from_iso("2030-09-02"),
          at("2031-06-01T18:00:00Z")};
}

/// The first byte chooses what the keeper says; the rest is the file.
intake::Settings settings_of(unsigned char choice) {
  intake::Settings settings;
  if (choice & 1) settings.time_zone = "UTC";
  if (choice & 2) settings.date_order = "dmy";
  if (choice & 4) settings.unit = "f";
  if (choice & 8) settings.kind = (choice & 16) ? "readings_wide" : (choice & 32) ? "readings_long" : "temperature_logger";
  if (choice & 64) settings.drop_cells = "value";
  if (choice & 64) settings.dead_counts = "total";
  if (choice & 128) settings.decimal_mark = "comma";
  return settings;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
  if (size == 0) return 0;
  const std::string_view bytes(reinterpret_cast<const char*>(data) + 1, size - 1);
  static const intake::Context season = context();
  const intake::Settings settings = settings_of(data[0]);
  const auto preview = intake::preview_import(bytes, settings, season);
  if (!preview) {
    for (const Problem& p : preview.problems()) expect(!p.code.empty() && !p.sentence.empty());
    return 0;
  }
  expect(preview->good.size() + preview->own_kits == preview->entries.size());
  expect(!preview->columns.empty());
  for (const auto& entry : preview->entries) {
    expect(entry.entry_key && entry.entry_key->size() <= 64);
    expect(entry.at <= season.now + std::chrono::hours(24));
    if (const auto* c = std::get_if<records::Count>(&entry.body)) expect(c->count >= 0);
    if (const auto* t = std::get_if<records::TemperatureReading>(&entry.body)) expect(std::isfinite(t->temperature.c()) && std::abs(t->temperature.c()) <= 60);
  }
  const auto kept = intake::entries_to_keep(*preview, {true, true});
  for (const auto& guess : preview->guesses)
    if (guess.certainty == intake::Certainty::open) expect(!kept);
  const auto again = intake::preview_import(bytes, settings, season);
  expect(again && intake::json_from_preview(*again) == intake::json_from_preview(*preview));
  return 0;
}
