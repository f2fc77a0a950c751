#include "quantities/phrase_parts.h"

#include <gtest/gtest.h>

namespace redd {
namespace {

TEST(AsTyped, LeavesAwayWhatAConversionAdds) {
  EXPECT_EQ(as_typed(12.5), "12.5");
  EXPECT_EQ(as_typed(60.0 + 1e-12), "60");
  EXPECT_EQ(as_typed(-3.0), "-3");
  EXPECT_EQ(as_typed(-0.0001), "0");
  EXPECT_EQ(as_typed(43.33333), "43.333");
  EXPECT_EQ(as_typed(43.33333, 0), "43");
  EXPECT_EQ(as_typed(200.0, 0), "200");
}

TEST(Amount, IsMetricWordsAndExactUnderneath) {
  const Phrase words = amount(Temperature::from_f(110));
  EXPECT_EQ(words, "43.333 °C");
  EXPECT_EQ(std::get<Temperature>(*amount_in(words)).c(), Temperature::from_f(110).c());
  EXPECT_EQ(std::get<Volume>(*amount_in(amount(Volume::from_l(0.1)))).l(), 0.1);
  EXPECT_EQ(std::get<Length>(*amount_in(amount(Length{61.0 / 3}))).cm, 61.0 / 3);
}

TEST(Amount, IsInNoOtherWords) {
  EXPECT_FALSE(amount_in("43.333 °C"));
  EXPECT_FALSE(amount_in(said("{0}", 7)));
  EXPECT_FALSE(amount_in(""));
}

TEST(FillingOf, CountsWholeNumbersOnly) {
  EXPECT_EQ(filling_of("12", "12").count, 12);
  EXPECT_FALSE(filling_of("12 L", "12 L").count);
  EXPECT_FALSE(filling_of("1.5", "1,5").count);
}

}  // namespace
}  // namespace redd
