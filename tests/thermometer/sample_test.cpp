// What the kernel's files and a topic say, and what is refused.
#include "thermometer/sample.h"

#include "properties/generators.h"

namespace redd::thermometer {
namespace {

using Said = std::variant<double, Failure>;

double c(const Said& said) { return std::holds_alternative<double>(said) ? std::get<double>(said) : -999; }
Failure why(const Said& said) {
  EXPECT_TRUE(std::holds_alternative<Failure>(said));
  return std::holds_alternative<Failure>(said) ? std::get<Failure>(said) : Failure::jump;
}

TEST(Sample, ReadsThousandths) {
  EXPECT_DOUBLE_EQ(c(c_from_thousandths("8125\n", Source::one_wire)), 8.125);
  EXPECT_DOUBLE_EQ(c(c_from_thousandths("-500\n", Source::one_wire)), -0.5);
  EXPECT_EQ(why(c_from_thousandths("", Source::one_wire)), Failure::no_answer);
  EXPECT_EQ(why(c_from_thousandths("8.1 degrees", Source::other)), Failure::not_a_number);
}

TEST(Sample, ReadsTheTwoLinesOfASlaveOnlyWithARightCheckSum) {
  EXPECT_DOUBLE_EQ(c(c_from_w1_slave("82 00 4b 46 7f ff 0e 10 5f : crc=5f YES\n82 00 4b 46 7f ff 0e 10 5f t=8125\n")), 8.125);
  EXPECT_EQ(why(c_from_w1_slave("82 00 4b 46 7f ff 0e 10 5e : crc=5f NO\n82 00 4b 46 7f ff 0e 10 5e t=8125\n")), Failure::bad_check_sum);
  EXPECT_EQ(why(c_from_w1_slave("00 00 00 00 00 00 00 00 00 : crc=00 YES\n00 00 00 00 00 00 00 00 00 t=0\n")), Failure::error_value);
  EXPECT_EQ(why(c_from_w1_slave("50 05 4b 46 7f ff 0c 10 1c : crc=1c YES\n50 05 4b 46 7f ff 0c 10 1c t=85000\n")), Failure::power_on_value);
  EXPECT_EQ(why(c_from_w1_slave("")), Failure::no_answer);
  EXPECT_EQ(why(c_from_w1_slave("YES")), Failure::not_a_number);
  EXPECT_EQ(why(c_from_w1_slave("82 : crc=5f YES\nnothing\n")), Failure::not_a_number);
}

TEST(Sample, RefusesWhatStandsForAFault) {
  EXPECT_EQ(why(checked(85, Source::one_wire)), Failure::power_on_value);
  EXPECT_EQ(why(checked(85, Source::other)), Failure::out_of_range);
  for (const double fault : {-127.0, -0.0625, 127.9375}) EXPECT_EQ(why(checked(fault, Source::one_wire)), Failure::error_value) << fault;
  EXPECT_EQ(why(c_from_thousandths("-62\n", Source::one_wire)), Failure::error_value) << "as a driver rounds it";
  EXPECT_DOUBLE_EQ(c(checked(-0.125, Source::one_wire)), -0.125);
  EXPECT_DOUBLE_EQ(c(checked(-0.0625, Source::other)), -0.0625);
  EXPECT_EQ(why(checked(-127, Source::other)), Failure::out_of_range);
  EXPECT_EQ(why(checked(std::nan(""), Source::other)), Failure::not_a_number);
  EXPECT_EQ(why(c_from_number("inf")), Failure::not_a_number);
  EXPECT_EQ(why(c_from_number("8,1")), Failure::not_a_number);
}

RC_GTEST_PROP(Sample, AnyTextIsANumberOfWaterOrRefused, (std::string text)) {
  for (const Said& said : {c_from_thousandths(text, Source::one_wire), c_from_w1_slave(text), c_from_number(text)})
    if (const double* value = std::get_if<double>(&said)) RC_ASSERT(*value >= -2 && *value <= 45);
}

RC_GTEST_PROP(Sample, EveryStepOfAChipInWaterIsReadExactlyButForTheFaults, ()) {
  const int step = *rc::gen::inRange(-32, 720);  // sixteenths of a degree, -2 to 45
  RC_PRE(step != -1);
  RC_ASSERT(c(c_from_number(std::to_string(step / 16.0), Source::one_wire)) == std::round(step / 16.0 * 1e6) / 1e6);
}

}  // namespace
}  // namespace redd::thermometer
