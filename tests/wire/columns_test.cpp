#include "wire/columns.h"

#include <gtest/gtest.h>

#include <set>

#include "wire/any_record.h"
#include "wire/codec.h"
#include "wire/json.h"

namespace redd::wire {
namespace {

TEST(Columns, AreTheFieldsThatAreWritten) {
  for (const auto kind : records::kind_names()) {
    const auto columns = columns_of_kind(kind);
    std::set<std::string> names, written, always;
    for (const Column& column : columns) {
      EXPECT_TRUE(names.insert(column.name).second) << kind << " " << column.name;
      EXPECT_FALSE(column.meaning.empty()) << kind << " " << column.name;
    }
    for (unsigned seed = 0; seed < 60; ++seed) {
      const Json body = *parsed(json_from_body(test::any_body(kind, seed)));
      for (const auto& [name, value] : body.items()) written.insert(name);
      for (const Column& column : columns)
        if (column.filled) EXPECT_TRUE(body.contains(column.name)) << kind << " " << column.name;
    }
    EXPECT_EQ(names, written) << kind;
  }
}

TEST(Columns, CarryTypeRangeAndWords) {
  const auto columns = columns_of_kind("temperature");
  ASSERT_EQ(columns.size(), 2u);
  EXPECT_EQ(columns[0].name, "temperature_c");
  EXPECT_EQ(columns[0].type, Column::Type::number);
  EXPECT_EQ(columns[0].range->high, 60);
  EXPECT_EQ(columns[1].words, (std::vector<std::string>{"tank", "room", "source"}));
}

TEST(UnitOfField, IsReadFromItsEnding) {
  EXPECT_EQ(unit_of_field("nitrate_mg_n_per_l"), "mg/L as N");
  EXPECT_EQ(unit_of_field("nitrate_act_mg_no3_per_l"), "mg/L as NO3");
  EXPECT_EQ(unit_of_field("flow_l_per_min"), "L/min");
  EXPECT_EQ(unit_of_field("thermal_sum_c_days"), "°C days");
  EXPECT_EQ(unit_of_field("wall_thickness_mm"), "mm");
  EXPECT_EQ(unit_of_field("text"), "");
}

}  // namespace
}  // namespace redd::wire
