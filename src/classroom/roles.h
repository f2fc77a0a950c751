#pragma once
// Who may do what when several people share one season over the local network. What is written in no table here is the keeper's alone.
// Start at lowest_role().

#include <span>
#include <string_view>

#include "records/record.h"

namespace redd::classroom {

/// Each may do what those before it may.
enum class Role {
  nobody,        ///< on the network, not signed in
  bench,         ///< with a short-lived code: looks at the bench, adds readings
  keeper,        ///< with the passphrase: everything
  this_machine,  ///< at the keeper's own machine, where nobody signs in: everything
};

/// "nobody", "bench", "keeper", "this_machine".
std::string_view name_of(Role role);
/// Errors  nothing for a word that is none of them.
std::optional<Role> role_of(std::string_view name);

/// One address that less than the keeper may ask.
struct OpenAddress {
  std::string_view method;  ///< GET (and HEAD) or POST
  std::string_view path;
  Role lowest;
  std::string_view why;
};

/// All of them, in the order of the guide's table.
std::span<const OpenAddress> open_addresses();

/// The least that a request takes. The page's own files hold nothing of a season and are open to anybody who finds the address;
/// redd.html is large and of no use to a guest, so it is not.
///
/// In      path: percent-decoded, as it is routed.
Role lowest_role(std::string_view method, std::string_view path);

/// Whether this kind of record may be added with a bench code: readings of water and temperatures.
bool bench_may_log(std::string_view kind);
/// Those kinds, for the page.
std::span<const std::string_view> kinds_of_the_bench();

/// What keeps an entry of the bench out, beside what would keep anybody's out: another kind, a correction of what is there, another team's
/// label, a time that is not about now. Fields as in the entry.
///
/// In      label: the team the code is bound to, empty for any. now: when it will count as written down.
Problems problems_of_bench_entry(const records::Entry& entry, std::string_view label, Instant now);

}  // namespace redd::classroom
