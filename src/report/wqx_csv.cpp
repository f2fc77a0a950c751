#include "report/wqx_csv.h"

#include <charconv>

#include "records/reading.h"
#include "wire/csv_table.h"

namespace redd::report {
namespace {

using records::KitTest;
using records::Method;
using records::ObservedInterval;
using records::Quantity;
using records::Reading;
using records::Record;
using records::TestUnit;
using Form = records::Reading::Form;

const std::vector<std::string> head{
    "OrganizationIdentifier", "ActivityIdentifier", "ActivityTypeCode", "ActivityMediaName", "ActivityStartDate", "ActivityStartTime/Time", "ActivityStartTime/TimeZoneCode",
    "ProjectIdentifier", "MonitoringLocationIdentifier", "ActivityCommentText", "ResultIdentifier", "ResultDetectionConditionText", "CharacteristicName", "MethodSpeciationName",
    "ResultSampleFractionText", "ResultMeasureValue", "ResultMeasure/MeasureUnitCode", "ResultStatusIdentifier", "ResultValueTypeName", "ResultCommentText",
    "ResultAnalyticalMethod/MethodName", "DetectionQuantitationLimitTypeName", "DetectionQuantitationLimitMeasure/MeasureValue", "DetectionQuantitationLimitMeasure/MeasureUnitCode"};

std::string_view characteristic(Quantity quantity) {
  switch (quantity) {
    case Quantity::total_ammonia: return "Ammonia and ammonium";
    case Quantity::nitrite: return "Nitrite";
    case Quantity::nitrate: return "Nitrate";
    case Quantity::ph: return "pH";
    case Quantity::alkalinity: return "Alkalinity, total";
    case Quantity::hardness: return "Hardness, Ca, Mg";
    case Quantity::oxygen: return "Dissolved oxygen (DO)";
    case Quantity::chlorine: return "Chlorine";
    case Quantity::chloride: return "Chloride";
  }
  broken_promise("characteristic", "unknown quantity");
}

/// The water is tested as it comes out of the tank, unfiltered. Gas, acidity and warmth have no fraction.
std::string_view fraction(Quantity quantity) {
  if (quantity == Quantity::ph || quantity == Quantity::oxygen) return "";
  return quantity == Quantity::chlorine ? "Total Residual" : "Unfiltered";
}

/// How a card's unit is written: code, speciation, and the factor to it where the code is another unit.
struct Written {
  std::string_view unit = "mg/L";
  std::string_view speciation{};
  double factor = 1;
  bool converted = false;
};
Written written(TestUnit unit) {
  switch (unit) {
    case TestUnit::mg_n_per_l: return {"mg/L", "as N"};
    case TestUnit::mg_nh3_per_l: return {"mg/L", "as NH3"};
    case TestUnit::mg_nh4_per_l: return {"mg/L", "as NH4"};
    case TestUnit::mg_no2_per_l: return {"mg/L", "as NO2"};
    case TestUnit::mg_no3_per_l: return {"mg/L", "as NO3"};
    case TestUnit::ph: return {"None", ""};
    case TestUnit::mg_per_l: return {"mg/L", ""};
    case TestUnit::mg_caco3_per_l: return {"mg/L", "as CaCO3"};
    case TestUnit::german_degrees:
    case TestUnit::french_degrees:
    case TestUnit::english_degrees:
    case TestUnit::mmol_per_l:
    case TestUnit::meq_per_l: break;
  }
  return {"mg/L", "as CaCO3", records::printed_value(TestUnit::mg_caco3_per_l, records::canonical_value(unit, 1.0)), true};
}

/// As short as it reads back; what was converted with three digits, as no card has more.
std::string number(double value, bool rounded) {
  char buffer[32];
  if (rounded) {
    const auto cut = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::general, 3);
    std::from_chars(buffer, cut.ptr, value);
  }
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed);
  return {buffer, end.ptr};
}

/// What one row says of the result itself.
struct Outcome {
  std::string condition{}, value{}, value_type{}, comment{}, limit_type{}, limit{};
};

class Told {
 public:
  Told(const KitTest& test, const Reading& reading, const ObservedInterval& range) : test_(test), reading_(reading), range_(range), unit_(written(test.unit)) {}

  Outcome result() const {
    Outcome told;
    const double printed = reading_.value.value_or(0);
    const bool nothing_seen = reading_.form == Form::step && printed == 0 && test_.unit != TestUnit::ph;
    if (nothing_seen) {
      told.condition = "Not Detected", told.limit_type = "Estimated Detection Level", told.limit = bound(range_.high);
    } else if (reading_.form == Form::below_first || (reading_.form == Form::drops && printed == 0)) {
      told.condition = "Below Reporting Limit", told.limit_type = "Lower Reporting Limit", told.limit = bound(range_.high);
    } else if (reading_.form == Form::above_last) {
      told.condition = "Present Above Quantification Limit", told.limit_type = "Upper Quantitation Limit", told.limit = bound(range_.low);
    } else {
      told.value = value(reading_.form == Form::between ? (printed + reading_.upper_value.value_or(printed)) / 2 : reading_.form == Form::drops ? printed * test_.per_drop.value_or(0) : printed);
      told.value_type = value_type();
      if (range_.open_above) told.limit_type = "Upper Quantitation Limit", told.limit = value(printed);
    }
    told.comment = comment();
    return told;
  }

 private:
  std::string value(double printed) const { return number(printed * unit_.factor, unit_.converted); }
  std::string bound(double canonical) const { return number(records::printed_value(test_.unit, canonical) * unit_.factor, true); }

  std::string value_type() const {
    if (reading_.form == Form::step || reading_.form == Form::between) return "Estimated";
    return unit_.converted ? "Calculated" : "Actual";
  }

  std::string comment() const {
    std::string text = "Read: " + records::reading_text(test_, reading_) + ". ";
    if (range_.open_above) text += "Stands for " + bound(range_.low) + " or more";
    else if (test_.method == Method::meter && !test_.accuracy) return text + "The meter's accuracy is not known.";
    else text += "Stands for " + bound(range_.low) + " to " + bound(range_.high);
    text += unit_.speciation.empty() ? (test_.unit == TestUnit::ph ? "" : " mg/L") : " mg/L " + std::string(unit_.speciation);
    return text + ", before any error of the reader.";
  }

  const KitTest& test_;
  const Reading& reading_;
  const ObservedInterval& range_;
  Written unit_;
};

std::string_view method_name(Method method) {
  switch (method) {
    case Method::colour_steps: return "Test kit, colour card read by eye";
    case Method::drop_count: return "Test kit, drops counted until the colour turns";
    case Method::meter: return "Meter";
  }
  broken_promise("method_name", "unknown method");
}

class Rows {
 public:
  Rows(std::span<const Record> records, const WqxLabels& labels) : records_(records), labels_(labels) {
    const records::SeasonSetup* season = records::find_season(records);
    invented_ = season && season->invented;
  }

  std::string text() const {
    std::string out = wire::csv_row(head);
    for (const Record& record : records_) {
      if (const auto* reading = std::get_if<Reading>(&record.entry.body)) out += reading_row(record, *reading);
      if (const auto* read = std::get_if<records::TemperatureReading>(&record.entry.body); read && read->place == records::TemperatureReading::Place::tank)
        out += row(record, "", "Temperature, water", "", "", "deg C", {"", number(read->temperature.c(), false), "Actual", "", "", ""}, "Thermometer");
    }
    return out;
  }

 private:
  std::string reading_row(const Record& record, const Reading& reading) const {
    const records::Kit* kit = records::find_kit(records_, reading.kit);
    const KitTest* test = kit ? records::find_test(*kit, reading.test) : nullptr;
    const auto range = test ? records::observed_interval(*test, reading) : std::nullopt;
    if (!range) return "";
    const Written unit = written(test->unit);
    return row(record, reading.team ? "Read by " + *reading.team : "", characteristic(test->quantity), unit.speciation, fraction(test->quantity), unit.unit,
               Told(*test, reading, *range).result(), std::string(method_name(test->method)) + "; the keeper's name for it: " + kit->name);
  }

  std::string row(const Record& record, const std::string& activity_comment, std::string_view what, std::string_view speciation, std::string_view part, std::string_view unit, Outcome told,
                  const std::string& method) const {
    const std::string at = rfc3339_from_instant(record.entry.at), id = "REDD-" + std::to_string(record.id);
    if (invented_) told.comment = "INVENTED for demonstration, not measured. " + told.comment;
    return wire::csv_row({labels_.organization, id, "Field Msr/Obs", "Water", at.substr(0, 10), at.substr(11, 8), "UTC", labels_.project, labels_.location, activity_comment, id, told.condition,
                          std::string(what), std::string(speciation), std::string(part), told.value, told.value.empty() ? "" : std::string(unit), "Unreviewed", told.value_type, told.comment, method,
                          told.limit_type, told.limit, told.limit.empty() ? "" : std::string(unit)});
  }

  std::span<const Record> records_;
  const WqxLabels& labels_;
  bool invented_ = false;
};

}  // namespace

std::string wqx_csv(std::span<const Record> effective_records, const WqxLabels& labels) { return Rows(effective_records, labels).text(); }

}  // namespace redd::report
