#pragma once
// What was worked out beside a day's belief for advice to speak of, and the water programme that stands on that advice. One place, so that today's list and
// the water's programme are of one voice. Start at DayLooks.

#include "advice/looks.h"
#include "inference/counts.h"
#include "planning/feed_plan.h"
#include "planning/loading.h"
#include "planning/water_programme.h"
#include "season/season.h"

namespace redd::season {

/// Lives as long as advice reads its looks(); neither copied nor moved, since they point into it.
class DayLooks {
 public:
  /// In      day: believed, its doubts reckoned with. filter: of the same records and moment; nullptr when not worked out. Both outlive this.
  DayLooks(const DayView& day, const planning::FilterOutlook* filter);
  DayLooks(const DayLooks&) = delete;
  DayLooks& operator=(const DayLooks&) = delete;

  /// Without the water programme.
  advice::Looks looks() const;
  /// On top of what the list asks; nothing as planning::water_programme().
  /// In      on_list: today's list speaks of the programme, and so of what else it knows of the water.
  std::optional<planning::WaterProgramme> water_programme(bool on_list) const;

 private:
  const DayView& day_;
  const planning::FilterOutlook* filter_;
  std::vector<emergency::Emergency> emergencies_{};
  inference::Counts counts_;
  std::optional<planning::FeedPlan> feed_;
  planning::LoadingView loading_;
};

/// As believed_day(), with what is in doubt widened.
Result<DayView> doubted_day(const Setup& setup, std::span<const records::Record> records, Instant now, const planning::FilterOutlook* filter);

}  // namespace redd::season
