#pragma once
// The only place where a number is rounded and where the reader's units are picked.

#include <string>
#include <string_view>

#include "quantities/sentence.h"

namespace redd::report {

/// How a reader wants things shown. Language comes as a second member when there is a second one.
struct Reader {
  bool fahrenheit = false;
  bool us_gallons = false;
  ZoneOffsets zone{};
};

/// Fixed number of decimals, no trailing dot: decimals(0.126, 2) = "0.13".
std::string decimals(double value, int places);

/// Two significant digits in plain notation, e.g. 0.01234 -> "0.012", 3.961 -> "4.0", 127 -> "130"; three where the value is exact
/// at three (0.0125), trailing zeros dropped.
std::string two_digits(double value);

/// "between" texts of an interval in one unit: "0.2-0.6 mg/L"; "at least 4" when open above; one number when both ends round alike.
std::string interval_text(double low, double high, bool open_above, int places, std::string_view unit);
/// The same with places chosen so that the narrower scale of the interval shows two digits.
std::string interval_text(double low, double high, bool open_above, std::string_view unit);

/// A sentence with its numbers in place, rounded.
std::string text_of(const Sentence& sentence, const Reader& reader);

/// "7 chances in 10"; never nought and never certain.
std::string chance_text(double probability);

std::string date_text(Date day);              ///< "Friday 14 February 2031"
std::string short_date_text(Date day);        ///< "14 Feb"
std::string date_span_text(Date from, Date to);  ///< "14 Feb to 18 Feb"; "14 Feb" when both are one
std::string time_text(const ZoneOffsets& zone, Instant at);  ///< "07:50"
std::string days_text(double days);           ///< "3 hours", "2 days"
std::string temperature_text(Temperature t, const Reader& reader);

}  // namespace redd::report
