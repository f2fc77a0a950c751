#pragma once
// A season as it stands at one moment of reading, and what follows from it for every question. Start at Look.

#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "quantities/result.h"
#include "quantities/time.h"
#include "records/record.h"

namespace redd::desk {

/// Everything known of the season at one moment of reading. Never changes; a later look() gives another.
struct Look {
  std::vector<records::Record> records{};
  std::vector<records::Unreadable> unreadable{};
  std::optional<records::SeasonSetup> season{};  ///< none: nothing has been set up yet
  ZoneOffsets zone{};                            ///< of the school; UTC while there is no season
  std::optional<Date> opening_day{};             ///< day the packed demo opens on
  std::vector<Phrase> of_copies{};               ///< what is wrong with keeping copies of the season, in sentences
  bool invented() const { return season && season->invented; }
};

/// What makes any answer from this file doubtful, in sentences: records that can't be read, a clock behind the newest entry,
/// copies that can't be made.
/// It may be the very thing that mattered, so every view shows it.
std::vector<Phrase> doubts_of(const Look& look, Instant clock);

/// What a change of kits took away: readings that could be read on their kit before and can't be any more, by test, in a
/// sentence a kit. Empty when nothing was lost.
std::vector<Phrase> lost_readings(std::span<const records::Record> before, std::span<const records::Record> after);

/// First and last day of an invented season's story, and the day it opens on.
struct Story {
  Date first_day{};
  Date last_day{};
  Date today{};
};

/// Story of an invented season; nothing for a real or an empty one.
std::optional<Story> story_of(const Look& look);

/// The moment a question is about.
///
/// In      as_of: "2031-02-14" (that evening, after the last entry of the day) or RFC 3339; nothing: now. clock: the present moment.
/// Errors  not_an_instant; not_yet (a real season has no tomorrow); before_the_season. The field is "as_of".
Result<Instant> moment_of(const Look& look, std::optional<std::string_view> as_of, Instant clock);

/// The beginning of this moment's minute, so that one answer serves all who ask within it; the moment itself where something was logged or
/// happened in between.
Instant minute_of(const Look& look, Instant now);

/// What records::problems_of() can't check of a season: that its species and development model exist. Fields below "/body".
Problems problems_of_species(const records::SeasonSetup& season);

/// Kits in force at a moment, the newest of each key, in order of key.
std::vector<records::Kit> kits_in_force(const Look& look, Instant now);

}  // namespace redd::desk
