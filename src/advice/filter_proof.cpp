#include "advice/filter_proof.h"

#include "chemistry/dosing.h"
#include "inference/water_belief.h"

namespace redd::advice {
namespace {

using inference::Quantity;

/// Assumed: a dose that reads clearly on a card, and what a card's first step may hide of it afterwards.
constexpr double dose_mg_n_per_l = 0.5, left_mg_n_per_l = 0.3;
constexpr double soonest_days = 0.5, latest_days = 2.2, temperature_days = 3.0;

bool is_dose(const Situation& s, const records::Record& record) {
  const auto* dose = std::get_if<records::Dose>(&record.entry.body);
  return dose && dose->substance == records::Substance::ammonium_chloride &&
         dose->mass.mg() / s.season.volume.l() / chemistry::ammonium_chloride_mg_per_mg_n >= dose_mg_n_per_l;
}

/// The first clear test of a quantity in the time after a dose.
const inference::SeriesPoint* clear_test(const Situation& s, Quantity quantity, Instant dosed) {
  const auto* known = s.belief.find(quantity);
  if (!known) return nullptr;
  for (const auto& sitting : known->sittings) {
    const double after_days = days_between(dosed, sitting.at).count();
    if (after_days >= soonest_days && after_days <= latest_days && !sitting.open_above && sitting.value.mid < left_mg_n_per_l) return &sitting;
  }
  return nullptr;
}

bool changed_between(const Situation& s, Instant from, Instant to) {
  constexpr double tenth = 0.1;
  return std::ranges::any_of(s.records, [&](const records::Record& r) {
    const auto* change = std::get_if<records::WaterChange>(&r.entry.body);
    return change && r.entry.at > from && r.entry.at < to && change->volume.l() / s.season.volume.l() >= tenth;
  });
}

}  // namespace

std::optional<FilterProof> latest_proof(const Situation& s) {
  for (std::size_t i = s.records.size(); i-- > 0;) {
    if (!is_dose(s, s.records[i])) continue;
    const Instant dosed = s.records[i].entry.at;
    const auto* ammonia = clear_test(s, Quantity::total_ammonia, dosed);
    const auto* nitrite = clear_test(s, Quantity::nitrite, dosed);
    if (!ammonia || !nitrite) continue;
    FilterProof proof{std::max(ammonia->at, nitrite->at), std::nullopt, {s.records[i].id, ammonia->id, nitrite->id}};
    if (changed_between(s, dosed, proof.at)) continue;
    for (const auto& read : s.belief.temperature.series)
      if (read.at <= proof.at && days_between(read.at, proof.at).count() <= temperature_days) proof.water = Temperature::from_c(read.value.mid);
    return proof;
  }
  return std::nullopt;
}

bool proven_cold(const Situation& s, const std::optional<FilterProof>& proof) {
  constexpr double good_for_days = 10.0, margin_c = 2.0;
  return proof && proof->water && proof->water->c() <= s.season.target.c() + margin_c && days_between(proof->at, s.now).count() <= good_for_days;
}

}  // namespace redd::advice
