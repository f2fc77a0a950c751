#pragma once
// How a value of the program and a number or word of JSON stand for each other. A describe() function lists the fields
// of a struct once; a reader, a writer and a schema printer each walk that same list, so the three can't disagree.

#include <span>
#include <string_view>
#include <vector>

#include "quantities/heat.h"
#include "quantities/nitrogen.h"
#include "quantities/temperature.h"
#include "quantities/water.h"

namespace redd::wire {

/// Values a field accepts, in the unit of its key.
struct Range {
  double low;
  double high;
};

/// One more spelling of a number field: another unit, converted on the way in and never written.
struct Alternate {
  std::string_view suffix;
  double (*to_primary)(double);
};

/// A strong type as a number: suffix of the key, conversion both ways, and the user's other units.
template <class T>
struct Unit {
  std::string_view suffix;
  double (*out)(T);
  T (*in)(double);
  std::vector<Alternate> alternates{};
};

inline Unit<Temperature> celsius() {
  return {"_c", [](Temperature t) { return t.c(); }, [](double v) { return Temperature::from_c(v); },
          {{"_f", [](double f) { return Temperature::from_f(f).c(); }}}};
}
inline Unit<Volume> litres() {
  return {"_l", [](Volume v) { return v.l(); }, [](double v) { return Volume::from_l(v); },
          {{"_us_gal", [](double gal) { return Volume::from_us_gallons(gal).l(); }}}};
}
inline Unit<Mass> grams() {
  return {"_g", [](Mass m) { return m.g(); }, [](double v) { return Mass::from_g(v); },
          {{"_oz", [](double oz) { return Mass::from_ounces(oz).g(); }}}};
}
inline Unit<ThermalSum> celsius_days() {
  return {"_c_days", [](ThermalSum s) { return s.c_days(); }, [](double v) { return ThermalSum::from_c_days(v); },
          {{"_f_units", [](double f) { return ThermalSum::from_f_units(f).c_days(); }}}};
}
inline Unit<Ph> ph_number() {
  return {"ph", [](Ph p) { return p.ph(); }, [](double v) { return Ph::from_ph(v); }};
}
inline Unit<NitrogenConc> as_nitrogen() {
  return {"_mg_n_per_l", [](NitrogenConc c) { return c.mg_n_per_l(); },
          [](double v) { return NitrogenConc::from_mg_n_per_l(v); }};
}
template <class Charge>
Unit<Charge> equivalents() {
  return {"_meq_per_l", [](Charge c) { return c.meq_per_l(); }, [](double v) { return Charge::from_meq_per_l(v); },
          {{"_german_degrees",
            [](double v) { return hardness_converted(v, HardnessUnit::german_degrees, HardnessUnit::meq_per_l); }},
           {"_mg_caco3_per_l",
            [](double v) { return hardness_converted(v, HardnessUnit::mg_caco3_per_l, HardnessUnit::meq_per_l); }}}};
}
inline Unit<TemperatureChange> celsius_change() {
  return {"_c", [](TemperatureChange t) { return t.c(); }, [](double v) { return TemperatureChange::from_c(v); },
          {{"_f", [](double f) { return TemperatureChange::from_f(f).c(); }}}};
}
inline Unit<Power> watts() {
  return {"_w", [](Power p) { return p.w(); }, [](double v) { return Power::from_w(v); }};
}
/// Also as chillers are sold: in BTU an hour.
inline Unit<Power> cooling_watts() {
  Unit<Power> unit = watts();
  unit.alternates = {{"_btu_per_h", [](double btu) { return Power::from_btu_per_h(btu).w(); }}};
  return unit;
}
/// Lengths of a tank; an inch is 2.54 cm exactly.
inline Unit<double> centimetres() {
  return {"_cm", [](double v) { return v; }, [](double v) { return v; }, {{"_in", [](double inches) { return 2.54 * inches; }}}};
}
inline Unit<double> millimetres() {
  return {"_mm", [](double v) { return v; }, [](double v) { return v; }, {{"_in", [](double inches) { return 25.4 * inches; }}}};
}
inline Unit<double> plain() {
  return {"", [](double v) { return v; }, [](double v) { return v; }};
}

/// The words of an enumeration, in the order of its values from zero.
template <class Enum>
using Words = std::span<const std::string_view>;

}  // namespace redd::wire
