#pragma once
// Where a question is answered from and an entry is kept: the server's season file, or the memory of a page that runs
// without a server. Handlers know only this. Start at Desk.

#include "desk/look.h"

namespace redd::desk {

class Desk {
 public:
  virtual ~Desk() = default;

  virtual Instant clock() const = 0;

  /// The season as it is kept now.
  virtual Result<std::shared_ptr<const Look>> look() = 0;

  /// Keeps an entry; a set-up begins the season.
  ///
  /// In      now: from written_at().
  /// Errors  no_season, unknown_species, unknown_model, unknown_time_zone, and those of ledger::Ledger::next().
  virtual Result<records::Appended> add(const records::Entry& entry, Instant now) = 0;

  /// Keeps all or none. Fields of problems start with "/entries/<index>".
  virtual Result<std::vector<records::Appended>> add_all(const std::vector<records::Entry>& entries, Instant now) = 0;

  /// Keeps what is new in a saved season: all of it where there is none, else only what continues the same season.
  ///
  /// Out     how many records were added.
  /// Errors  those of ledger::new_records() and of keeping each record.
  virtual Result<std::size_t> take_in(std::span<const records::Record> file) = 0;

  /// Kits without a brand that come with the program, to start from.
  virtual std::vector<records::Kit> kit_templates() const = 0;

  /// moment_of() by this desk's clock.
  Result<Instant> moment(const Look& look, std::optional<std::string_view> as_of) const { return moment_of(look, as_of, clock()); }

  /// When an entry counts as written down: in an invented season on the day that is looked at, in a real one now, whatever day is looked at.
  /// A guess "written" before the reading it is about would be worth nothing.
  ///
  /// In      looked_at: from moment() of the same look.
  Instant written_at(const Look& look, Instant looked_at) const;

 protected:
  Desk() = default;
  Desk(const Desk&) = default;
  Desk& operator=(const Desk&) = default;
};

}  // namespace redd::desk
