#pragma once
// Local times of a file on the line of instants: which zone they are in, and what becomes of the hour that occurs twice
// and the hour that never occurs where clocks change.

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "intake/detail/table.h"

namespace redd::intake::detail {

/// One row's time as read, in the order of the file.
struct RowTime {
  std::size_t row = 0;  ///< index into Table::rows
  std::chrono::local_seconds local{};
  std::optional<std::chrono::seconds> offset{};  ///< when the cell itself says
};

/// The same row in time, or why it has none.
using PlacedTime = std::variant<Instant, Problem>;

/// In      is_trace: rows follow each other at even steps (a logger), so that their order tells the repeated hour's halves
///         apart and shows whether the logger's clock was changed at all.
/// Out     one result a row; adds the guess "time_zone" and notes.
/// Errors  an unknown zone in the settings.
Result<std::vector<PlacedTime>> placed_in_time(const std::vector<RowTime>& times, bool is_trace, const Table& table,
                                               const Settings& settings, const Context& context, Preview& preview);

/// The part of a file the keeper wants: nothing before `from`, nothing from `end` on.
struct Window {
  std::optional<Instant> from{};
  std::optional<Instant> end{};
  bool holds(Instant at) const { return (!from || at >= *from) && (!end || at < *end); }
};

/// Errors  not_a_time when "from" or "to" is neither RFC 3339 nor a day.
Result<Window> window_of(const Settings& settings, const ZoneOffsets& zone);

}  // namespace redd::intake::detail
