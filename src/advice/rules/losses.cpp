// Many dead within days: whatever the tests say, something is wrong.

#include "advice/rule.h"

namespace redd::advice::rules {

std::vector<Action> losses(const Situation& s) {
  // Assumed until the season has its own chart of losses: three in a hundred within three days is more than picking out
  // the odd dead egg; one in ten is an emergency.
  constexpr double window_days = 3.0, many_fraction = 0.03, disaster_fraction = 0.10;
  constexpr int fewest = 5;
  if (!inference::has_animals(s.belief.brood.animals) || s.belief.brood.received_count <= 0) return {};
  int dead = 0;
  std::vector<records::RecordId> ids;
  for (const auto& record : s.records) {
    const auto* count = std::get_if<records::Count>(&record.entry.body);
    if (!count || count->count == 0 || !records::are_dead(count->what)) continue;
    if (days_between(record.entry.at, s.now).count() > window_days) continue;
    dead += count->count;
    ids.push_back(record.id);
  }
  const double share = static_cast<double>(dead) / s.belief.brood.received_count;
  if (dead < fewest || share < many_fraction) return {};
  Action a;
  a.rule = "losses";
  a.tone = share >= disaster_fraction ? Tone::alarm : Tone::act;
  a.concern = {"More have died than is usual."};
  a.what = {"Find out why they are dying."};
  a.how_much = {"In this order: flow and air at the eggs or fish, temperature, ammonia with pH, nitrite, chlorine. Take the dead out and count them."};
  a.by = s.end_of(s.today());
  a.by_text = {"now"};
  a.effort_minutes = 30;
  a.because.push_back({{"{0} dead were logged in the last three days, {1} of the {2} received.", {Number{dead}, Share{share}, Number{s.belief.brood.received_count}}}, ids});
  a.would_change_if.push_back({{"A count that was mistyped: correct that record."}, ids});
  a.cautions.push_back({"Call the egg supplier or agency, who may want samples; use no medicine without them or a vet."});
  a.cautions.push_back({"Gloves, and the dead by the local rule; wash hands."});
  a.sources = {"thresholds: common practice, no source"};
  return {a};
}

}  // namespace redd::advice::rules
