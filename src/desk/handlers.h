// desk/handlers.h
// One function for each line of the table in route_table.cpp.
#pragma once

#include "desk/routes.h"

namespace redd::desk {

Response season_state(const Call& call);
Response day(const Call& call);
Response filter(const Call& call);
Response cancel_filter(const Call& call);
Response start_filter(const Call& call);
Response plan(const Call& call);
Response plan_ics(const Call& call);
Response wall(const Call& call);
Response try_plan(const Call& call);
Response heat(const Call& call);
Response counts(const Call& call);
Response season_report(const Call& call);
Response next_year(const Call& call);
Response feed(const Call& call);
Response loading(const Call& call);
Response water_plan(const Call& call);
Response try_water(const Call& call);
Response what_if_base(const Call& call);
Response what_if(const Call& call);
Response lessons(const Call& call);
Response add_guess(const Call& call);
Response emergencies(const Call& call);
Response one_emergency(const Call& call);
Response emergency_card(const Call& call);
Response history(const Call& call);
Response kits(const Call& call);
Response add_record(const Call& call);
Response undo_record(const Call& call);
Response kinds(const Call& call);
Response species(const Call& call);
Response calc_list(const Call& call);
Response ask_bench(const Call& call);
Response calc_answer(const Call& call);
Response export_season(const Call& call);
Response water_quality_csv(const Call& call);
Response import_season(const Call& call);

/// The status that fits problems: 400 not JSON at all, 404, 409 in conflict with the log, 422 wrong content, 5xx the
/// disk.
int status_of(const Problems& problems);

/// The season to hand out as a file. Errors  what keeps it from being read, no_season, records that can't be understood: a file with a hole in it could
/// not be opened again, and would be taken for a good copy.
Result<std::shared_ptr<const Look>> whole_season(const Call& call);

/// The reader at the school's clock.
report::Reader in_zone(report::Reader reader, const ZoneOffsets& zone);

/// Problems with that status.
Response refused(const Problems& problems);

/// "before_id" and the like: a whole number from `low` to `high`, or the default when absent.
Result<long long> whole_parameter(const Request& request, std::string_view name, long long low, long long high,
                                  long long absent);

/// "target_c" and the like: a number from `low` to `high`, or nothing when absent.
Result<std::optional<double>> number_parameter(const Request& request, std::string_view name, double low, double high);

}  // namespace redd::desk
