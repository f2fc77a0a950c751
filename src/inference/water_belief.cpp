#include "inference/water_belief.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "chemistry/dosing.h"
#include "chemistry/mixing.h"
#include "quantities/one_or_several.h"
#include "quantities/verbatim.h"

namespace redd::inference {
namespace {

using records::Dose;
using records::Reading;
using records::Record;
using records::SourceWater;
using records::Substance;
using records::TopUp;
using records::WaterChange;

Phrase pooled_text(const std::vector<SeriesPoint>& points) {
  Phrase all;
  for (const SeriesPoint& p : points) {
    const Phrase own = p.team.empty() ? p.raw_text : said("{0}: {1}", verbatim(p.team), p.raw_text);
    all = all.empty() ? own : said("{0}; {1}", all, own);
  }
  return all;
}

struct Sitting {
  std::vector<TestReading> reads;
  std::vector<SeriesPoint> points;
};

/// value_behind() of single readings, each worked out once: a season asks the same few steps of the same card over and over.
class SingleReadings {
 public:
  const std::optional<ValueBehind>& of(const records::Kit& kit, const TestReading& read) {
    const Key key{&kit, read.reading.test, read.reading.form, read.reading.value, read.reading.upper_value};
    const auto found = known_.find(key);
    return found != known_.end() ? found->second : known_.emplace(key, value_behind(std::span(&read, 1))).first->second;
  }

 private:
  using Key = std::tuple<const records::Kit*, std::string, Reading::Form, std::optional<double>, std::optional<double>>;
  std::map<Key, std::optional<ValueBehind>> known_;
};

/// A school-local day, and how often the water was changed or dosed before: what was read before and after is two sittings.
using SittingKey = std::pair<Date, int>;

/// Readings of one quantity grouped by sitting.
std::map<Quantity, std::map<SittingKey, Sitting>> sittings_of(std::span<const Record> records, const ZoneOffsets& zone, int& unusable) {
  std::map<Quantity, std::map<SittingKey, Sitting>> result;
  int deeds = 0;
  SingleReadings single_readings;
  std::map<std::string, const records::Kit*, std::less<>> kits;  // the newest of each key, as find_kit() gives
  for (const Record& record : records)
    if (const auto* kit = std::get_if<records::Kit>(&record.entry.body)) kits[kit->key] = kit;
  for (const Record& record : records) {
    if (std::holds_alternative<WaterChange>(record.entry.body) || std::holds_alternative<Dose>(record.entry.body)) ++deeds;
    const auto* reading = std::get_if<Reading>(&record.entry.body);
    if (!reading) continue;
    const auto kit = kits.find(reading->kit);
    const records::KitTest* test = kit != kits.end() ? records::find_test(*kit->second, reading->test) : nullptr;
    const TestReading read{test ? *test : records::KitTest{}, *reading};
    const auto& alone = test ? single_readings.of(*kit->second, read) : std::nullopt;
    if (!alone) {
      ++unusable;
      continue;
    }
    Sitting& sitting = result[test->quantity][{local_day(zone, record.entry.at), deeds}];
    sitting.reads.push_back(read);
    sitting.points.push_back({record.entry.at, alone->value, alone->open_above, records::reading_text(*test, *reading), record.id, reading->team.value_or("")});
  }
  return result;
}

/// The same quantity of a source water, canonical unit.
std::optional<double> in_source(const SourceWater& water, Quantity quantity) {
  const auto n = [](const std::optional<NitrogenConc>& c) { return c ? std::optional(c->mg_n_per_l()) : std::nullopt; };
  switch (quantity) {
    case Quantity::total_ammonia: return n(water.total_ammonia);
    case Quantity::nitrite: return n(water.nitrite);
    case Quantity::nitrate: return n(water.nitrate);
    case Quantity::ph: return water.ph ? std::optional(water.ph->ph()) : std::nullopt;
    case Quantity::alkalinity: return water.alkalinity ? std::optional(water.alkalinity->meq_per_l()) : std::nullopt;
    case Quantity::hardness: return water.hardness ? std::optional(water.hardness->meq_per_l()) : std::nullopt;
    case Quantity::chloride: return water.chloride_mg_per_l;
    case Quantity::chlorine: return water.chlorine_mg_per_l;
    case Quantity::oxygen: return std::nullopt;  // moving water to air sets it, not mixing
  }
  return std::nullopt;
}

/// Carries beliefs over what was done to the tank, one event after the other.
class Carrier {
 public:
  Carrier(const records::SeasonSetup& season, std::span<const Record> records, Temperature temperature, std::map<Quantity, QuantityBelief>& water)
      : season_(season), records_(records), temperature_(temperature), water_(water) {}

  void carry_all() {
    for (const Record& record : records_) {
      if (const auto* change = std::get_if<WaterChange>(&record.entry.body)) carry(record, *change);
      if (const auto* dose = std::get_if<Dose>(&record.entry.body)) carry(record, *dose);
      if (const auto* top_up = std::get_if<TopUp>(&record.entry.body)) carry(record, *top_up);
    }
  }

 private:
  /// The belief when the event came after its reading; nullptr otherwise.
  QuantityBelief* after_reading(Quantity quantity, const Record& event) {
    const auto found = water_.find(quantity);
    return found != water_.end() && event.entry.at > found->second.read_at ? &found->second : nullptr;
  }

  static void moved(QuantityBelief& belief, const Record& event, Sentence sentence) {
    belief.value.support = Support::inferred;
    belief.records.push_back(event.id);
    belief.adjustments.push_back(std::move(sentence));
  }

  void carry(const Record& record, const WaterChange& change) {
    const double fraction = std::clamp(change.volume.l() / season_.volume.l(), 0.0, 1.0);
    const auto source = source_water(records_, change.source_water);
    carry_ph(record, fraction, source);  // first: it needs the alkalinity from before the change
    for (auto& [quantity, belief] : water_) {
      if (quantity == Quantity::ph || quantity == Quantity::oxygen || quantity == Quantity::chlorine) continue;
      if (!after_reading(quantity, record)) continue;
      std::optional<double> incoming = source ? in_source(*source, quantity) : std::nullopt;
      if (quantity == Quantity::total_ammonia && source && source->chloramine && source->chlorine_mg_per_l)
        incoming = incoming.value_or(0.0) + chemistry::ammonia_released_by(*source->chlorine_mg_per_l).mg_n_per_l();
      Estimate<double>& v = belief.value;
      if (incoming) {
        v.low = chemistry::mixed_value(fraction, *incoming, v.low);
        v.mid = chemistry::mixed_value(fraction, *incoming, v.mid);
        v.high = chemistry::mixed_value(fraction, *incoming, v.high);
        moved(belief, record, {"Carried over the water change of {0} of the tank.", {Share{fraction}}});
      } else {
        // Unknown new water: it may have diluted fully or not at all.
        v.mid = (v.mid + chemistry::mixed_value(fraction, 0.0, v.mid)) / 2.0;
        v.low = chemistry::mixed_value(fraction, 0.0, v.low);
        moved(belief, record, {"Widened by the water change of {0} of the tank, whose new water was not described.", {Share{fraction}}});
      }
    }
  }

  void carry_ph(const Record& record, double fraction, const std::optional<SourceWater>& source) {
    QuantityBelief* ph = after_reading(Quantity::ph, record);
    if (!ph) return;
    const auto alkalinity = water_.find(Quantity::alkalinity);
    if (source && source->ph && source->alkalinity && alkalinity != water_.end()) {
      const chemistry::BufferedWater incoming{temperature_, *source->ph, *source->alkalinity};
      const chemistry::BufferedWater tank{temperature_, Ph::from_ph(ph->value.mid), Alkalinity::from_meq_per_l(alkalinity->second.value.mid)};
      if (const auto mix = chemistry::mixed(incoming, tank, fraction)) {
        // Just after the change the closed mixture holds; with air running the tank drifts back towards where it stood.
        const double shift = mix->just_mixed.ph - ph->value.mid;
        ph->value.low += std::min(0.0, shift);
        ph->value.high += std::max(0.0, shift);
        moved(*ph, record, {"Widened by the water change of {0} of the tank.", {Share{fraction}}});
        return;
      }
    }
    ph->value.low -= fraction;
    ph->value.high += fraction;
    moved(*ph, record, {"Widened by the water change of {0} of the tank, whose new water was not described.", {Share{fraction}}});
  }

  /// What evaporated was pure water, so topping up only adds what the new water holds. Nobody knows how far the water stood down when it was read:
  /// not at all (high end) or already by all of it (low end).
  void carry(const Record& record, const TopUp& top_up) {
    const double share = std::clamp(top_up.volume.l() / season_.volume.l(), 0.0, 1.0);
    const auto source = source_water(records_, top_up.source_water);
    for (auto& [quantity, belief] : water_) {
      if (quantity == Quantity::ph || quantity == Quantity::oxygen || quantity == Quantity::chlorine || !after_reading(quantity, record)) continue;
      std::optional<double> incoming = source ? in_source(*source, quantity) : std::nullopt;
      if (quantity == Quantity::total_ammonia && source && source->chloramine && source->chlorine_mg_per_l)
        incoming = incoming.value_or(0.0) + chemistry::ammonia_released_by(*source->chlorine_mg_per_l).mg_n_per_l();
      Estimate<double>& v = belief.value;
      v.low = (1.0 - share) * v.low + share * incoming.value_or(0.0);
      v.mid = (1.0 - 0.5 * share) * v.mid + share * incoming.value_or(0.5 * v.mid);
      v.high += share * incoming.value_or(v.high);
      moved(belief, record, {"Carried over a top-up of {0}, which dilutes nothing.", {top_up.volume}});
    }
  }

  void carry(const Record& record, const Dose& dose) {
    const double mg_per_l = dose.mass.mg() / season_.volume.l();
    const auto raise = [&](Quantity quantity, double by, const char* sentence) {
      QuantityBelief* belief = after_reading(quantity, record);
      if (!belief) return;
      belief->value = {belief->value.low + by, belief->value.mid + by, belief->value.high + by, Support::inferred};
      moved(*belief, record, {sentence, {dose.mass}});
    };
    switch (dose.substance) {
      case Substance::sodium_bicarbonate:
        raise(Quantity::alkalinity, mg_per_l / chemistry::bicarbonate_mg_per_meq, "Raised by the dose of {0} sodium bicarbonate.");
        if (QuantityBelief* ph = after_reading(Quantity::ph, record)) {
          ph->value.high += 0.3;  // Assumed: a school-sized dose lifts pH by at most this until the air has evened it out
          moved(*ph, record, {"Widened by the dose of {0} sodium bicarbonate.", {dose.mass}});
        }
        break;
      case Substance::calcium_chloride_dihydrate:
        raise(Quantity::hardness, mg_per_l / chemistry::calcium_chloride_mg_per_meq, "Raised by the dose of {0} calcium chloride.");
        raise(Quantity::chloride, mg_per_l / chemistry::calcium_chloride_mg_per_meq * chemistry::calcium_chloride_adds_chloride_mg_per_meq,
              "Raised by the dose of {0} calcium chloride.");
        break;
      case Substance::magnesium_sulfate_heptahydrate:
        raise(Quantity::hardness, mg_per_l / chemistry::magnesium_sulfate_mg_per_meq, "Raised by the dose of {0} magnesium sulfate.");
        break;
      case Substance::ammonium_chloride:
        raise(Quantity::total_ammonia, mg_per_l / chemistry::ammonium_chloride_mg_per_mg_n, "Raised by the dose of {0} ammonium chloride.");
        break;
      case Substance::sodium_thiosulfate_pentahydrate:
      case Substance::other: break;
    }
  }

  const records::SeasonSetup& season_;
  std::span<const Record> records_;
  Temperature temperature_;
  std::map<Quantity, QuantityBelief>& water_;
};

}  // namespace

namespace {

/// What is meant where none is named. Distilled water for topping up is no water to change with.
std::optional<std::string> usual_source_key(std::span<const Record> records) {
  std::set<std::string> topped_up_with;
  for (std::size_t i = records.size(); i-- > 0;) {
    if (const auto* change = std::get_if<WaterChange>(&records[i].entry.body); change && change->source_water) return change->source_water;
    if (const auto* top_up = std::get_if<TopUp>(&records[i].entry.body); top_up && top_up->source_water) topped_up_with.insert(*top_up->source_water);
  }
  for (std::size_t i = records.size(); i-- > 0;)
    if (const auto* water = std::get_if<SourceWater>(&records[i].entry.body); water && !topped_up_with.contains(water->key)) return water->key;
  return std::nullopt;
}

std::optional<SourceWater> latest_of_key(std::span<const Record> records, const std::optional<std::string>& key, RecordId* id) {
  for (std::size_t i = records.size(); i-- > 0;)
    if (const auto* water = std::get_if<SourceWater>(&records[i].entry.body); water && (!key || water->key == *key)) {
      if (id) *id = records[i].id;
      return *water;
    }
  return std::nullopt;
}

}  // namespace

std::optional<SourceWater> source_water(std::span<const Record> records, const std::optional<std::string>& key, RecordId* id) {
  if (!key)
    if (const auto usual = latest_of_key(records, usual_source_key(records), id)) return usual;
  return latest_of_key(records, key, id);
}

std::map<Quantity, QuantityBelief> water_belief(const records::SeasonSetup& season, std::span<const Record> records,
                                                const ZoneOffsets& zone, Instant now, Temperature temperature,
                                                std::vector<Sentence>& gaps) {
  std::map<Quantity, QuantityBelief> water;
  int unusable = 0;
  const auto sittings = sittings_of(records, zone, unusable);
  if (unusable > 0)
    gaps.push_back({one_or_several(unusable, "{0} reading can't be used: its kit or the kit's steps were changed after it was taken. Give the changed kit a new key instead.",
                                    "{0} readings can't be used: their kit or its steps were changed after they were taken. Give the changed kit a new key instead."), {Number{unusable}}});
  for (const auto& [quantity, in_order] : sittings) {
    QuantityBelief belief;
    belief.quantity = quantity;
    for (const auto& [key, sitting] : in_order) {
      const SeriesPoint& only = sitting.points.front();
      const auto pooled = sitting.reads.size() == 1 ? std::optional(ValueBehind{only.value, only.open_above}) : value_behind(sitting.reads);
      if (!pooled) continue;
      belief.series.insert(belief.series.end(), sitting.points.begin(), sitting.points.end());
      const SeriesPoint& last = sitting.points.back();
      belief.sittings.push_back({last.at, pooled->value, pooled->open_above, pooled_text(sitting.points), last.id, ""});
      belief.unit = sitting.reads.back().test.unit;
      belief.as_read = belief.value = pooled->value;
      belief.open_above = pooled->open_above;
      belief.disagree = pooled->disagree;
      belief.read_at = last.at;
      belief.raw_text = pooled_text(sitting.points);
      belief.records.clear();
      for (const SeriesPoint& p : sitting.points) belief.records.push_back(p.id);
    }
    if (belief.series.empty()) continue;
    belief.age_days = days_between(belief.read_at, now).count();
    water.emplace(quantity, std::move(belief));
  }
  Carrier(season, records, temperature, water).carry_all();
  return water;
}

}  // namespace redd::inference
