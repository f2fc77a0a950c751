#pragma once
// What can be written in the log: one struct a kind, as the person saw or did it (raw, in strong types).
// A new kind is a struct here, its line in Body (record.h) and its description in wire/describe.h.

#include <optional>
#include <string>
#include <vector>

#include "quantities/nitrogen.h"
#include "quantities/temperature.h"
#include "quantities/time.h"
#include "quantities/water.h"
#include "records/kit.h"

namespace redd::records {

/// The season as planned. One a file; later ones correct it.
struct SeasonSetup {
  std::string name{};
  std::string place{};
  std::string time_zone = "UTC";  ///< IANA name; the rim resolves it to ZoneOffsets
  Date first_day{};               ///< the day the tank is filled
  Volume volume = Volume::from_l(200);
  double elevation_m = 0;
  std::string species{};
  std::optional<Date> egg_day{};
  std::optional<int> egg_count{};
  Temperature target = Temperature::from_c(10);
  std::optional<Temperature> warm{};  ///< while the filter ripens
  std::optional<double> nitrate_act_mg_no3_per_l{};
  std::optional<double> nitrate_ceiling_mg_no3_per_l{};
  std::optional<std::string> development_model{};
  std::optional<double> usual_change_fraction{};
  /// When the filter is called ready: this dose of ammonia gone within this time, with no more than this left. Absent: our own definition.
  std::optional<double> ready_test_dose_mg_n_per_l{};
  std::optional<double> ready_within_hours{};
  std::optional<double> ready_total_ammonia_mg_n_per_l{};
  std::optional<double> ready_nitrite_mg_n_per_l{};
  std::optional<Volume> filter_media{};  ///< what the bacteria live on, as its maker measures it
  std::optional<int> seed{};
  bool invented = false;  ///< demo data, marked on every view
};

struct SourceWater {
  std::string key{};
  std::string name{};
  std::optional<Ph> ph{};
  std::optional<Alkalinity> alkalinity{};
  std::optional<Hardness> hardness{};
  std::optional<NitrogenConc> total_ammonia{};
  std::optional<NitrogenConc> nitrite{};
  std::optional<NitrogenConc> nitrate{};
  std::optional<double> chloride_mg_per_l{};
  std::optional<double> chlorine_mg_per_l{};  ///< total chlorine as Cl2
  bool chloramine = false;
  std::optional<Temperature> temperature{};
};

/// A raw observation on a kit. What it says of the true value depends on the kit: see observed_interval().
struct Reading {
  enum class Form { step, between, below_first, above_last, drops, number };
  std::string kit{};
  std::string test{};
  Form form = Form::step;
  std::optional<double> value{};        ///< the printed step, the lower of two steps, drops, or the meter's number
  std::optional<double> upper_value{};  ///< between: the next step up
  std::optional<std::string> team{};    ///< replicate by team, a label
  std::optional<std::string> session{};
};

struct TemperatureReading {
  enum class Place { tank, room, source };
  Temperature temperature = Temperature::from_c(0);
  Place place = Place::tank;
};

struct WaterChange {
  Volume volume = Volume::from_l(0);
  std::optional<std::string> source_water{};
  std::optional<Temperature> new_water{};
  bool vacuumed = false;
  bool dechlorinated = false;
};

enum class Substance {
  sodium_bicarbonate, calcium_chloride_dihydrate, magnesium_sulfate_heptahydrate, ammonium_chloride,
  sodium_thiosulfate_pentahydrate, other
};
struct Dose {
  Substance substance = Substance::other;
  Mass mass = Mass::from_g(0);
  std::optional<std::string> name{};  ///< needed for "other"
};

struct SetPoint {
  Temperature temperature = Temperature::from_c(0);
};

/// Eggs arriving, with what the hatchery says of their age.
struct EggReceipt {
  enum class Start { fertilised_on, thermal_sum, eyed };
  enum class Origin { farmed, wild };
  int count = 0;
  Start start = Start::eyed;
  std::optional<Date> fertilised_on{};
  std::optional<double> start_doubt_days{};
  std::optional<ThermalSum> thermal_sum{};
  std::optional<ThermalSum> thermal_sum_doubt{};
  std::optional<Temperature> incubation{};
  std::optional<Temperature> box{};
  Origin origin = Origin::farmed;
  std::optional<std::string> supplier{};
};

struct Count {
  enum class What { dead_eggs, dead_alevins, dead_fry, hatched, alive };
  enum class How { counted, estimated };
  What what = What::dead_eggs;
  int count = 0;
  How how = How::counted;
};

struct Feeding {
  Mass mass = Mass::from_g(0);
  std::optional<std::string> food{};
};

struct FilterWork {
  enum class Work { rinsed, media_replaced, media_added, seeded };
  Work work = Work::rinsed;
  std::optional<double> fraction{};  ///< of the media touched
};

struct EquipmentEvent {
  enum class Equipment { chiller, pump, air, heater, power, light, other };
  enum class Event { failed, restored, switched_off, switched_on, serviced };
  Equipment equipment = Equipment::other;
  Event event = Event::failed;
  std::optional<std::string> remark{};
};

struct Milestone {
  enum class Which {
    first_eyes, half_eyed, first_hatch, half_hatched, all_hatched, first_swim_up, half_swim_up, first_feed
  };
  Which which = Which::first_eyes;
  bool seen = true;  ///< false: somebody looked and it had not happened yet, which is evidence too
};

struct Note {
  std::string text{};
};

struct Release {
  int count = 0;
  std::string place{};
  std::optional<Temperature> tank{};
  std::optional<Temperature> site{};
};

/// Takes back one earlier record. The record stays in the file; it only stops counting.
struct Undo {
  long long target = 0;
};

}  // namespace redd::records
