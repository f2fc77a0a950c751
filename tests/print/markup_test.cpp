#include "print/detail/markup.h"

#include <gtest/gtest.h>

namespace redd::print {
namespace {

TEST(Escaped, TakesTheMeaningFromMarks) { EXPECT_EQ(escaped("<a href=\"x\" b='y'>&</a>"), "&lt;a href=&quot;x&quot; b=&#39;y&#39;&gt;&amp;&lt;/a&gt;"); }

TEST(Escaped, LeavesOutWhatXmlCannotHold) {
  EXPECT_EQ(escaped(std::string_view("a\0b\x01\x1f\tc\nd", 9)), "ab\tc\nd");
  EXPECT_EQ(escaped("a\xEF\xBF\xBE\xEF\xBF\xBF" "b"), "ab");
  EXPECT_EQ(escaped("Ñandú 8 °C 鱒"), "Ñandú 8 °C 鱒");
}

// RFC 4648, section 10: the test vectors.
TEST(Base64, IsThatOfRfc4648) {
  EXPECT_EQ(base64(""), "");
  EXPECT_EQ(base64("f"), "Zg==");
  EXPECT_EQ(base64("fo"), "Zm8=");
  EXPECT_EQ(base64("foo"), "Zm9v");
  EXPECT_EQ(base64("foob"), "Zm9vYg==");
  EXPECT_EQ(base64("fooba"), "Zm9vYmE=");
  EXPECT_EQ(base64("foobar"), "Zm9vYmFy");
}

}  // namespace
}  // namespace redd::print
