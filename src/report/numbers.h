#pragma once
// The only place where a number is rounded, and where the reader's language and units are picked. Start at say().

#include <string>
#include <string_view>
#include <type_traits>

#include "quantities/sentence.h"
#include "report/catalogue.h"

namespace redd::report {

/// How a reader wants things shown.
struct Reader {
  bool fahrenheit = false;
  bool us_gallons = false;
  ZoneOffsets zone{};
  Language language = Language::en;
};

/// Fixed number of decimals, no trailing dot: decimals(0.126, 2) = "0.13".
std::string decimals(double value, int places);

/// Two significant digits in plain notation, e.g. 0.01234 -> "0.012", 3.961 -> "4.0", 127 -> "130"; three where the value is exact
/// at three (0.0125), trailing zeros dropped.
std::string two_digits(double value);

/// A number as the reader writes it: "0.5" -> "0,5". In: what decimals() or two_digits() gave; anything else stays.
std::string number_text(std::string number, const Reader& reader);

/// "between" texts of an interval in one unit: "0.2-0.6 mg/L"; "at least 4" when open above; one number when both ends round alike.
std::string interval_text(double low, double high, bool open_above, int places, const Phrase& unit, const Reader& reader = {});
/// The same with places chosen so that the narrower scale of the interval shows two digits.
std::string interval_text(double low, double high, bool open_above, const Phrase& unit, const Reader& reader = {});

/// A sentence with its numbers in place, rounded, in the reader's language.
std::string text_of(const Sentence& sentence, const Reader& reader);
/// Words made without typed values. A name that is in no catalogue stays as it is.
std::string text_of(const Phrase& words, const Reader& reader);

/// text_of(Sentence{pattern, values}): say(reader, "{0} alive", {Number{181}}).
std::string say(const Reader& reader, std::string_view pattern, std::initializer_list<Shown> values = {});
/// The same with ready words and whole numbers: say(reader, "{0} of {1}", name, 3).
template <class First, class... Parts>
  requires std::convertible_to<First, Phrase> || std::integral<std::remove_cvref_t<First>>
std::string say(const Reader& reader, std::string_view pattern, First&& first, Parts&&... parts) {
  return text_of(said(pattern, std::forward<First>(first), std::forward<Parts>(parts)...), reader);
}

/// With a capital letter in front, but for "pH".
std::string capitalised(std::string text);

/// "7 chances in 10"; never nought and never certain.
std::string chance_text(double probability, const Reader& reader = {});

std::string date_text(Date day, const Reader& reader = {});        ///< "Friday 14 February 2031"
std::string short_date_text(Date day, const Reader& reader = {});  ///< "14 Feb"
std::string date_span_text(Date from, Date to, const Reader& reader = {});  ///< "14 Feb to 18 Feb"; "14 Feb" when both are one
std::string month_text(Date day, const Reader& reader = {});       ///< "February 2031"
std::string weekday_text(std::chrono::weekday day, const Reader& reader = {});  ///< "Friday"
std::string time_text(const ZoneOffsets& zone, Instant at);  ///< "07:50"
std::string days_text(double days, const Reader& reader = {});  ///< "3 hours", "2 days"
std::string temperature_text(Temperature t, const Reader& reader);

}  // namespace redd::report
