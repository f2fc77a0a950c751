#pragma once
// What we believe of the tank and the brood now, and how sure. Start at estimate().
// Version 1: each quantity from its own latest readings, carried over the water changes and doses since. Nothing is assumed to
// stay well between tests: a reading grows old, and an old one is called so.

#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "biology/development_forecast.h"
#include "inference/card_reading.h"
#include "quantities/sentence.h"
#include "records/record.h"

namespace redd::inference {

using records::Quantity;
using records::RecordId;

/// The latest record of a day-by-day quantity and the tests before it.
struct SeriesPoint {
  Instant at{};
  Estimate<double> value{};   ///< canonical unit; of this reading alone
  bool open_above = false;
  Phrase raw_text{};     ///< in the card's own words
  RecordId id = 0;
  std::string team{};
};

/// Why the readings of a quantity are not taken for sure.
struct ReadingDoubt {
  Sentence why{};
  Estimate<double> unwidened{};       ///< the value as if they were
  std::vector<RecordId> records{};
};

/// One quantity of the water, in the program's own unit (mg N/L, pH, meq/L, mg/L).
struct QuantityBelief {
  Quantity quantity = Quantity::ph;
  records::TestUnit unit = records::TestUnit::ph;  ///< of the latest reading: what the keeper's card prints
  Estimate<double> value{};           ///< now: the latest sitting's readings, carried over what was done since
  Estimate<double> as_read{};         ///< at that sitting
  bool open_above = false;            ///< only "at least low" is known
  bool disagree = false;              ///< readings of the sitting can hardly all be right
  Instant read_at{};
  double age_days = 0;
  std::vector<RecordId> records{};    ///< the readings of the sitting and the events since that moved it
  Phrase raw_text{};
  std::vector<Sentence> adjustments{};
  std::vector<SeriesPoint> series{};  ///< every reading that counts, oldest first
  std::vector<SeriesPoint> sittings{};  ///< one pooled point a day of tests, oldest first
  std::optional<ReadingDoubt> doubt{};  ///< `value` is widened for it; planning::with_doubt() fills it
};

/// Readings older than this no longer say how the water is. Assumed: the weekly test plus two days' grace.
inline constexpr double stale_after_days = 9.0;
inline bool is_stale(const QuantityBelief& q) { return q.age_days > stale_after_days; }

/// Temperature of the tank, day by day.
struct TemperatureBelief {
  std::vector<biology::DailyTemperature> days{};   ///< first day of the season to the end of the plan, no gaps
  std::optional<Temperature> latest{};
  std::optional<Temperature> set_point{};
  Instant read_at{};
  double age_days = 0;
  RecordId record = 0;
  std::vector<SeriesPoint> series{};
};

/// What lives in the tank.
enum class Animals { none, green_egg, eyed_egg, alevin, fry, released };
inline bool has_animals(Animals a) { return a != Animals::none && a != Animals::released; }
inline bool are_eggs(Animals a) { return a == Animals::green_egg || a == Animals::eyed_egg; }

struct BroodBelief {
  Animals animals = Animals::none;             ///< most likely stage of the middle animal
  Animals most_sensitive = Animals::none;      ///< the youngest stage with a share of at least 5 %
  std::optional<biology::SpeciesProfile> species{};
  std::optional<biology::DevelopmentForecast> forecast{};
  std::optional<RecordId> receipt{};
  Date received{};                             ///< with a receipt
  std::optional<biology::BatchStart> start{};  ///< what the hatchery said of it
  std::vector<biology::ObservedMilestone> seen{};  ///< what was looked for, in order of day
  std::vector<RecordId> milestone_records{};
  int received_count = 0;
  int dead_count = 0;
  int released_count = 0;
  std::optional<Estimate<double>> alive{};     ///< animals now, from receipts, dead, releases and counts; see counts_account.h
};
/// The animals left, as one number for whoever needs one: the middle estimate, else what the book leaves; never below 0.
int animals_left(const BroodBelief& brood);

struct Belief {
  std::map<Quantity, QuantityBelief> water{};  ///< only what was ever read
  std::optional<records::SourceWater> source{};
  RecordId source_record = 0;
  TemperatureBelief temperature{};
  BroodBelief brood{};
  std::optional<double> chloride_mg_per_l{};   ///< read in the tank, else of the source water
  std::vector<Sentence> gaps{};                ///< what is missing, and what that means

  const QuantityBelief* find(Quantity quantity) const;
};

/// A nitrogen value on the basis the keeper's own card prints for this quantity; nitrate of a card that is not known as NO3, the rest as N.
ShownNitrogen on_card(const Belief& belief, Quantity quantity, double mg_n_per_l);

/// Concentration of un-ionized ammonia from total ammonia, pH and temperature. The low end takes all three low, the high
/// end all three high: an alarm must hold for the worst the readings allow.
struct UnIonized {
  Estimate<double> mg_n_per_l{};
  bool open_above = false;
  bool ph_known = true;   ///< false: no pH was ever read and the range 6.5-8.5 was taken
  std::vector<RecordId> records{};
};
std::optional<UnIonized> un_ionized_ammonia(const Belief& belief);

/// That the set-up's egg day is only assumed, while it still counts: no eggs have come.
std::optional<Sentence> egg_day_assumed(const records::SeasonSetup& season, const BroodBelief& brood);

/// In      records: effective ones (records::effective()), of one season. now: nothing later is looked at.
/// Out     always an answer; what is missing is said in `gaps`.
Belief estimate(const records::SeasonSetup& season, std::span<const records::Record> records, const ZoneOffsets& zone, Instant now);

}  // namespace redd::inference
