// What keeps a new entry out of the log, said so that the keeper can mend it.

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "quantities/phrase_parts.h"
#include "quantities/verbatim.h"
#include "records/food.h"
#include "records/reading.h"
#include "records/record.h"
#include "records/school_calendar.h"

namespace redd::records {
namespace {

using Form = Reading::Form;

/// Where salmon and trout eggs live. Assumed: wider than any target of a permit.
constexpr Temperature coldest_target = Temperature::from_c(0.5), warmest_target = Temperature::from_c(20.0);

std::string joined(const std::vector<double>& values) {
  std::string text;
  for (const double v : values) text += (text.empty() ? "" : ", ") + as_typed(v);
  return text;
}

void check_test(const KitTest& test, const std::string& path, Problems& problems) {
  const auto add = [&](const char* code, const std::string& field, Phrase sentence) {
    problems.push_back({code, path + field, said("Test \"{0}\": {1}", verbatim(test.key), std::move(sentence))});
  };
  if (!unit_fits(test.quantity, test.unit))
    add("unit_does_not_fit", "/unit", said("{0} is not a unit of {1}; take the unit printed on the card.", unit_text(test.unit), quantity_text(test.quantity)));
  if (test.method == Method::colour_steps) {
    if (test.steps.size() < 2) add("too_few_steps", "/steps", "a colour card needs at least two printed steps.");
    if (!std::ranges::is_sorted(test.steps, std::less_equal<>{}))  // strictly rising
      add("steps_not_rising", "/steps", said("the steps must rise: {0}.", joined(test.steps)));
    if (test.unit == TestUnit::ph && !test.steps.empty() && test.steps.back() > 14)
      add("out_of_range", "/steps", said("pH ends at 14; the card says {0}.", as_typed(test.steps.back())));
  }
  if (test.method == Method::drop_count && !test.per_drop)
    add("missing", "/per_drop", "a drop test needs the value of one drop.");
  for (const auto& [list, name] : {std::pair(&test.colour_names, "/colour_names"), std::pair(&test.swatches, "/swatches")})
    if (!list->empty() && list->size() != test.steps.size())
      add("wrong_length", name, said("give one for each of the {0} steps, or none.", test.steps.size()));
  for (const std::string& swatch : test.swatches)
    if (swatch.size() != 7 || swatch[0] != '#' || swatch.find_first_not_of("0123456789abcdefABCDEF", 1) != std::string::npos)
      add("not_a_colour", "/swatches", said("\"{0}\" is not a colour like #3a7f5c.", verbatim(swatch)));
}

/// Judges one entry. Holds what every check needs; problems collect in order.
class Check {
 public:
  Check(const Entry& entry, std::span<const Record> records, const ZoneOffsets& zone, Instant now)
      : entry_(entry), records_(records), zone_(zone), now_(now), standing_(standings(records)) {
    for (std::size_t i = 0; i < records.size(); ++i)
      if (standing_[i].counts()) counting_.push_back(records[i]);
  }

  Problems all() {
    check_envelope();
    std::visit([&](const auto& body) { check(body); }, entry_.body);
    return std::move(problems_);
  }

 private:
  void add(std::string code, std::string field, Phrase sentence) {
    problems_.push_back({std::move(code), std::move(field), std::move(sentence)});
  }

  const Record* find(RecordId id, std::size_t* index = nullptr) const {
    for (std::size_t i = 0; i < records_.size(); ++i)
      if (records_[i].id == id) {
        if (index) *index = i;
        return &records_[i];
      }
    return nullptr;
  }

  /// Records that count, leaving out the one this entry corrects.
  template <class T>
  const T* other_of_kind() const {
    for (const Record& r : counting_)
      if (const T* body = std::get_if<T>(&r.entry.body); body && r.id != entry_.supersedes) return body;
    return nullptr;
  }

  void check_envelope() {
    if (entry_.author.empty()) add("missing", "/author", "Say who logs this with a label, e.g. \"Team Otter\".");
    if (entry_.supersedes) check_target(*entry_.supersedes, "/supersedes", "correct");
    if (entry_.at > now_ + std::chrono::hours(24))
      add("in_the_future", "/at", said("The time {0} is more than a day ahead: check the date.", rfc3339_local(zone_, entry_.at)));
    const SeasonSetup* season = find_season(counting_);
    const bool is_setup = std::holds_alternative<SeasonSetup>(entry_.body);
    const bool needs_no_season = is_setup || std::holds_alternative<Kit>(entry_.body) || std::holds_alternative<SourceWater>(entry_.body);
    if (!season && !needs_no_season) add("no_season", "/kind", "There is no season yet: set one up first.");
    // Kits, waters and plans are often written down before the tank is filled; what happens in the tank is not.
    const bool is_plan = std::holds_alternative<Closure>(entry_.body) || std::holds_alternative<Duty>(entry_.body) || std::holds_alternative<TankBuild>(entry_.body);
    if (season && !needs_no_season && !is_plan && local_day(zone_, entry_.at) < season->first_day)
      add("before_season", "/at", said("The day {0} is before the season began ({1}): check the date, or correct the season's first day.", iso_from_date(local_day(zone_, entry_.at)), iso_from_date(season->first_day)));
  }

  void check_target(RecordId id, const char* field, const std::string& verb) {
    std::size_t i = 0;
    const Record* target = find(id, &i);
    if (!target) return add("unknown_record", field, said("There is no record {0} to {1}.", id, verb));
    if (!standing_[i].counts())
      return add("already_replaced", field, said("Record {0} no longer counts (it was {1}): {2} that one instead.", id, standing_[i].superseded_by ? said("corrected by record {0}", *standing_[i].superseded_by)
                                             : said("taken back by record {0}", *standing_[i].undone_by), verb));
    if (verb == "correct" && target->entry.body.index() != entry_.body.index())
      add("other_kind", field, said("Record {0} is a {1}; it can only be corrected by the same kind. Undo it and log a new one instead.", id, kind_name(target->entry.body)));
  }

  void check(const SeasonSetup& s) {
    if (s.egg_day_assumed && !s.egg_day) add("missing", "/body/egg_day", "An assumed egg day needs the day that is assumed; leave both out if there is none.");
    if (other_of_kind<SeasonSetup>())
      add("second_season", "/kind", "This file already holds a season. A tank has one season at a time: correct its set-up, or start a new file.");
    if (s.egg_day && *s.egg_day < s.first_day)
      add("egg_day_before_first_day", "/body/egg_day", said("The eggs can't arrive ({0}) before the tank is filled ({1}).", iso_from_date(*s.egg_day), iso_from_date(s.first_day)));
    if (s.nitrate_act_mg_no3_per_l && s.nitrate_ceiling_mg_no3_per_l && *s.nitrate_act_mg_no3_per_l > *s.nitrate_ceiling_mg_no3_per_l)
      add("marks_crossed", "/body/nitrate_act_mg_no3_per_l", "The nitrate mark to act at is above the ceiling: lower it.");
    if (s.release_from && s.release_until && *s.release_until < *s.release_from)
      add("days_crossed", "/body/release_until", said("The permit's last day ({0}) is before its first ({1}): correct one of them.", iso_from_date(*s.release_until), iso_from_date(*s.release_from)));
    const auto end_of_permit = s.release_until ? s.release_until : s.release_from;
    if (end_of_permit && *end_of_permit < s.egg_day.value_or(s.first_day))
      add("release_before_eggs", s.release_until ? "/body/release_until" : "/body/release_from", said(s.egg_day ? "The permit's time for a release ({0}) is over before the eggs arrive ({1}): check the year." : "The permit's time for a release ({0}) is over before the tank is filled ({1}): check the year.",
               iso_from_date(*end_of_permit), iso_from_date(s.egg_day.value_or(s.first_day))));
    if (s.school_weekdays && !weekdays_from_text(*s.school_weekdays))
      add("not_weekdays", "/body/school_weekdays", said("\"{0}\" are no days of the week: write them like \"mon tue wed thu fri\" or \"mon-fri\".", verbatim(*s.school_weekdays)));
    if (s.target < coldest_target || s.target > warmest_target)
      add("out_of_range", "/body/target_c", said("A target of {0} is outside {1} to {2}, where salmon and trout eggs live: check the unit.", s.target, coldest_target, warmest_target));
  }
  void check(const Kit& kit) {
    for (Problem p : problems_of(kit)) {
      p.field = "/body" + p.field;
      problems_.push_back(std::move(p));
    }
  }
  void check(const SourceWater&) {}

  void check(const Reading& r) {
    std::vector<Record> known = counting_;
    const Kit* kit = find_kit(known, r.kit);
    if (!kit) {
      std::string keys;
      for (const Record& k : counting_)
        if (const Kit* other = std::get_if<Kit>(&k.entry.body); other && keys.find(other->key) == std::string::npos)
          keys += (keys.empty() ? "" : ", ") + other->key;
      return add("unknown_kit", "/body/kit", keys.empty() ? "There is no kit in this season yet: add your kit first, so that its steps are known."
                 : said("There is no kit \"{0}\"; this season has: {1}.", verbatim(r.kit), verbatim(keys)));
    }
    const KitTest* test = find_test(*kit, r.test);
    if (!test) {
      std::string keys;
      for (const KitTest& t : kit->tests) keys += (keys.empty() ? "" : ", ") + t.key;
      return add("unknown_test", "/body/test", said("Kit \"{0}\" has no test \"{1}\"; it has: {2}.", verbatim(r.kit), verbatim(r.test), verbatim(keys)));
    }
    if (r.upper_value && r.form != Form::between) add("not_used", "/body/upper_value", "An upper value goes only with a reading between two steps.");
    if (r.form == Form::drops && r.value && (*r.value < 0 || *r.value > 500 || *r.value != std::floor(*r.value)))
      return add("not_a_drop_count", "/body/value", said("Drops are counted: a whole number from 0 to 500, not {0}.", as_typed(*r.value)));
    if (test->unit == TestUnit::ph && r.form == Form::number && r.value && *r.value > 14)
      return add("out_of_range", "/body/value", said("pH {0} can't be right: pH goes from 0 to 14.", as_typed(*r.value)));
    if (!observed_interval(*test, r)) add("not_on_the_card", "/body/value", mend_for(*test, r));
  }

  static Phrase mend_for(const KitTest& test, const Reading& r) {
    switch (test.method) {
      case Method::meter: return said("Test \"{0}\" is a meter: give its number.", verbatim(test.key));
      case Method::drop_count: return said("Test \"{0}\" counts drops: give the number of drops.", verbatim(test.key));
      case Method::colour_steps: break;
    }
    const Phrase card = said("the card of test \"{0}\" has the steps {1}", verbatim(test.key), joined(test.steps));
    if (r.form == Form::between) return said("A reading between two steps needs a lower and a higher step; {0}.", card);
    if (r.form == Form::step && r.value) return said("{0} is not a step; {1}. If the colour lies between two, log it as between.", as_typed(*r.value), card);
    if (r.form == Form::below_first) return said("Nothing lies below the first step: {0}. Log that step.", card);
    return said("Give a step, a lower and a higher step it lies between, below the first or above the last; {0}.", card);
  }

  void check(const TemperatureReading& t) {
    if (t.place == TemperatureReading::Place::tank && (t.temperature.c() < -1 || t.temperature.c() > 40))
      add("out_of_range", "/body/temperature_c", said("{0} can't be the tank's water: check the unit (°C or °F) and the place.", t.temperature));
  }
  void check(const WaterChange& w) {
    const SeasonSetup* season = find_season(counting_);
    if (season && w.volume > season->volume)
      add("more_than_the_tank", "/body/volume_l", said("{0} is more than the tank holds ({1}).", w.volume, season->volume));
    if (w.source_water && !known_source(*w.source_water))
      add("unknown_source_water", "/body/source_water", said("There is no source water \"{0}\": log it first, or leave it out.", verbatim(*w.source_water)));
  }
  bool known_source(const std::string& key) const {
    return std::ranges::any_of(counting_, [&](const Record& r) {
      const auto* water = std::get_if<SourceWater>(&r.entry.body);
      return water && water->key == key;
    });
  }
  void check(const Dose& d) {
    if (d.substance == Substance::other && (!d.name || d.name->empty()))
      add("missing", "/body/name", "Name the other substance that was added.");
  }
  void check(const SetPoint&) {}
  void check(const EggReceipt& e) {
    if (e.start == EggReceipt::Start::fertilised_on) {
      if (!e.fertilised_on) add("missing", "/body/fertilised_on", "Give the day of fertilisation.");
      else if (*e.fertilised_on > local_day(zone_, entry_.at)) add("after_arrival", "/body/fertilised_on", "Eggs can't arrive before they are fertilised: check the day.");
    }
    if (e.start == EggReceipt::Start::thermal_sum && !e.thermal_sum)
      add("missing", "/body/thermal_sum_c_days", "Give the accumulated thermal units the hatchery states.");
  }
  void check(const Count& c) {
    check_number(c.count, "counted");
    if (c.how != Count::How::sampled) {
      if (c.looked_at_fraction) add("not_sampled", "/body/looked_at_fraction", "A part that was looked at belongs to a sampled count: set the method to sampled, or leave the part out.");
      return;
    }
    if (are_dead(c.what)) add("not_sampled", "/body/method", "Dead are logged as taken out, every one: count them, or estimate when there are too many.");
    if (!c.looked_at_fraction) add("missing", "/body/looked_at_fraction", "Say what part of all the places they may be was looked at, e.g. 0.25 for a quarter of the floor.");
    else if (!(*c.looked_at_fraction >= 0.01)) add("out_of_range", "/body/looked_at_fraction", "Less than a hundredth of the places says nothing of the whole: look at more.");
  }
  /// More animals than ever came is a slip of a digit, or the receipt is wrong.
  void check_number(int count, const char* verb) {
    int received = 0;
    for (const Record& r : counting_)
      if (const auto* eggs = std::get_if<EggReceipt>(&r.entry.body)) received += eggs->count;
    if (received > 0 && count > received)
      add("more_than_received", "/body/count", said("{0} {1} is more than the {2} eggs received: check the number, or correct the egg receipt.", count, verb, received));
  }
  void check(const Feeding& f) {
    if (!f.mass && !f.spoons) add("missing", "/body/mass_g", "Say how much food: in grams, or in level spoons.");
    if (f.mass && f.spoons) add("given_twice", "/body/spoons", "Give the food in grams or in level spoons, not in both.");
    check_food(f);
    if (f.spoons && !find_spoon(counting_, f.food))
      add("unknown_spoon", "/body/spoons", f.food ? said("What a level spoon of \"{0}\" holds is not known yet: weigh ten of them together and log that as a spoon first, or give grams.", verbatim(*f.food))
                                                          : "What a level spoon holds is not known yet: weigh ten of them together and log that as a spoon first, or give grams.");
  }
  /// A slip of the unit: no fish of a school's tank eats this much in a day.
  void check_food(const Feeding& f) {
    constexpr double most_g_each = 5.0;  // Assumed
    int received = 0;
    for (const Record& r : counting_)
      if (const auto* eggs = std::get_if<EggReceipt>(&r.entry.body)) received += eggs->count;
    const double food_g = food_mass(counting_, f).g();
    if (received > 0 && food_g > most_g_each * received)
      add("more_than_they_eat", f.mass ? "/body/mass_g" : "/body/spoons", said("{0} g of food for the {1} received is more than they could eat: check the unit.", as_typed(food_g), received));
  }
  void check(const FilterWork&) {}
  void check(const EquipmentEvent&) {}
  void check(const Milestone&) {
    if (!other_of_kind<EggReceipt>()) add("no_eggs", "/kind", "No eggs have been received yet: log the egg receipt first.");
  }
  void check(const Note&) {}
  void check(const Release& r) { check_number(r.count, "released"); }
  void check(const Closure& c) {
    check_days(c.from, c.to);
    if (!c.shut_from) return;
    if (!clock_from_text(*c.shut_from)) add("not_a_time", "/body/shut_from", said("\"{0}\" is no time of day: write it like 12:30.", verbatim(*c.shut_from)));
    if (c.to && *c.to != c.from) add("not_used", "/body/shut_from", "An early closing is one day: leave the last day out, or the time.");
  }
  void check(const Duty& d) { check_days(d.from, d.to); }
  /// A slip of a year would shut the school for most of the season unnoticed. Assumed: no closure or duty is longer than a summer and some.
  void check_days(Date from, const std::optional<Date>& to) {
    constexpr std::chrono::days longest{200};
    if (to && *to < from) add("days_crossed", "/body/to", said("The last day ({0}) is before the first ({1}).", iso_from_date(*to), iso_from_date(from)));
    if (to && *to - from > longest) add("too_long", "/body/to", said("From {0} to {1} is more than 200 days: check the year.", iso_from_date(from), iso_from_date(*to)));
  }

  void check(const TankBuild& b) {
    for (const auto& [first, last, name] : {std::tuple(b.light_from_hour, b.light_until_hour, "light"), std::tuple(b.room_used_from_hour, b.room_used_until_hour, "room_used")})
      if (first && last && *last <= *first)
        add("hours_crossed", std::string("/body/") + name + "_until_hour", said("The last hour ({0}) must come after the first ({1}), on the same day.", *last, *first));
    std::set<TankFace::Side> sides;
    for (std::size_t i = 0; i < b.faces.size(); ++i)
      if (!sides.insert(b.faces[i].side).second) add("given_twice", "/body/faces/" + std::to_string(i) + "/side", "This face is described twice: keep one of them.");
    const SeasonSetup* season = find_season(counting_);
    if (!season || !b.length_cm || !b.width_cm || !b.water_height_cm) return;
    // An inch taken for a centimetre, or a slipped digit, is a factor of ten and more. Assumed: a sump holds no more than the tank.
    const double litres = *b.length_cm * *b.width_cm * *b.water_height_cm / 1000.0, share = litres / season->volume.l();
    if (share < 0.5 || share > 2.0)
      add("volume_does_not_fit", "/body/length_cm", said("These measures hold {0}, but the season's water is {1}: measure inside, up to the water, and check the unit (cm or inches).", amount(Volume::from_l(litres), 0), season->volume));
  }
  void check(const TopUp& t) {
    const SeasonSetup* season = find_season(counting_);
    // Assumed: no tank loses a third of its water to the air between two top-ups.
    if (season && t.volume.l() > season->volume.l() / 3)
      add("more_than_evaporates", "/body/volume_l", said("{0} is more than a third of the tank: log it as a water change if water was taken out, else check the number.", t.volume));
    if (t.source_water && !known_source(*t.source_water))
      add("unknown_source_water", "/body/source_water", said("There is no source water \"{0}\": log it first, or leave it out.", verbatim(*t.source_water)));
  }
  void check(const Spoon& s) {
    const double one_g = s.mass.g() / s.spoons;
    // Assumed: a spoon for fry food holds between a pinch and a kitchen spoon.
    if (one_g < 0.005 || one_g > 20)
      add("out_of_range", "/body/mass_g", said("{0} g for one level spoon can't be right: give the weight of all {1} spoons together, without the dish.", as_typed(one_g), s.spoons));
  }
  void check(const FishSample& s) {
    if (!other_of_kind<EggReceipt>()) add("no_eggs", "/kind", "No eggs have been received yet: log the egg receipt first.");
    check_number(s.count, "sampled");
    if (!s.mass && s.lengths_mm.empty()) add("missing", "/body/mass_g", "Give the weight of all animals together, their lengths, or both.");
    if (!s.lengths_mm.empty() && s.lengths_mm.size() != static_cast<std::size_t>(s.count))
      add("wrong_length", "/body/lengths_mm", said("{0} lengths for {1} animals: give one each.", s.lengths_mm.size(), s.count));
    // Assumed: from a newly hatched alevin (0.02 g) to a smolt (200 g).
    if (s.mass && s.count > 0 && (s.mass->g() / s.count < 0.02 || s.mass->g() / s.count > 200))
      add("out_of_range", "/body/mass_g", said("{0} g an animal can't be right: give the weight of all {1} together in grams, without the water.", as_typed(s.mass->g() / s.count), s.count));
  }
  void check(const AdviceAnswer& a) {
    if (a.action.empty()) add("missing", "/body/action", "Say which action is answered, by its key.");
    if (a.until && a.answer != AdviceAnswer::Answer::not_now) add("not_used", "/body/until", "A day to ask again goes only with not_now.");
    if (a.until && *a.until <= local_day(zone_, entry_.at)) add("days_crossed", "/body/until", "The day to ask again must be after today.");
    if (a.until && *a.until - local_day(zone_, entry_.at) > std::chrono::days(60)) add("too_long", "/body/until", "More than 60 days ahead: give an earlier day, or skip it.");
  }
  void check(const Guess& g) {
    if (g.question.empty()) add("missing", "/body/question", "Say which question is answered, by its key.");
    if (g.team.empty()) add("missing", "/body/team", "Say which team guesses, with a label such as \"Team Otter\".");
    if (g.low.has_value() != g.high.has_value()) add("missing", g.low ? "/body/high" : "/body/low", "A range needs both its ends.");
    if (g.low && g.high && *g.high < *g.low) add("crossed", "/body/high", said("The range ends ({0}) before it begins ({1}): change the two over.", as_typed(*g.high), as_typed(*g.low)));
    if (g.low && !g.chips.empty()) add("given_twice", "/body/chips", "Give a range or chips, not both.");
    if (!g.low && !g.high && g.chips.empty()) add("missing", "/body/low", "Give a range, or lay chips on the steps.");
    double laid = 0;
    bool whole = true;
    for (const double chips : g.chips) {
      laid += chips;
      whole = whole && chips == std::floor(chips);
    }
    if (!g.chips.empty() && (!whole || laid != chips_to_lay))
      add("chips_do_not_add_up", "/body/chips", said("Lay exactly {0} whole chips, not {1}.", chips_to_lay, as_typed(laid)));
  }
  void check(const Undo& undo) {
    check_target(undo.target, "/body/target", "take back");
    std::size_t i = 0;
    if (const Record* target = find(undo.target, &i); target && std::holds_alternative<SeasonSetup>(target->entry.body) && !target->entry.supersedes)
      add("season_stays", "/body/target", "The season's first set-up can't be taken back; correct it instead.");
  }

  const Entry& entry_;
  std::span<const Record> records_;
  const ZoneOffsets& zone_;
  Instant now_;
  std::vector<Standing> standing_;
  std::vector<Record> counting_;
  Problems problems_;
};

}  // namespace

Problems problems_of(const Kit& kit) {
  Problems problems;
  if (kit.tests.empty()) problems.push_back({"no_tests", "/tests", "A kit needs at least one test."});
  std::set<std::string> keys;
  for (std::size_t i = 0; i < kit.tests.size(); ++i) {
    const std::string path = "/tests/" + std::to_string(i);
    if (!keys.insert(kit.tests[i].key).second)
      problems.push_back({"given_twice", path + "/key", said("Two tests of the kit are called \"{0}\": rename one.", verbatim(kit.tests[i].key))});
    check_test(kit.tests[i], path, problems);
  }
  return problems;
}

Problems problems_of(const Entry& entry, std::span<const Record> records, const ZoneOffsets& zone, Instant now) {
  return Check(entry, records, zone, now).all();
}

}  // namespace redd::records
