#pragma once
// The season of tests/reference/data/tank_posterior as the program takes it, and what the sampler outside this project found for it.
// Made by tools/reference; see the heads of the tables.

#include <algorithm>
#include <cmath>
#include <sstream>
#include <string>
#include <vector>

#include "inference/filter_posterior.h"
#include "reference/table.h"

namespace redd::tests {

inline records::KitTest reference_test(const reference::Row& row) {
  using records::Quantity;
  using records::TestUnit;
  struct Named {
    const char* test;
    Quantity quantity;
    TestUnit unit;
    const char* unit_name;
  };
  constexpr Named known[]{{"ammonia", Quantity::total_ammonia, TestUnit::mg_nh4_per_l, "mg_nh4_per_l"}, {"nitrite", Quantity::nitrite, TestUnit::mg_no2_per_l, "mg_no2_per_l"},
                          {"nitrate", Quantity::nitrate, TestUnit::mg_no3_per_l, "mg_no3_per_l"}, {"ph", Quantity::ph, TestUnit::ph, "ph"},
                          {"kh", Quantity::alkalinity, TestUnit::german_degrees, "german_degrees"}};
  records::KitTest test;
  test.key = row.text("test");
  for (const Named& named : known)
    if (test.key == named.test) {
      test.quantity = named.quantity;
      test.unit = named.unit;
      EXPECT_EQ(row.text("unit"), named.unit_name);
    }
  if (row.text("method") == "drops") {
    test.method = records::Method::drop_count;
    test.per_drop = row.number("per_drop");
  }
  std::istringstream steps(row.text("steps"));
  for (std::string step; std::getline(steps, step, ';');) test.steps.push_back(std::strtod(step.c_str(), nullptr));
  return test;
}

inline records::Reading::Form reference_form(const std::string& name) {
  using Form = records::Reading::Form;
  return name == "step" ? Form::step : name == "between" ? Form::between : name == "above_last" ? Form::above_last : name == "below_first" ? Form::below_first : Form::drops;
}

/// Ten weeks, five tests; both activities held at one.
inline inference::FilterSeason reference_season() {
  using namespace inference;
  FilterSeason season;
  season.begin = Instant{std::chrono::sys_days{std::chrono::year{2031} / 1 / 6}};
  season.media_area_m2 = 1.8;
  season.activity_spread = 0.0;
  for (const auto& row : reference::table("tank_posterior/days")) {
    tank::DayForcing day;
    day.temperature_c = row.number("temperature_c");
    day.excretion_mg_n_per_day = row.number("excretion_mg_n_per_day");
    day.organic_mg_n_per_day = row.number("organic_mg_n_per_day");
    day.oxygen_use_mg_o2_per_day = row.number("oxygen_use_mg_o2_per_day");
    season.forcing.days.push_back(day);
  }
  for (const auto& row : reference::table("tank_posterior/deeds")) {
    const std::string& deed = row.text("deed");
    const double at_day = row.number("day"), volume_l = row.number("volume_l");
    tank::SourceWater water;
    water.nitrate_mg_n_per_l = row.number("nitrate_mg_n_per_l");
    water.alkalinity_meq_per_l = row.number("alkalinity_meq_per_l");
    water.inorganic_carbon_mmol_per_l = row.number("carbon_mmol_per_l");
    water.oxygen_mg_o2_per_l = row.number("oxygen_mg_o2_per_l");
    if (deed == "fill") {
      season.volume_l = volume_l;
      season.first_water.nitrate_mg_n_per_l = water.nitrate_mg_n_per_l;
      season.first_water.alkalinity_meq_per_l = water.alkalinity_meq_per_l;
      season.first_water.inorganic_carbon_mmol_per_l = water.inorganic_carbon_mmol_per_l;
      season.first_water.oxygen_mg_o2_per_l = water.oxygen_mg_o2_per_l;
    } else if (deed == "change") {
      season.events.push_back({at_day, WaterChanged{volume_l, water}});
    } else if (deed == "top_up") {
      season.events.push_back({at_day, WaterAdded{volume_l, water}});
    } else if (deed == "rinse") {
      season.events.push_back({at_day, FilterLost{row.number("lost_fraction")}});
    } else {
      tank::Dose dose;
      dose.ammonium_chloride_mg_n = row.number("ammonium_chloride_mg_n");
      dose.bicarbonate_meq = row.number("bicarbonate_meq");
      season.events.push_back({at_day, dose});
    }
  }
  std::vector<records::KitTest> kit;
  for (const auto& row : reference::table("tank_posterior/kit")) kit.push_back(reference_test(row));
  for (const auto& row : reference::table("tank_posterior/readings")) {
    if (season.sittings.empty() || season.sittings.back().at_day != row.number("day")) season.sittings.push_back({row.number("day"), {}});
    for (const records::KitTest& test : kit) {
      if (test.key != row.text("test")) continue;
      records::Reading reading;
      reading.test = test.key;
      reading.form = reference_form(row.text("form"));
      reading.value = row.number("value");
      if (reading.form == records::Reading::Form::between) reading.upper_value = *std::ranges::upper_bound(test.steps, *reading.value);
      season.sittings.back().tests.push_back({test, "kit", {reading}, {}});
    }
  }
  return season;
}

/// Names of the unknowns in the outside sampler's tables, each with its row in this model.
inline std::vector<std::pair<std::string, std::size_t>> reference_unknowns(const inference::SeasonModel& model) {
  std::vector<std::pair<std::string, std::size_t>> rows;
  const char* names[]{"ammonia_oxidiser_growth", "ammonia_oxidiser_growth_theta", "ammonia_oxidiser_decay", "ammonia_oxidiser_yield", "ammonia_half_saturation",
                      "ammonia_oxidiser_oxygen_half_saturation", "nitrite_oxidiser_growth", "nitrite_oxidiser_growth_theta", "nitrite_oxidiser_decay",
                      "nitrite_oxidiser_yield", "nitrite_half_saturation", "nitrite_oxidiser_oxygen_half_saturation", "free_ammonia_inhibition", "decay_theta",
                      "alkalinity_half_saturation", "ammonification", "filter_capacity", "gas_transfer", "cold_shock_sensitivity", "cold_shock_recovery",
                      "load_factor", "ammonia_oxidisers_at_first", "nitrite_oxidisers_at_first", "first_alkalinity", "first_nitrate", "nitrite_in_nitrate_test",
                      "dose", "seeding"};
  for (std::size_t row = 0; row < std::size(names); ++row) rows.emplace_back(names[row], row);
  for (const char* test : {"ammonia", "nitrite", "nitrate", "ph", "kh"}) rows.emplace_back(std::string("error_of_") + test, model.bias_row("kit", test));
  return rows;
}

}  // namespace redd::tests
