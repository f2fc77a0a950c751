// server/calendar_context.h
// What an import of the school's calendar needs to know of the season, the same on the page and at the command line.
#pragma once

#include "intake/calendar.h"
#include "server/season_desk.h"

namespace redd::server {

/// From filling to the end of a school year, or a month past the permit's last day.
///
/// In      look: with a season.
intake::CalendarContext calendar_context(const Look& look, Instant now);

}  // namespace redd::server
