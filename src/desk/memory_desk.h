#pragma once
// A season in memory alone, for a page that runs without a server. It keeps nothing for good: added() hands over what
// was taken, and the page stores it before it answers. Start at MemoryDesk.

#include <map>
#include <string>

#include "desk/desk.h"
#include "ledger/ledger.h"

namespace redd::desk {

class MemoryDesk final : public Desk {
 public:
  /// In      kit_templates, opening_day: what the program carries. zones are learnt with know_zone().
  MemoryDesk(std::vector<records::Kit> kit_templates, std::optional<Date> opening_day);
  MemoryDesk(const MemoryDesk&) = delete;  // the ledger asks this very desk for zones
  MemoryDesk& operator=(const MemoryDesk&) = delete;

  /// The present moment, told with each question: nothing here reads a clock.
  void set_clock(Instant now) { clock_ = now; }

  /// Offsets of a zone over the days a season in it needs: from a year before its first day to three years after.
  void know_zone(ZoneOffsets zone);

  Instant clock() const override { return clock_; }
  Result<std::shared_ptr<const Look>> look() override { return look_; }
  Result<records::Appended> add(const records::Entry& entry, Instant now) override;
  Result<std::vector<records::Appended>> add_all(const std::vector<records::Entry>& entries, Instant now) override;
  Result<std::size_t> take_in(std::span<const records::Record> file) override;
  std::vector<records::Kit> kit_templates() const override { return kit_templates_; }

  /// What was added since the last call, in order.
  std::vector<records::Record> added();
  /// Takes records that are kept already, as they are.
  /// Errors  ids_not_in_order; unknown_time_zone.
  Result<std::size_t> restore(std::vector<records::Record> kept);

 private:
  struct Dated {
    records::Entry entry;
    Instant logged_at;
  };
  Result<ZoneOffsets> zone_of(const records::SeasonSetup& season) const;
  Problems problems_of_names(const records::Entry& entry) const;
  Result<std::vector<records::Appended>> keep(const std::vector<Dated>& entries, bool in_a_batch);
  Problems renew();

  std::vector<records::Kit> kit_templates_;
  std::optional<Date> opening_day_;
  Instant clock_{};
  std::map<std::string, ZoneOffsets, std::less<>> zones_;
  ledger::Ledger ledger_;
  std::size_t handed_over_ = 0;
  std::shared_ptr<const Look> look_;
};

}  // namespace redd::desk
