#pragma once
// What can be written in the log: one struct a kind, as the person saw or did it (raw, in strong types).
// A new kind is a struct here, its line in Body (record.h) and its description in wire/describe.h.

#include <optional>
#include <string>
#include <vector>

#include "quantities/heat.h"
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
  bool egg_day_assumed = false;   ///< nobody knows it yet: taken so that there is a plan, and said wherever it counts
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
  std::optional<Date> release_from{};    ///< first and last day the permit allows a release
  std::optional<Date> release_until{};
  std::optional<std::string> permit{};   ///< its number and what it asks for, in short
  std::optional<std::string> school_weekdays{};  ///< days of the week with school, "mon tue wed thu fri" when absent; see weekdays_from_text()
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
  std::optional<double> upper_value{};  ///< between: a higher step; the next one, or one further up where the reader is not sure
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

/// Animals counted. Dead: taken out this time. Hatched: all so far. Alive: in the tank. Several counts of one day are takes of the same.
struct Count {
  enum class What { dead_eggs, dead_alevins, dead_fry, hatched, alive, swum_up };  ///< swum_up: seen swimming up so far
  enum class How { counted, estimated, sampled };  ///< sampled: counted in a part of the places they may be
  What what = What::dead_eggs;
  int count = 0;                                ///< sampled: in that part
  How how = How::counted;
  std::optional<double> looked_at_fraction{};   ///< sampled: the part, above 0 to 1
};
inline bool are_dead(Count::What what) { return what == Count::What::dead_eggs || what == Count::What::dead_alevins || what == Count::What::dead_fry; }

/// Food given, in grams or in level spoons; see food_mass(). One of the two.
struct Feeding {
  std::optional<Mass> mass{};
  std::optional<std::string> food{};
  std::optional<double> spoons{};
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

/// The school is closed from a day to a day; or, with a time, open on one day but shut from then on.
struct Closure {
  std::string name{};
  Date from{};
  std::optional<Date> to{};                ///< the last closed day; absent: that one day
  std::optional<std::string> shut_from{};  ///< "12:30" at the school's clock; see clock_from_text()
};

/// Who looks after the tank, as a label.
struct Duty {
  std::string label{};  ///< "Team Heron", never a person's name
  Date from{};
  std::optional<Date> to{};  ///< the last day; absent: that one day
};

/// How one face of a tank is made where it differs from the others.
struct TankFace {
  enum class Side { front, back, left, right, floor };
  enum class Wall { unknown, glass, acrylic, foam };
  Side side = Side::front;
  Wall wall = Wall::glass;
  std::optional<double> wall_thickness_mm{};
  std::optional<double> foam_thickness_mm{};  ///< insulation on it
};

/// What decides how much heat a tank takes up and what takes it out again. Everything may be left out that is not known; the water in
/// the system is the season's. The newest one counts.
struct TankBuild {
  enum class Lid { unknown, none, sheet, foam };
  enum class Base { unknown, open_frame, board, foam };
  std::optional<double> length_cm{};        ///< inside
  std::optional<double> width_cm{};
  std::optional<double> water_height_cm{};
  TankFace::Wall wall = TankFace::Wall::unknown;  ///< of every face that `faces` does not name
  std::optional<double> wall_thickness_mm{};
  std::optional<double> foam_thickness_mm{};          ///< insulation on the walls
  std::optional<int> bare_long_sides{};     ///< of the two, left without insulation to look in
  Lid lid = Lid::unknown;
  Base base = Base::unknown;
  std::vector<TankFace> faces{};
  std::optional<Power> pump{};              ///< electric, day and night
  std::optional<double> flow_l_per_min{};   ///< of the pump, through the tank
  std::optional<double> air_l_per_min{};    ///< blown through air stones
  std::optional<Power> light{};             ///< electric, while lit
  std::optional<int> light_from_hour{};     ///< at the school's clock
  std::optional<int> light_until_hour{};
  std::optional<Power> chiller_cooling{};   ///< heat it takes from the water, as its plate says
  std::optional<Temperature> chiller_rated_water{};  ///< the water its plate speaks of
  std::optional<Temperature> chiller_rated_room{};
  std::optional<Power> chiller_electric{};
  std::optional<Power> heater{};
  std::optional<TemperatureChange> controller_band{};  ///< between switching on and off
  std::optional<double> price_per_kwh{};
  std::optional<std::string> currency{};    ///< word or sign of the price
  std::optional<Temperature> room_day{};    ///< in use, in the coldest part of the year
  std::optional<Temperature> room_summer_day{};  ///< in use, in the warmest part
  std::optional<Temperature> room_night{};
  std::optional<Temperature> room_weekend{};
  std::optional<Temperature> room_break{};  ///< while the school is closed for longer
  std::optional<int> room_used_from_hour{};
  std::optional<int> room_used_until_hour{};
  std::optional<int> warmest_month{};       ///< of the year, 1-12; January or February south of the equator
};

/// Water added for what evaporated. Not a water change: the salts stay behind and nothing is diluted.
struct TopUp {
  Volume volume = Volume::from_l(0);
  std::optional<std::string> source_water{};
};

/// What a level spoon holds: some spoons of one food, weighed together. The newest one of a food counts.
struct Spoon {
  int spoons = 10;
  Mass mass = Mass::from_g(0);
  std::optional<std::string> food{};
};

/// Some animals weighed together, or measured one by one, and put back.
struct FishSample {
  int count = 0;
  std::optional<Mass> mass{};        ///< of all of them together, without water
  std::vector<double> lengths_mm{};  ///< snout to fork of the tail, one an animal
};

/// What became of a piece of advice.
struct AdviceAnswer {
  enum class Answer { done, skipped, not_now };
  Answer answer = Answer::done;
  std::string action{};              ///< the action's key, see advice::Action
  std::optional<Date> until{};       ///< not_now: the day to ask again
  std::optional<std::string> remark{};
};

/// What a team expects of a reading to come: a range that is to hold it eight times in ten, or chips on the steps of the card. Which of the two
/// the question asks for, and whether it was still open, the lessons say; a guess that fits no question counts for nothing.
struct Guess {
  std::string question{};       ///< key, see lessons::Question
  std::string team{};           ///< a label
  std::optional<double> low{};  ///< in the question's unit
  std::optional<double> high{};
  std::vector<double> chips{};  ///< one number a step, lowest step first
};
/// Chips a team lays out on one question.
inline constexpr int chips_to_lay = 10;

/// Takes back one earlier record. The record stays in the file; it only stops counting.
struct Undo {
  long long target = 0;
};

}  // namespace redd::records
