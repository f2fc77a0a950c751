#pragma once
// A desk that remembers what was added through it, so that the list of who did what can tell.

#include "desk/desk.h"
#include "server/audit_journal.h"

namespace redd::server {

/// For one request, on one thread.
class WitnessDesk final : public desk::Desk {
 public:
  explicit WitnessDesk(desk::Desk& behind) : behind_(behind) {}

  Instant clock() const override { return behind_.clock(); }
  Result<std::shared_ptr<const desk::Look>> look() override { return behind_.look(); }
  Result<records::Appended> add(const records::Entry& entry, Instant now) override;
  Result<std::vector<records::Appended>> add_all(const std::vector<records::Entry>& entries, Instant now) override;
  Result<std::size_t> take_in(std::span<const records::Record> file) override;
  std::vector<records::Kit> kit_templates() const override { return behind_.kit_templates(); }

  const std::vector<KeptRecord>& added() const { return added_; }
  const std::vector<KeptRecord>& taken_in() const { return taken_in_; }

 private:
  void remember(const records::Appended& appended);
  desk::Desk& behind_;
  std::vector<KeptRecord> added_{}, taken_in_{};
};

}  // namespace redd::server
